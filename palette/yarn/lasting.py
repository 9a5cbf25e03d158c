"""Half way: will the weft last, and if not, how the cloth can still end in balance."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from palette.errors import InputError
from palette.measures import Units, format_length, format_mass
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.amounts import YarnAmount
from palette.yarn.check import Check, ColourCheck
from palette.yarn.fitting import fit_stripes
from palette.yarn.halfway import NOISE_G, OnLoom, Tally, cut_stripes, tally_of
from palette.yarn.resizing import Layout, renumbered, scaled_units
from palette.yarn.wefts import Weaving

__all__ = ["check_yarn"]

LEAST_OVER_PICKS = 8
"""Yarn for fewer picks than this is not worth a stripe: common practice."""

ODD_RATIO = 1.5
"""Use that is this many times more or less than planned is asked about: common practice."""


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


def _colour_check(
    amount: YarnAmount,
    on_loom: OnLoom,
    tally: Tally,
    rest: tuple[Stripe, ...],
    *,
    need_g: float,
    weighed: bool,
) -> ColourCheck:
    colour = amount.colour
    left, ratio = tally.left[colour], tally.ratio[colour]
    pick_g = on_loom.weaving.pick_mm / 1000 * amount.tex / 1000
    runs_out = None
    if need_g > left + NOISE_G:
        first = rest[0].first_pick
        runs_out = first - 1 + on_loom.runs_out(rest, colour, left, tally.ratio)
    return ColourCheck(
        colour=colour,
        hex=amount.hex,
        had_g=tally.had[colour],
        left_g=left,
        weighed=weighed,
        used_g=tally.had[colour] - left,
        planned_used_g=tally.planned_used[colour],
        g_per_pick=pick_g * ratio,
        planned_g_per_pick=pick_g,
        needed_g=need_g + tally.reserved[colour],
        runs_out_at_pick=runs_out,
        runs_out_at_mm=None if runs_out is None else runs_out / on_loom.picks_per_cm * 10,
    )


def _colour_checks(
    wefts: Mapping[str, YarnAmount],
    on_loom: OnLoom,
    tally: Tally,
    rest: tuple[Stripe, ...],
    left_g: Mapping[str, float],
) -> tuple[ColourCheck, ...]:
    need = on_loom.need_g(rest, tally.ratio)
    return tuple(
        _colour_check(amount, on_loom, tally, rest, need_g=need[colour], weighed=colour in left_g)
        for colour, amount in wefts.items()
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
    done: Sequence[StripePlan] = (),
    later: Sequence[StripePlan] = (),
    units: Units = Units.METRIC,
) -> Check:
    """Check half way whether the weft lasts, from what is really on the loom.

    The weaver follows the stripe list by its picks; what the beat has made of them is the
    woven length. Every colour's use so far, against what the plan has for the same picks, says
    what the rest will take.

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
        Grams at the start; a colour that is not named had what the plan says to have ready.
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
    tally = tally_of(on_loom, wefts, left_g=left_g, had_g=had_g or {}, done=done, later=later)
    goal = round(plan.woven_length_mm / 10 * density) - picks
    as_planned = renumbered(_to_length(left_over, goal, plan), picks + 1)
    colours = _colour_checks(wefts, on_loom, tally, as_planned, left_g)
    rest = as_planned
    if not all(colour.lasts for colour in colours):
        rest = renumbered(_fitted(plan, on_loom, tally, as_planned, goal, colours), picks + 1)
    whole = picks + sum(stripe.picks for stripe in rest)
    return Check(
        woven_mm=woven_mm,
        picks_woven=picks,
        picks_per_cm=density,
        planned_picks_per_cm=plan.picks_per_cm,
        colours=colours,
        rest_as_planned=as_planned,
        rest=rest,
        woven_length_mm=whole / density * 10,
        planned_length_mm=plan.woven_length_mm,
        warnings=(
            *_assumed(tally, wefts, left_g, had_g or {}, units),
            *_changed(as_planned, rest, density, units),
            *_over(on_loom, tally, as_planned, rest, colours, units),
        ),
    )


def _fitted(
    plan: StripePlan,
    on_loom: OnLoom,
    tally: Tally,
    rest: tuple[Stripe, ...],
    goal_picks: int,
    colours: tuple[ColourCheck, ...],
) -> tuple[Stripe, ...]:
    """Fit the rest to the yarn there is, less what later cloths need."""
    return fit_stripes(
        rest,
        goal_picks=goal_picks,
        step=plan.step,
        least=plan.least,
        need_g=lambda stripes: on_loom.need_g(stripes, tally.ratio),
        have_g={colour: left - tally.reserved[colour] for colour, left in tally.left.items()},
        pick_g={colour.colour: colour.g_per_pick for colour in colours},
    ).stripes


def _assumed(
    tally: Tally,
    wefts: Mapping[str, YarnAmount],
    left_g: Mapping[str, float],
    had_g: Mapping[str, float],
    units: Units,
) -> list[str]:
    """Say what was taken for granted, and what looks like a slip of the scale."""
    notes = []
    assumed = [colour for colour in left_g if colour not in had_g]
    if assumed:
        said = ", ".join(f"{colour} {format_mass(tally.had[colour], units)}" for colour in assumed)
        notes.append(f"At the start there was taken to be what the plan has ready: {said}.")
    guessed = [colour for colour in wefts if colour not in left_g]
    if guessed:
        said = ", ".join(f"{colour} {format_mass(tally.left[colour], units)}" for colour in guessed)
        notes.append(f"Not weighed, reckoned from the picks woven: {said}.")
    notes += [
        f"{colour}: {ratio:.1f} times what was planned has gone into the cloth; weigh it again."
        for colour, ratio in tally.ratio.items()
        if not 1 / ODD_RATIO <= ratio <= ODD_RATIO
    ]
    return notes


def _changed(
    planned: tuple[Stripe, ...], rest: tuple[Stripe, ...], picks_per_cm: float, units: Units
) -> list[str]:
    """Say what each colour was moved, and what it did to the length."""
    moved, notes = [], []
    for colour in dict.fromkeys(stripe.colour for stripe in planned):
        before, after = (
            sum(stripe.picks for stripe in stripes if stripe.colour == colour)
            for stripes in (planned, rest)
        )
        if before != after:
            moved.append(f"{colour} {after} instead of {before}")
    if moved:
        notes.append(f"Picks to come: {', '.join(moved)}.")
    shorter = sum(s.picks for s in planned) - sum(s.picks for s in rest)
    if shorter > 0:
        lost = format_length(shorter / picks_per_cm * 10, units)
        notes.append(f"The cloth ends {lost} sooner on the loom: there is no more yarn.")
    return notes


def _over(
    on_loom: OnLoom,
    tally: Tally,
    planned: tuple[Stripe, ...],
    rest: tuple[Stripe, ...],
    colours: tuple[ColourCheck, ...],
    units: Units,
) -> list[str]:
    """Where the cloth gets shorter, say what yarn is over to weave the missing length in."""
    missing = sum(s.picks for s in planned) - sum(s.picks for s in rest)
    need = on_loom.need_g(rest, tally.ratio)
    over = []
    for colour in colours:
        name = colour.colour
        spare_g = colour.left_g - tally.reserved[name] - need[name]
        picks = min(missing, int(spare_g / colour.g_per_pick))
        if picks >= LEAST_OVER_PICKS:
            over.append(f"{name} for {format_length(picks / on_loom.picks_per_cm * 10, units)}")
    return [f"Yarn is over to weave it longer: {', '.join(over)}."] if over else []
