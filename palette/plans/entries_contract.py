"""The entries of a plan file: which keys there are, and what they may hold."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from palette.measures import Units
from palette.plans.palette_contract import Hex, Lab, PaletteFile
from palette.stripes.plan import Role
from palette.yarn.amounts import Use

__all__ = [
    "AnyEntry",
    "ClothEntry",
    "DraftEntry",
    "PlanFile",
    "SleyEntry",
    "StripeEntry",
    "WarpEntry",
    "WarpStripeEntry",
    "WeftEntry",
    "YarnEntry",
]

Count = Annotated[int, Field(ge=1)]
Positive = Annotated[float, Field(gt=0)]
NotNegative = Annotated[float, Field(ge=0)]
Share = Annotated[float, Field(ge=0, lt=1)]


class AnyEntry(BaseModel):
    """What all entries share: keys that are not known are passed over."""

    model_config = ConfigDict(extra="ignore", frozen=True, allow_inf_nan=False)


class WeftEntry(AnyEntry):
    """Figures of one cloth's weft; lengths without fringes."""

    cloth: str = ""
    picks_per_cm: Positive
    total_picks: Count
    step: Count
    least: Annotated[int, Field(ge=0)] = 0
    finished_length_mm: Positive
    woven_length_mm: Positive
    true_finished_length_mm: Positive
    shrinkage_length: Share
    order: str
    seed: int = 0
    carry_picks: int | None = None
    shuttles: int | None = None
    repeat_stripes: int | None = None
    warnings: tuple[str, ...] = ()


class StripeEntry(AnyEntry):
    """One stripe; pick 1 is the first woven."""

    colour: str
    hex: Hex
    lab: Lab
    picks: Count
    first_pick: Count
    last_pick: Count
    woven_mm: Positive
    finished_mm: Positive
    role: Role = "stripe"


class ClothEntry(AnyEntry):
    """A further cloth on the same warp."""

    palette: PaletteFile
    weft: WeftEntry
    stripes: Annotated[tuple[StripeEntry, ...], Field(min_length=1)]


class WarpEntry(AnyEntry):
    """The warp."""

    colour: str
    hex: Hex
    lab: Lab
    ends: Count
    ends_per_cm: Positive
    width_in_reed_mm: Positive
    woven_width_mm: Positive
    finished_width_mm: Positive
    length_mm: Positive
    cloth_lengths_mm: tuple[float, ...]
    draw_in: Share
    shrinkage_width: Share
    take_up: Share
    fringe_mm: NotNegative
    gap_mm: NotNegative
    sampling_mm: NotNegative
    loom_waste_mm: NotNegative
    doubled_ends: Annotated[int, Field(ge=0)] = 0


class SleyEntry(AnyEntry):
    """Ends in each dent of the repeat."""

    dents_per_cm: Positive
    order: tuple[int, ...]
    ends_per_cm_asked: Positive


class WarpStripeEntry(AnyEntry):
    """A run of ends in one colour."""

    colour: str
    hex: Hex
    ends: Count


class DraftEntry(AnyEntry):
    """The weave; shaft 1 is the one nearest the weaver."""

    name: str
    threading: tuple[int, ...]
    tie_up: tuple[tuple[int, ...], ...]
    treadling: tuple[int, ...]


class YarnEntry(AnyEntry):
    """What one yarn comes to."""

    colour: str
    hex: Hex
    use: Use
    count: str
    tex: Positive
    picks: Annotated[int, Field(ge=0)]
    starts: Annotated[int, Field(ge=0)]
    net_length_m: NotNegative
    length_m: NotNegative
    mass_g: NotNegative
    tail_length_m: NotNegative = 0.0
    carried_length_m: NotNegative = 0.0
    sampling_length_m: NotNegative = 0.0
    ends: Annotated[int, Field(ge=0)] = 0
    allowance: NotNegative = 0.0


class PlanFile(AnyEntry):
    """A plan file, version 1; `palette`, `weft` and `stripes` are those of the first cloth."""

    kind: Literal["leafweft/plan"] = "leafweft/plan"
    version: Literal[1] = 1
    name: str
    units: Units = Units.METRIC
    palette: PaletteFile
    weft: WeftEntry
    stripes: Annotated[tuple[StripeEntry, ...], Field(min_length=1)]
    more_cloths: tuple[ClothEntry, ...] = ()
    warp: WarpEntry
    draft: DraftEntry
    sley: SleyEntry | None = None
    warp_stripes: tuple[WarpStripeEntry, ...] = ()
    yarn: tuple[YarnEntry, ...]
    brief: dict[str, str | int | tuple[str, ...]] = Field(default_factory=dict)
    warnings: tuple[str, ...] = ()
