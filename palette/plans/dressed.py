"""The loom dressed as a brief asks: reed, warp and weave for cloths whose stripes are settled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from palette.loom.closeness import Yarns
from palette.loom.defaults import SLEY_REPEAT
from palette.loom.draft import Draft
from palette.loom.drafts import parse_draft
from palette.loom.dressing import dress, reed_notes
from palette.loom.firmness import Asked, firmness_notes
from palette.loom.planning import plan_warp
from palette.loom.sley import Sley, nearest_reeds
from palette.loom.structure import structure_of
from palette.loom.warp import Warp
from palette.measures import format_length, format_share
from palette.plans.fibre import sett_fibre
from palette.plans.wishes import reeds_of
from palette.stripes.plan import StripePlan
from palette.yarn.amounts import YarnAmount

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["Dressed", "dressed_loom", "firmness_of"]

_WIDTH_OFF = 0.02  # a finished width that differs by more is pointed out: common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class Dressed:
    """A loom that is dressed.

    Attributes
    ----------
    draft : Draft
    sley : Sley or None
        None where no reed was named.
    warp : Warp
    notes : tuple of str
        What differs from what was asked, and what should be looked at.
    """

    draft: Draft
    sley: Sley | None
    warp: Warp
    notes: tuple[str, ...]


def dressed_loom(brief: Brief, cloths: tuple[StripePlan, ...]) -> Dressed:
    """Choose the reed, plan the warp and count what the weave needs.

    Raises
    ------
    InputError
        A value out of range.
    WeavingError
        A weave that needs more shafts, treadles or heddles than the loom has.
    """
    draft = parse_draft(brief.weave)
    reeds = reeds_of(brief)
    sley = nearest_reeds(brief.sett.per_cm, reeds)[0] if reeds else None
    warp = plan_warp(
        finished_width_mm=brief.width.mm,
        ends_per_cm=brief.sett.per_cm if sley is None else sley.ends_per_cm,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
        shrinkage_width=brief.shrinkage_across,
        draw_in=brief.draw_in,
        take_up=brief.take_up,
        fringe_mm=brief.fringe.mm,
        gap_mm=brief.gap.mm,
        sampling_mm=brief.sampling.mm,
        loom_waste_mm=brief.loom_waste.mm,
        selvedge_ends=brief.selvedge,
        sley_repeat=int(SLEY_REPEAT.value) if sley is None else sley.ends_in_repeat,
        as_filled=sley is not None,
    )
    dressing = dress(
        warp,
        draft,
        picks=sum(cloth.total_picks for cloth in cloths),
        picks_per_cm=cloths[0].picks_per_cm,
        heddles_per_shaft_held=brief.heddles,
        shafts=brief.shafts,
        treadles=brief.treadles,
        longest_float=brief.longest_float,
        units=brief.unit_system,
        cloths=cloths,
    )
    notes = (
        *reed_notes((sley,) if sley else (), brief.unit_system),
        *_width_note(brief, warp),
        *dressing.warnings,
    )
    return Dressed(draft=draft, sley=sley, warp=warp, notes=notes)


def _width_note(brief: Brief, warp: Warp) -> tuple[str, ...]:
    """Say that the ends which fill the reed give another width than was asked."""
    off = warp.finished_width_mm / brief.width.mm - 1
    if abs(off) <= _WIDTH_OFF:
        return ()
    came, asked = (
        format_length(mm, brief.unit_system) for mm in (warp.finished_width_mm, brief.width.mm)
    )
    way = "wider" if off > 0 else "narrower"
    return (
        f"{warp.ends} ends fill the reed to {came} finished where {asked} was asked: "
        f"{format_share(abs(off))} {way}.",
    )


def firmness_of(
    brief: Brief,
    cloths: tuple[StripePlan, ...],
    dressed: Dressed,
    yarns: tuple[YarnAmount, ...],
) -> tuple[str, ...]:
    """Say where sett or picks do not suit the yarn; refuse what has no room.

    Parameters
    ----------
    brief : Brief
    cloths : tuple of StripePlan
    dressed : Dressed
    yarns : tuple of YarnAmount
        Every weft is met with the first warp.

    Raises
    ------
    WeavingError
        The message has the nearest that can be woven.
    """
    structure = structure_of(dressed.draft)
    fibre = sett_fibre(brief.fibre)
    warp = next(yarn for yarn in yarns if yarn.use == "warp")
    wefts = {yarn.count: yarn for yarn in yarns if yarn.use == "weft"}
    notes: list[str] = []
    for picks in dict.fromkeys(cloth.picks_per_cm for cloth in cloths):
        for count, weft in wefts.items():
            asked = Asked(
                ends_per_cm=dressed.warp.ends_per_cm,
                picks_per_cm=picks,
                yarn=count if count == warp.count else f"{count} on {warp.count}",
                weave=dressed.draft.name,
                units=brief.unit_system,
            )
            met = Yarns(warp_tex=warp.tex, weft_tex=weft.tex, fibre=fibre, structure=structure)
            notes += firmness_notes(asked, met)
    return tuple(dict.fromkeys(notes))
