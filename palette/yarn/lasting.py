"""Half way: will the weft last, and if not, how the cloth can still end in balance."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from palette.errors import InputError
from palette.measures import Units, format_length
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.amounts import YarnAmount
from palette.yarn.check import Check, ColourCheck, Guess
from palette.yarn.check_notes import check_notes
from palette.yarn.fitting import fit_stripes
from palette.yarn.halfway import NOISE_G, OnLoom, Tally, cut_stripes, tally_of
from palette.yarn.resizing import Layout, renumbered, scaled_units
from palette.yarn.wefts import Weaving

__all__ = ["check_yarn"]


def _to_length(rest: tuple[Stripe, ...], goal_picks: int, plan: StripePlan) -> tuple[Stripe, ...]:
    """Widen or narrow the rest of the stripes, so that the cloth gets as long as planned."""
    if goal_picks == sum(stripe.picks for stripe in rest):
        return rest
    layout = Layout(rest, step=plan.step, least=plan.least)
    units = layout.units_for(goal_picks)
    return layout.resized(scaled_units(layout.units, units, dict.fromkeys(layout.units, units)))


def _picks_woven(plan: StripePlan, woven_mm: float, picks_per_cm: float) -> int:
    if not 0 < picks_per_cm < math.inf:
        got = f"{picks_per_cm} per cm"
        raise InputError("picks measured", "must be more than 0, and finite", got=got)
    if not 0 < woven_mm < plan.woven_length_mm:
        long = format_length(plan.woven_length_mm)
        rule = f"must be more than 0, and less than the cloth's {long} on the loom"
        raise InputError("woven length", rule, got=format_length(woven_mm))
    picks = round(woven_mm / 10 * picks_per_cm)
    if not 1 <= picks < plan.total_picks:
        rule = f"must be within the stripe list, 1 to {plan.total_picks - 1} picks"
        remedy = "Measure the picks again: the list would be woven before the cloth is long enough."
        raise InputError("woven length", rule, got=f"{picks} picks", remedy=remedy)
    return picks


def _at_ratio(
    on_loom: OnLoom,
    tally: Tally,
    rest: tuple[Stripe, ...],
    colour: str,
    *,
    left_g: float,
    ratio: float,
) -> tuple[float, int | None, float | None]:
    """Grams needed at this use, and the pick and the millimetre where there are no more."""
    ratios = {**tally.ratio, colour: ratio}
    need_g = on_loom.need_g(rest, ratios)[colour]
    total_g = need_g + tally.reserved[colour] * ratio
    if not need_g > left_g + NOISE_G:
        return total_g, None, None
    pick = rest[0].first_pick - 1 + on_loom.runs_out(rest, colour, left_g, ratios)
    return total_g, pick, pick / on_loom.picks_per_cm * 10


def _guess(
    amount: YarnAmount, on_loom: OnLoom, tally: Tally, rest: tuple[Stripe, ...], *, weighed: bool
) -> Guess | None:
    """Reckon a colour with the use of those that were weighed; None where that is no more."""
    colour, ratio = amount.colour, tally.borrowed
    if colour in tally.own or ratio <= 1 + NOISE_G:
        return None
    left = tally.left[colour] if weighed else tally.left_at(ratio, colour, amount.mass_g)
    need, pick, mm = _at_ratio(on_loom, tally, rest, colour, left_g=left, ratio=ratio)
    return Guess(left_g=left, needed_g=need, runs_out_at_pick=pick, runs_out_at_mm=mm)


def _colour_check(
    amount: YarnAmount, on_loom: OnLoom, tally: Tally, rest: tuple[Stripe, ...], *, weighed: bool
) -> ColourCheck:
    colour = amount.colour
    left, ratio, had = tally.left[colour], tally.ratio[colour], tally.had.get(colour)
    pick_g = on_loom.weaving.pick_mm / 1000 * amount.tex / 1000
    need, pick, mm = _at_ratio(on_loom, tally, rest, colour, left_g=left, ratio=ratio)
    return ColourCheck(
        colour=colour,
        hex=amount.hex,
        had_g=had,
        left_g=left,
        weighed=weighed,
        begun=tally.planned_used[colour] > 0,
        own_use=colour in tally.own,
        used_g=None if had is None else had - left,
        planned_used_g=tally.planned_used[colour],
        g_per_pick=pick_g * ratio,
        planned_g_per_pick=pick_g,
        needed_g=need,
        runs_out_at_pick=pick,
        runs_out_at_mm=mm,
        guess=_guess(amount, on_loom, tally, rest, weighed=weighed),
    )


def check_yarn(
    plan: StripePlan,
    amounts: Sequence[YarnAmount],
    *,
    weaving: Weaving,
    woven_mm: float,
    left_g: Mapping[str, float],
    picks_per_cm: float | None = None,
    had_g: Mapping[str, float] | None = None,
    skeins_g: Mapping[str, float] | None = None,
    done: Sequence[StripePlan] = (),
    later: Sequence[StripePlan] = (),
    units: Units = Units.METRIC,
) -> Check:
    """Check half way whether the weft lasts, from what is really on the loom.

    The weaver follows the stripe list by its picks; what the beat has made of them is the
    woven length. The use so far of every colour that was weighed, against what the plan has for
    the same picks, says what the rest of it will take. One that was not weighed, or of which
    nobody knows how much there was, is reckoned as planned; what it would be if it took as much
    as the weighed ones stands beside that as a guess, and changes no stripe.

    Parameters
    ----------
    plan : StripePlan
        The cloth on the loom.
    amounts : sequence of YarnAmount
        Of the whole plan.
    weaving : Weaving
        As the amounts were reckoned.
    woven_mm : float
        Woven so far, tension slackened.
    left_g : mapping of str to float
        Grams left of each colour, cores taken off. A colour that is not weighed is reckoned.
    picks_per_cm : float, optional
        Measured on the loom; None: as planned.
    had_g : mapping of str to float, optional
        Grams at the start, of colours of which it is known.
    skeins_g : mapping of str to float, optional
        Grams in the whole skeins that the plan has of each colour: the start of those that
        `had_g` does not name, unless what is left of them says otherwise.
    done, later : sequence of StripePlan
        Cloths on this warp woven before, and still to come: their yarn counts too.
    units : Units
        The system that the notes are written in.

    Returns
    -------
    Check
        With exactly the planned use and density, `rest` is what the plan has left.

    Raises
    ------
    InputError
        A length, density or mass out of range, or a colour that the plan does not have.
    """
    wefts = {amount.colour: amount for amount in amounts if amount.use == "weft"}
    density = plan.picks_per_cm if picks_per_cm is None else picks_per_cm
    picks = _picks_woven(plan, woven_mm, density)
    woven, left_over = cut_stripes(plan, picks)
    tex = {colour: amount.tex for colour, amount in wefts.items()}
    on_loom = OnLoom(plan, woven, weaving, tex, density)
    tally = tally_of(
        on_loom,
        wefts,
        left_g=left_g,
        had_g=had_g or {},
        skeins_g=skeins_g or {},
        done=done,
        later=later,
        units=units,
    )
    goal = round(plan.woven_length_mm / 10 * density) - picks
    as_planned = renumbered(_to_length(left_over, goal, plan), picks + 1)
    check = Check(
        woven_mm=woven_mm,
        picks_woven=picks,
        picks_per_cm=density,
        planned_picks_per_cm=plan.picks_per_cm,
        colours=tuple(
            _colour_check(amount, on_loom, tally, as_planned, weighed=colour in left_g)
            for colour, amount in wefts.items()
        ),
        rest_as_planned=as_planned,
        rest=as_planned,
        woven_length_mm=(picks + sum(stripe.picks for stripe in as_planned)) / density * 10,
        planned_length_mm=plan.woven_length_mm,
        borrowed_ratio=tally.borrowed,
        borrowed_from=tuple(colour for colour in left_g if colour in tally.had),
    )
    if check.must_change:
        rest = renumbered(_fitted(plan, on_loom, tally, check, goal), picks + 1)
        whole = picks + sum(stripe.picks for stripe in rest)
        check = replace(check, rest=rest, woven_length_mm=whole / density * 10)
    spare = _spare_g(on_loom, tally, check)
    return replace(check, warnings=check_notes(check, tally, spare, units))


def _fitted(
    plan: StripePlan, on_loom: OnLoom, tally: Tally, check: Check, goal_picks: int
) -> tuple[Stripe, ...]:
    """Fit the rest to the yarn there is, less what later cloths need.

    A colour that was not weighed is taken to be enough for what the plan has for it.
    """
    planned = on_loom.need_g(check.rest_as_planned, tally.ratio)
    have = {}
    for colour in check.colours:
        name = colour.colour
        free = colour.left_g - tally.reserved[name] * tally.ratio[name]
        have[name] = free if colour.weighed else max(free, planned[name])
    return fit_stripes(
        check.rest_as_planned,
        goal_picks=goal_picks,
        step=plan.step,
        least=plan.least,
        need_g=lambda stripes: on_loom.need_g(stripes, tally.ratio),
        have_g=have,
        pick_g={colour.colour: colour.g_per_pick for colour in check.colours},
    ).stripes


def _spare_g(on_loom: OnLoom, tally: Tally, check: Check) -> dict[str, float]:
    """Grams that the rest leaves of each colour that was weighed."""
    need = on_loom.need_g(check.rest, tally.ratio)
    return {
        colour.colour: colour.left_g
        - tally.reserved[colour.colour] * tally.ratio[colour.colour]
        - need[colour.colour]
        for colour in check.colours
        if colour.weighed
    }
