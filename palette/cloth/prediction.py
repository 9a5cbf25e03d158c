"""A predicted cloth colour with what a weaver has to know about it."""

from __future__ import annotations

from dataclasses import dataclass

from palette.cloth.own_samples import OwnYarn
from palette.cloth.woven_colour import distance_outside, typical_error, woven_colour
from palette.perception.difference import chroma
from palette.perception.spaces import lab_to_hex
from palette.stripes.plan import StripePlan

__all__ = ["GUIDE", "WovenStripe", "dull_warnings", "predict", "woven_stripes"]

GUIDE = "A guide, not a measurement: weave and wash a sample before dyeing the whole lot."
NEAR_MEASURED = 22.0
"""CIELAB distance from the measured yarns up to which nothing is said."""
BALANCED = 0.15
"""Distance of the warp's share from one half up to which nothing is said."""
DULL_LOSS, DULL_PART = 10.0, 0.3
"""A stripe is called dull where it loses this much chroma and this part of it."""

SHIFT = 20.0
"""A stripe is called lighter or darker where its L changes by this: two steps of Munsell value,
each about 10 of CIELAB L (Munsell renotation, Newhall, Nickerson and Judd 1943)."""
GREY_CHROMA = 5.0
"""Below this chroma of a yarn no part of it is worth naming: it is all but grey."""

Lab = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class WovenStripe:
    """What one weft becomes on one warp.

    Attributes
    ----------
    colour : str
        Name of the weft.
    yarn_lab, cloth_lab : tuple of 3 float
        CIELAB D65 of the weft, and of the cloth.
    cloth_hex : str
        Nearest colour of the cloth in sRGB.
    in_srgb : bool
        False where `cloth_hex` is clipped.
    typical_error : float
        Mean error to expect, CIEDE2000.
    outside : float
        CIELAB distance from the measured yarns.
    note : str
        The guide sentence with the error, and how far from the measured cloths where that
        matters.
    """

    colour: str
    yarn_lab: Lab
    cloth_lab: Lab
    cloth_hex: str
    in_srgb: bool
    typical_error: float
    outside: float
    note: str

    @property
    def yarn_chroma(self) -> float:
        """CIELAB chroma of the weft yarn."""
        return float(chroma(self.yarn_lab))

    @property
    def cloth_chroma(self) -> float:
        """CIELAB chroma of the cloth."""
        return float(chroma(self.cloth_lab))

    @property
    def chroma_lost(self) -> float:
        """Chroma of the yarn that the cloth does not have; negative where it gains."""
        return self.yarn_chroma - self.cloth_chroma

    @property
    def part_lost(self) -> float:
        """The loss as a part of the yarn's chroma; 0 where it gains, or is all but grey."""
        if self.yarn_chroma < GREY_CHROMA:
            return 0.0
        return max(0.0, self.chroma_lost / self.yarn_chroma)

    @property
    def shifted(self) -> bool:
        """Whether the cloth is so much lighter or darker than the yarn that it needs a word."""
        return abs(self.lightness_change) >= SHIFT

    @property
    def lightness_change(self) -> float:
        """L of the cloth minus L of the yarn."""
        return self.cloth_lab[0] - self.yarn_lab[0]

    @property
    def dull(self) -> bool:
        """Whether the loss is large enough to warn of."""
        lost = self.chroma_lost
        return lost >= DULL_LOSS and lost >= DULL_PART * self.yarn_chroma

    @property
    def warning(self) -> str:
        """Warn of a dull stripe with figures, or ""."""
        if not self.dull:
            return ""
        part = f"{100 * self.part_lost:.0f} %"
        tone = "lighter" if self.lightness_change > 0 else "darker"
        return (
            f"{self.colour}: woven on this warp it loses {self.chroma_lost:.0f} of its "
            f"{self.yarn_chroma:.0f} brightness of colour ({part}) and comes out "
            f"{abs(self.lightness_change):.0f} {tone} on the lightness scale of 0 to 100 (typical "
            f"error {self.typical_error:.1f})."
        )


def predict(
    colour: str,
    weft_lab: Lab,
    warp_lab: Lab,
    warp_share: float = 0.5,
    *,
    own: OwnYarn | None = None,
) -> WovenStripe:
    """Colour of the cloth of one weft on one warp, with its typical error.

    Examples
    --------
    >>> rust = predict("rust", (46, 26, 47), (89, -3, 12))
    >>> rust.cloth_hex, rust.dull
    ('#c78f6f', True)
    """
    lab = woven_colour(warp_lab, weft_lab, warp_share, own=own)[0]
    error = float(typical_error(warp_lab, weft_lab, warp_share)[0])
    outside = float(distance_outside(warp_lab, weft_lab, warp_share)[0])
    code, in_srgb = lab_to_hex(lab)
    note = f"Typical error {error:.1f} (CIEDE2000). {GUIDE}"
    if outside > NEAR_MEASURED:
        note += (
            f" It lies {outside:.0f} outside the measured yarns (CIELAB), where the plain mixing "
            f"law takes over."
        )
    if abs(warp_share - 0.5) > BALANCED:
        note += (
            " The measured cloths were balanced plain weave; here "
            f"{100 * warp_share:.0f} % of the face is warp."
        )
    if own is not None:
        note += f" {own.gain}"
    return WovenStripe(
        colour=colour,
        yarn_lab=weft_lab,
        cloth_lab=(float(lab[0]), float(lab[1]), float(lab[2])),
        cloth_hex=code,
        in_srgb=in_srgb,
        typical_error=error,
        outside=outside,
        note=note,
    )


def woven_stripes(
    cloth: StripePlan, warp_lab: Lab, warp_share: float = 0.5, *, own: OwnYarn | None = None
) -> tuple[WovenStripe, ...]:
    """Cloth colour of every stripe, in weaving order; equal wefts are worked out once.

    Parameters
    ----------
    cloth : StripePlan
    warp_lab : tuple of 3 float
        CIELAB D65 of the warp yarn.
    warp_share : float
        Of the face, from `palette.cloth.shown_face`.
    own : OwnYarn, optional
    """
    wefts = {(stripe.colour, stripe.lab) for stripe in cloth.stripes}
    found = {weft: predict(*weft, warp_lab, warp_share, own=own) for weft in wefts}
    return tuple(found[stripe.colour, stripe.lab] for stripe in cloth.stripes)


def dull_warnings(stripes: tuple[WovenStripe, ...]) -> tuple[str, ...]:
    """Warnings of the dull stripes, each weft once, in the order in which they first enter."""
    return tuple(dict.fromkeys(stripe.warning for stripe in stripes if stripe.dull))
