"""Making a plan: one brief through all the stages."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from palette.cloth.prediction import WovenStripe, woven_stripes
from palette.cloth.shown_face import planned_face
from palette.cloth.woven_words import woven_words
from palette.loom.chains import WarpStripe, fill_warp
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.warp import Warp
from palette.perception.colour_text import parse_colour
from palette.perception.spaces import lab_to_hex
from palette.plans.dressed import dressed_loom, firmness_of
from palette.plans.options import OPTIONS
from palette.plans.plan import Plan
from palette.plans.wishes import (
    edges_of,
    most_of,
    picks_in,
    soft_of,
    warp_stripes_of,
)
from palette.stripes.carrying import carry_note
from palette.stripes.orders import order_named
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.value import value_notes
from palette.swatches.palette import Palette
from palette.yarn.amounts import YarnAmount
from palette.yarn.count import parse_count
from palette.yarn.one_name import joined_cloths
from palette.yarn.planning import yarn_amounts

if TYPE_CHECKING:
    from palette.plans.brief import Brief
    from palette.yarn.stock_plans import Reckon

__all__ = [
    "carry_picks_of",
    "make_plan",
    "plan_cloth",
    "plan_from_stripes",
    "reckoner_of",
]


def plan_cloth(brief: Brief, palette: Palette, *, name: str = "") -> StripePlan:
    """Plan the stripes of one cloth as a brief asks.

    Raises
    ------
    InputError, WeavingError
        A value out of range, or a cloth that cannot be woven; the message names the nearest
        one that can.
    """
    return plan_stripes(
        palette,
        length_mm=brief.length.mm,
        picks_per_cm=brief.picks.per_cm,
        shrinkage_length=brief.shrinkage_along,
        step=brief.step,
        least=brief.least,
        order=brief.order,
        inner=brief.inner,
        direction=brief.direction,
        ground=brief.ground or "",
        swap=brief.swap,
        repeats=brief.repeats or order_named(brief.order).repeats,
        seed=brief.seed,
        soft=soft_of(brief),
        edges=edges_of(brief, palette),
        most=most_of(brief),
        shuttles=brief.shuttles,
        carry_picks=carry_picks_of(brief),
        name=name,
        units=brief.unit_system,
    )


def carry_picks_of(brief: Brief) -> int | None:
    """Give the picks over which a brief lets an idle weft be carried; None: the usual few."""
    return None if brief.carry is None else picks_in(brief.carry.mm, brief.picks.per_cm)


def plan_from_stripes(
    brief: Brief, cloths: tuple[StripePlan, ...], *, yarn_known: bool = True
) -> Plan:
    """Reckon the warp and the yarn for cloths whose stripes are settled.

    Parameters
    ----------
    brief : Brief
    cloths : tuple of StripePlan
    yarn_known : bool
        Whether sett and picks are held against the yarn; False where the yarn is none that was
        asked for, as for a cloth in a photograph.

    Raises
    ------
    InputError, CountError
        A value out of range.
    WeavingError
        A weave that needs more shafts or heddles than the loom has, or a sett or picks for
        which the yarn has no room.
    """
    cloths = joined_cloths(cloths)
    dressed = dressed_loom(brief, cloths)
    draft, warp = dressed.draft, dressed.warp
    warp_lab = parse_colour(brief.warp_colour, thing="warp-colour")
    warp_hex, _ = lab_to_hex(warp_lab)
    pattern = warp_stripes_of(brief, *(cloth.palette for cloth in cloths))
    warp_stripes = fill_warp(pattern, warp.ends) if pattern else ()
    yarns = reckoner_of(brief, warp_stripes)(cloths, warp)
    firm = firmness_of(brief, cloths, dressed, yarns) if yarn_known else ()
    return Plan(
        name=brief.name or cloths[0].name or "cloth",
        cloths=cloths,
        warp=warp,
        yarns=yarns,
        units=brief.unit_system,
        draft=draft,
        sley=dressed.sley,
        warp_stripes=warp_stripes,
        warp_lab=warp_lab,
        warp_hex=warp_hex,
        asked=tuple(
            (key, value) for key, value in brief.values if key in OPTIONS and value is not None
        ),
        warnings=(
            *firm,
            *_notes(cloths, draft, brief),
            *dressed.notes,
            *_pale(cloths, warp, yarns, draft, warp_lab),
        ),
    )


def reckoner_of(brief: Brief, warp_stripes: tuple[WarpStripe, ...] = ()) -> Reckon:
    """Give the function that turns cloths and a warp into yarn amounts, as a brief has it."""
    return partial(
        yarn_amounts,
        weft=parse_count(brief.weft),
        warp_yarn=parse_count(brief.warp),
        weft_take_up=brief.weft_take_up,
        tail_mm=brief.tail.mm,
        allowance=brief.allowance,
        carry_picks=carry_picks_of(brief),
        shuttles=brief.shuttles,
        warp_stripes=warp_stripes,
        warp_hex=lab_to_hex(parse_colour(brief.warp_colour, thing="warp-colour"))[0],
    )


def _notes(cloths: tuple[StripePlan, ...], draft: Draft, brief: Brief) -> tuple[str, ...]:
    """Gather what was changed and what should be looked at, each once."""
    notes: list[str] = []
    for cloth in cloths:
        carry = carry_note(cloth, brief.unit_system) if brief.carry is None else ()
        own = (*cloth.palette.warnings, *cloth.warnings, *carry)
        seen = tuple(
            note.sentence
            for note in value_notes(cloth)
            if note.kind == "near" or draft.name != PLAIN_WEAVE.name  # no pattern to swallow
        )
        named = f"{cloth.name}: " if len(cloths) > 1 and cloth.name else ""
        notes += [f"{named}{note}" for note in (*own, *seen)]
    return tuple(dict.fromkeys(notes))


def _pale(
    cloths: tuple[StripePlan, ...],
    warp: Warp,
    yarns: tuple[YarnAmount, ...],
    draft: Draft,
    warp_lab: tuple[float, float, float],
) -> tuple[str, ...]:
    """Say which colours come out much duller, lighter or darker across this warp."""
    tex = {yarn.use: yarn.tex for yarn in yarns}
    stripes: list[WovenStripe] = []
    for cloth in cloths:
        face = planned_face(warp, cloth, warp_tex=tex["warp"], weft_tex=tex["weft"], draft=draft)
        stripes += woven_stripes(cloth, warp_lab, face.warp_share)
    return woven_words(stripes)


def make_plan(brief: Brief, palette: Palette) -> Plan:
    """Make the whole plan of one cloth: stripes, warp and yarn.

    Raises
    ------
    InputError, CountError, WeavingError
        As the stages do.
    """
    return plan_from_stripes(brief, (plan_cloth(brief, palette),))
