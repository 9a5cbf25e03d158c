"""Everything to know at the loom before the first pick: sley, heddles, treadles, floats."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from palette.errors import InputError, WeavingError
from palette.loom.draft import Draft
from palette.loom.drafts import check_draft
from palette.loom.edges import even_note
from palette.loom.heddles import Treadle, check_heddles, heddles_per_shaft, lifts_per_treadle
from palette.loom.sley import Sley, nearest_reeds
from palette.loom.structure import Structure, plain_weave_treadles, structure_of
from palette.loom.treadling import hem_note, lifts_in
from palette.loom.warp import Warp
from palette.measures import Units, format_density, format_length, format_share
from palette.stripes.plan import StripePlan

__all__ = ["LONG_FLOAT_MM", "REED_OFF", "Dressing", "dress", "reed_notes"]

LONG_FLOAT_MM = 15.0
"""A float longer than this catches in use: common practice."""

REED_OFF = 0.001
"""A reed that misses the sett by more than this share is pointed out: it shows in the figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dressing:
    """How the loom is dressed.

    Attributes
    ----------
    sleys : tuple of Sley
        For each reed that is owned, the best first; empty where none was named.
    dents : int
        Dents that the warp fills in the best reed, 0 without one.
    heddles : tuple of int
        On each shaft, shaft 1 first.
    repeats, ends_over : int
        Whole repeats of the threading, and ends of one that is not whole.
    treadles : tuple of Treadle
        With the shafts that each lifts and how often it is pressed in all picks.
    plain_treadles : tuple of 2 int, or None
        The two that weave plain, for hems; None where there is no plain weave.
    structure : Structure
    warnings : tuple of str
    """

    sleys: tuple[Sley, ...]
    dents: int
    heddles: tuple[int, ...]
    repeats: int
    ends_over: int
    treadles: tuple[Treadle, ...]
    plain_treadles: tuple[int, int] | None
    structure: Structure
    warnings: tuple[str, ...] = ()

    @property
    def sley(self) -> Sley | None:
        """The best reed's sley order, or None."""
        return self.sleys[0] if self.sleys else None


def dress(
    warp: Warp,
    draft: Draft,
    *,
    picks: int,
    picks_per_cm: float,
    reeds_per_cm: Sequence[float] = (),
    heddles_per_shaft_held: int | Sequence[int] | None = None,
    shafts: int | None = None,
    treadles: int | None = None,
    longest_float: int | None = None,
    units: Units = Units.METRIC,
    cloths: Sequence[StripePlan] = (),
) -> Dressing:
    """Work out how the loom is dressed for a warp and a weave.

    Parameters
    ----------
    warp : Warp
    draft : Draft
    picks : int
        Of all cloths, for the lifts of each treadle.
    picks_per_cm : float
        For the length of warp floats.
    reeds_per_cm : sequence of float
        Dents per cm of the reeds that are owned.
    heddles_per_shaft_held : int or sequence of int, optional
        Heddles on every shaft, or on each.
    shafts, treadles, longest_float : int, optional
        What the loom has, and the longest float that is allowed, in threads.
    units : Units
        For lengths in warnings.
    cloths : sequence of StripePlan
        The cloths that the picks are of: with them the lifts count their hems in plain weave.

    Returns
    -------
    Dressing

    Raises
    ------
    WeavingError
        More shafts, treadles or heddles than the loom has; a float that is too long; a thread
        that is never caught.
    InputError
        A value out of range.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> from palette.loom.planning import plan_warp
    >>> warp = plan_warp(finished_width_mm=250, ends_per_cm=8, cloth_lengths_mm=(2000.0,))
    >>> dressing = dress(
    ...     warp, weave_named("2/2 twill"), picks=1600, picks_per_cm=8, reeds_per_cm=(4.0, 5.0)
    ... )
    >>> dressing.sley.text, dressing.heddles
    ('2', (60, 60, 59, 59))
    """
    if not picks_per_cm > 0:
        raise InputError("picks", "must be more than 0 per cm", got=f"{picks_per_cm}")
    check_draft(draft, shafts=shafts, treadles=treadles, longest_float=longest_float)
    heddles = heddles_per_shaft(draft, warp.working_ends)
    if heddles_per_shaft_held is not None:
        check_heddles(heddles, heddles_per_shaft_held)
    sleys = nearest_reeds(warp.ends_per_cm, reeds_per_cm) if reeds_per_cm else ()
    repeats, over = divmod(warp.working_ends, len(draft.threading))
    structure = structure_of(draft)
    pressed = lifts_in(cloths, draft) if cloths else lifts_per_treadle(draft, picks)
    _check_hem(pressed, draft, treadles)
    return Dressing(
        sleys=sleys,
        dents=sleys[0].dents_for(warp.working_ends) if sleys else 0,
        heddles=heddles,
        repeats=repeats,
        ends_over=over,
        treadles=pressed,
        plain_treadles=plain_weave_treadles(draft),
        structure=structure,
        warnings=(
            *reed_notes(sleys, units),
            *even_note(draft, warp.working_ends),
            *hem_note(cloths, draft),
            *_float_notes(structure, warp.ends_per_cm, picks_per_cm, units),
        ),
    )


def _check_hem(pressed: Sequence[Treadle], draft: Draft, held: int | None) -> None:
    """Refuse a hem for whose plain weave the loom has no treadles left."""
    used = sum(1 for treadle in pressed if treadle.lifts)
    if held is None or used <= held:
        return
    plain = " and ".join("+".join(map(str, draft.tie_up[n - 1])) for n in _plain(draft))
    rule = f"must find treadles for plain weave ({plain}) among the loom's {held}"
    remedy = "Leave out the hem, or --treadles where you press two at a time or lift by hand."
    raise WeavingError(f"hem in {draft.name}", rule, got=f"{used} treadles", remedy=remedy)


def _plain(draft: Draft) -> tuple[int, ...]:
    return plain_weave_treadles(draft) or ()


def reed_notes(sleys: tuple[Sley, ...], units: Units) -> list[str]:
    """Say how far the best reed is from the sett asked, where that is more than `REED_OFF`."""
    if not sleys or abs(sleys[0].difference) <= REED_OFF:
        return []
    best = sleys[0]
    came = format_density(best.ends_per_cm, units)
    asked = format_density(best.ends_per_cm_asked, units)
    off = format_share(abs(best.difference))
    way = "closer" if best.difference > 0 else "more open"
    return [f"The nearest reed gives {came} where {asked} was asked: {off} {way}."]


def _float_notes(
    structure: Structure, ends_per_cm: float, picks_per_cm: float, units: Units
) -> list[str]:
    notes = []
    for what, longest, per_cm in (
        ("Warp", structure.warp_float, picks_per_cm),
        ("Weft", structure.weft_float, ends_per_cm),
    ):
        length_mm = longest.threads / per_cm * 10
        if length_mm > LONG_FLOAT_MM:
            long = format_length(length_mm, units)
            notes.append(f"{what} floats are {long} long and may catch in use.")
    return notes
