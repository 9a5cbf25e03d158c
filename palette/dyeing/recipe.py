"""A recipe in a dyer's own dyes, and how far to trust its colour."""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError

__all__ = ["Recipe", "RecipePart", "RecipePlan"]

Lab = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePart:
    """One dye of a recipe.

    Attributes
    ----------
    dye : str
        What the dyer calls it.
    percent : float
        Of the dry fibre.
    dye_g, stock_ml : float or None
        For the goods; None where no goods were given.
    """

    dye: str
    percent: float
    dye_g: float | None = None
    stock_ml: float | None = None

    def __post_init__(self) -> None:
        """Refuse an amount that is not more than 0."""
        if not self.percent > 0:
            raise InputError(f"dye {self.dye!r}", "must be more than 0 %", got=f"{self.percent}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Dyes together in one bath.

    Attributes
    ----------
    parts : tuple of RecipePart
        Largest first; none: the undyed yarn.
    lab : tuple of 3 float
        CIELAB D65 predicted for it; a guide.
    hex : str
    difference : float
        CIEDE2000 between the prediction and the colour that is wanted.
    """

    parts: tuple[RecipePart, ...]
    lab: Lab
    hex: str
    difference: float

    @property
    def depth_percent(self) -> float:
        """Depth of shade: all dyes together."""
        return sum(part.percent for part in self.parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePlan:
    """The recipe to try, and what is known of its error.

    Attributes
    ----------
    target_lab : tuple of 3 float
    target_hex : str
    best : Recipe
        Of the fewest dyes that come as near as a prediction can tell.
    by_dyes : tuple of Recipe
        The nearest recipe of no dye, of one, of two, and so on.
    nearest_sample : str
        The dyer's own sample that is nearest to the colour.
    nearest_sample_difference : float
        CIEDE2000 to that one.
    sample_errors : tuple of (str, float)
        CIEDE2000 of each dyed sample, predicted from all the others.
    typical_error : float
        Mean of those, with the camera's error where the colour is from a photograph.
    guide : str
        Sentence to print beside the predicted colour.
    warnings : tuple of str
    """

    target_lab: Lab
    target_hex: str
    best: Recipe
    by_dyes: tuple[Recipe, ...]
    nearest_sample: str
    nearest_sample_difference: float
    sample_errors: tuple[tuple[str, float], ...]
    typical_error: float
    guide: str
    warnings: tuple[str, ...] = ()
