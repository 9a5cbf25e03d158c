"""A blend of dyed fleece to card together, and how far to trust its colour."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError

__all__ = [
    "BLEND_ERROR_CIEDE2000",
    "CAMERA_ERROR_CIEDE2000",
    "Blend",
    "BlendPart",
    "BlendPlan",
    "guide_sentence",
]

Lab = tuple[float, float, float]

BLEND_ERROR_CIEDE2000 = 1.7
"""Typical CIEDE2000 between the colour predicted for a blend and the blend, measured colours.

Two parts, as the root of their squares: 1.2 for spectra recovered from the colours instead of
measured (mean over blends of the 99 measured spectra of CIE 224:2017, a test of this library), and
1.2 for the law itself on measured blends (1.14 to 1.23, published).
"""

CAMERA_ERROR_CIEDE2000 = 4.0
"""Typical CIEDE2000 of a colour taken from a photograph: 3 to 5, common practice, no source."""

_DUST = 1e-6


def guide_sentence(typical_error: float, sample: str) -> str:
    """Sentence that goes with every predicted colour.

    Parameters
    ----------
    typical_error : float
        CIEDE2000.
    sample : str
        What to try first, as a clause.

    Examples
    --------
    >>> guide_sentence(1.7, "card 5 g of it")
    'A guide: such predictions are typically off by CIEDE2000 1.7. First card 5 g of it.'
    """
    return (
        f"A guide: such predictions are typically off by CIEDE2000 {typical_error:.1f}. "
        f"First {sample}."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendPart:
    """One fleece of a blend.

    Attributes
    ----------
    name, hex : str
    share : float
        Part of the mass, after rounding to grams where there is a batch.
    mass_g : float or None
        For the batch; None where no batch was asked for.
    """

    name: str
    hex: str
    share: float
    mass_g: float | None = None

    def __post_init__(self) -> None:
        """Refuse a share that is not more than 0."""
        if not 0 < self.share <= 1 + _DUST:
            rule = "share must be more than 0 and at most 1"
            raise InputError(f"part {self.name!r}", rule, got=f"{self.share}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Blend:
    """Fleeces carded together.

    Attributes
    ----------
    parts : tuple of BlendPart
        Largest share first; shares sum to 1.
    lab : tuple of 3 float
        CIELAB D65 predicted for it, as it will really be weighed; a guide.
    hex : str
    difference : float
        CIEDE2000 between the prediction and the colour that is wanted.
    """

    parts: tuple[BlendPart, ...]
    lab: Lab
    hex: str
    difference: float

    def __post_init__(self) -> None:
        """Refuse shares that do not sum to 1."""
        total = math.fsum(part.share for part in self.parts)
        if not abs(total - 1) <= _DUST:
            raise InputError("blend", "shares must sum to 1", got=f"{total:.6f}")

    @property
    def batch_g(self) -> float | None:
        """Mass of the whole batch; None where none was asked for."""
        masses = [part.mass_g for part in self.parts if part.mass_g is not None]
        return math.fsum(masses) if len(masses) == len(self.parts) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendPlan:
    """The blend to card, and others to choose from.

    Attributes
    ----------
    target_lab : tuple of 3 float
        CIELAB D65 that is wanted.
    target_hex : str
    best : Blend
        Of the fewest parts that come as near as a prediction can tell.
    by_parts : tuple of Blend
        The nearest blend of one part, of two, and so on.
    typical_error : float
        CIEDE2000 by which such predictions are typically off.
    guide : str
        Sentence to print beside the predicted colour.
    warnings : tuple of str
    """

    target_lab: Lab
    target_hex: str
    best: Blend
    by_parts: tuple[Blend, ...]
    typical_error: float
    guide: str
    warnings: tuple[str, ...] = ()
