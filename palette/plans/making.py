"""Making a plan: one brief through all the stages."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from palette.loom.planning import plan_warp
from palette.perception.colour_text import parse_colour
from palette.perception.spaces import lab_to_hex
from palette.plans.options import OPTIONS
from palette.plans.plan import Plan
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.swatches.palette import Palette
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["make_plan", "plan_cloth", "plan_from_stripes"]


def plan_cloth(brief: Brief, palette: Palette, *, name: str = "") -> StripePlan:
    """Plan the stripes of one cloth as a brief asks.

    Raises
    ------
    InputError, WeavingError
        A value out of range, or a cloth that cannot be woven; the message names the nearest
        one that can.
    """
    plan = plan_stripes(
        palette,
        length_mm=brief.length.mm,
        picks_per_cm=brief.picks.per_cm,
        shrinkage_length=brief.shrinkage_along,
        step=brief.step,
        least=brief.least,
        order=brief.order,
        direction=brief.direction,
        repeats=brief.repeats,
        seed=brief.seed,
    )
    return replace(plan, name=name)


def plan_from_stripes(brief: Brief, cloths: tuple[StripePlan, ...]) -> Plan:
    """Reckon the warp and the yarn for cloths whose stripes are settled.

    Raises
    ------
    InputError, CountError
        A value out of range.
    """
    warp = plan_warp(
        finished_width_mm=brief.width.mm,
        ends_per_cm=brief.sett.per_cm,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
        shrinkage_width=brief.shrinkage_across,
        draw_in=brief.draw_in,
        take_up=brief.take_up,
        fringe_mm=brief.fringe.mm,
        gap_mm=brief.gap.mm,
        sampling_mm=brief.sampling.mm,
        loom_waste_mm=brief.loom_waste.mm,
    )
    warp_lab = parse_colour(brief.warp_colour, thing="warp-colour")
    warp_hex, _ = lab_to_hex(warp_lab)
    yarns = yarn_amounts(
        cloths,
        warp,
        weft=parse_count(brief.weft),
        warp_yarn=parse_count(brief.warp),
        weft_take_up=brief.weft_take_up,
        tail_mm=brief.tail.mm,
        allowance=brief.allowance,
        warp_hex=warp_hex,
    )
    warnings = [note for cloth in cloths for note in (*cloth.palette.warnings, *cloth.warnings)]
    return Plan(
        name=brief.name or cloths[0].name or "cloth",
        cloths=cloths,
        warp=warp,
        yarns=yarns,
        units=brief.unit_system,
        warp_lab=warp_lab,
        warp_hex=warp_hex,
        asked=tuple((key, value) for key, value in brief.values if key in OPTIONS),
        warnings=tuple(dict.fromkeys(warnings)),
    )


def make_plan(brief: Brief, palette: Palette) -> Plan:
    """Make the whole plan of one cloth: stripes, warp and yarn.

    Raises
    ------
    InputError, CountError, WeavingError
        As the stages do.
    """
    return plan_from_stripes(brief, (plan_cloth(brief, palette),))
