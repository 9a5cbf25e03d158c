"""What is read off a photographed cloth, as values."""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError
from palette.stripes.reading_repeat import ReadRepeat
from palette.swatches.palette import Palette

__all__ = ["ClothReading", "ReadStripe"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadStripe:
    """One stripe of a photographed cloth.

    Attributes
    ----------
    colour : str
        Name of its yarn, as in the reading's palette.
    hex : str
        ``#rrggbb`` of the yarn, the light evened out.
    lab : tuple of 3 float
        CIELAB D65 of the yarn as it looks in the cloth: weft and warp together.
    share : float
        Width as a part of the cloth along the warp, in picks where threads can be counted: an
        uneven beat is taken out.
    start : float
        Where it begins, as a part of the cloth along the warp.
    width_mm : float or None
        None where no scale is known.
    picks : int or None
        None where they can be neither reckoned nor counted.
    confidence : float
        From 0 to 1; under 0.5 the stripe is named in the warnings.
    doubt : str
        Why the reading is unsure of it, or "".
    """

    colour: str
    hex: str
    lab: tuple[float, float, float]
    share: float
    start: float = 0.0
    width_mm: float | None = None
    picks: int | None = None
    confidence: float = 1.0
    doubt: str = ""

    def __post_init__(self) -> None:
        """Refuse a stripe without width."""
        if not 0 < self.share <= 1:
            thing = f"stripe ({self.colour})"
            raise InputError(thing, "share must be over 0 and up to 1", got=f"{self.share}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothReading:
    """The stripes of a photographed cloth.

    Attributes
    ----------
    palette : Palette
        The yarns; a share is the yarn's part of the cloth's length.
    stripes : tuple of ReadStripe
        From the top of the picture down, or from the left to the right where they stand upright.
    upright : bool
        Whether the stripes stand upright in the picture.
    skew_degrees : float
        How far from level (or from upright) they run, clockwise positive.
    length_mm : float or None
        Length of the cloth that the picture shows along the warp.
    picks_per_cm : float or None
        As given, or reckoned from the picks counted and the scale.
    picks_counted : bool
        Whether picks were counted in the threads of the picture, not reckoned from lengths.
    repeat : ReadRepeat or None
        The repeat that the cloth follows, if it does.
    light_range : float
        Darkest light on the cloth as a part of the brightest; it has been evened out.
    ends_seen : tuple of 2 bool
        Whether the picture shows where the cloth begins and ends along its warp.
    width_mm : float or None
        Width of the cloth, where it was given or follows from the length.
    warnings : tuple of str
        Unsure stripes, and whatever else to look at, as sentences.
    """

    palette: Palette
    stripes: tuple[ReadStripe, ...]
    upright: bool
    skew_degrees: float
    length_mm: float | None = None
    picks_per_cm: float | None = None
    picks_counted: bool = False
    repeat: ReadRepeat | None = None
    light_range: float = 1.0
    ends_seen: tuple[bool, bool] = (False, False)
    width_mm: float | None = None
    warnings: tuple[str, ...] = ()

    @property
    def unsure(self) -> tuple[int, ...]:
        """Numbers, from 1, of the stripes that are unsure."""
        return tuple(k for k, stripe in enumerate(self.stripes, 1) if stripe.doubt)

    @property
    def total_picks(self) -> int | None:
        """Picks of all stripes; None where they are not known."""
        if any(stripe.picks is None for stripe in self.stripes):
            return None
        return sum(stripe.picks or 0 for stripe in self.stripes)
