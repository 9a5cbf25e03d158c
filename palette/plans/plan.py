"""The whole plan: palette, stripes, warp and yarn of every cloth on one warp."""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import WeavingError
from palette.loom.chains import WarpStripe
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.sley import Sley
from palette.loom.warp import Warp
from palette.measures import Units
from palette.plain_text import check_plain
from palette.stripes.plan import StripePlan
from palette.swatches.palette import Palette
from palette.yarn.amounts import YarnAmount

__all__ = ["Plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything that goes to the loom.

    Attributes
    ----------
    name : str
        What the weaver calls it.
    cloths : tuple of StripePlan
        In weaving order, at least one.
    warp : Warp
        The one warp that they are woven on.
    yarns : tuple of YarnAmount
        Wefts in the order in which they first enter, then warps; all cloths together.
    draft : Draft
        The weave.
    sley : Sley or None
        How the reed is sleyed; None where no reed was named.
    warp_stripes : tuple of WarpStripe
        Colours of the warp from the first end to the last; empty where it is of one colour.
    units : Units
        The system that figures are printed in.
    warp_lab : tuple of 3 float
        CIELAB D65 of the warp yarn.
    warp_hex : str
    asked : tuple of (str, value)
        The brief it was made from, as a person would type it.
    warnings : tuple of str
        Everything that was changed or should be looked at, as sentences.
    """

    name: str
    cloths: tuple[StripePlan, ...]
    warp: Warp
    yarns: tuple[YarnAmount, ...]
    units: Units = Units.METRIC
    draft: Draft = PLAIN_WEAVE
    sley: Sley | None = None
    warp_stripes: tuple[WarpStripe, ...] = ()
    warp_lab: tuple[float, float, float] = (92.0, 0.0, 6.0)
    warp_hex: str = "#ece7db"
    asked: tuple[tuple[str, str | int | tuple[str, ...]], ...] = ()
    warnings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a plan without a cloth, and a name that cannot be shown."""
        for thing, name in (("plan", self.name), *(("cloth", each.name) for each in self.cloths)):
            check_plain(name, thing=thing)
        if not self.cloths:
            raise WeavingError("plan", "must hold at least one cloth", got="none")

    @property
    def palette(self) -> Palette:
        """Palette of the first cloth."""
        return self.cloths[0].palette
