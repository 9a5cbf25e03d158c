"""What a check half way took for granted, guessed and changed, as sentences."""

from __future__ import annotations

from collections.abc import Mapping

from palette.measures import G_PER_OUNCE, Units, format_length
from palette.yarn.check import Check
from palette.yarn.halfway import ODD_RATIO, Tally

__all__ = ["check_notes", "scale_mass"]

LEAST_OVER_PICKS = 8
"""Yarn for fewer picks than this is not worth a stripe: common practice."""


def scale_mass(g: float, units: Units) -> str:
    """Mass as a good scale shows it: to the nearest tenth of a gram or hundredth of an ounce.

    What is left and what is needed are rounded alike, so that they never contradict the answer.

    Examples
    --------
    >>> scale_mass(9.64, Units.METRIC), scale_mass(56.7, Units.IMPERIAL)
    ('9.6 g', '2.00 oz')
    """
    return f"{g / G_PER_OUNCE:.2f} oz" if units is Units.IMPERIAL else f"{g:.1f} g"


def check_notes(
    check: Check, tally: Tally, spare_g: Mapping[str, float], units: Units
) -> tuple[str, ...]:
    """Say what was assumed, what is only a guess, and what was changed.

    Parameters
    ----------
    check : Check
    tally : Tally
        What it was made from.
    spare_g : mapping of str to float
        Grams that the rest leaves of each weighed colour.
    units : Units

    Returns
    -------
    tuple of str
    """
    return (
        *_starts(check, tally, units),
        *_not_weighed(check, units),
        *_odd(check, tally),
        *_guessed(check, units),
        *_changed(check, units),
        *_over(check, spare_g, units),
    )


def _starts(check: Check, tally: Tally, units: Units) -> list[str]:
    """Say what each weighed colour is taken to have begun with."""
    weighed = [colour for colour in check.colours if colour.weighed]
    whole = [
        f"{colour.colour} {scale_mass(colour.had_g or 0.0, units)}"
        for colour in weighed
        if colour.colour in tally.skeins
    ]
    notes = []
    if whole:
        notes.append(
            f"At the start there were taken to be the whole skeins of the plan: {', '.join(whole)}."
        )
    notes += [
        f"{colour.colour}: {scale_mass(colour.left_g, units)} left, and about "
        f"{scale_mass(colour.planned_used_g, units)} in the cloth, is more than the plan's whole "
        "skeins. Its rest is reckoned as planned; say how much there was at the start."
        for colour in weighed
        if colour.colour in tally.denied
    ]
    unknown = [
        colour.colour
        for colour in weighed
        if colour.had_g is None and colour.colour not in tally.denied
    ]
    if unknown:
        notes.append(
            f"How much there was at the start is not known of {', '.join(unknown)}: the rest is "
            "reckoned as planned. Say how much, and it goes by what the cloth really takes."
        )
    return notes


def _not_weighed(check: Check, units: Units) -> list[str]:
    said = [
        f"{colour.colour} {scale_mass(colour.left_g, units)}"
        for colour in check.colours
        if not colour.weighed
    ]
    if not said:
        return []
    return [f"Not weighed, reckoned as planned from the picks woven: {', '.join(said)}."]


def _odd(check: Check, tally: Tally) -> list[str]:
    """Ask about what looks like a slip of the scale, only where something was weighed."""
    notes = []
    for colour in check.colours:
        ratio = tally.ratio[colour.colour]
        if colour.own_use and not 1 / ODD_RATIO <= ratio <= ODD_RATIO:
            ask = "weigh it again"
            if colour.colour in tally.skeins:
                ask += ", or say how much there was at the start"
            notes.append(
                f"{colour.colour}: {ratio:.1f} times what was planned has gone into the cloth; "
                f"{ask}."
            )
    return notes


def _guessed(check: Check, units: Units) -> list[str]:
    """Say where the use of the weighed colours is lent to others, and what it would do."""
    lent = [colour for colour in check.colours if colour.guess is not None]
    if not lent:
        return []
    source = ", ".join(check.borrowed_from)
    short = [
        f"{colour.colour} at {format_length(colour.guess.runs_out_at_mm, units)}"
        for colour in lent
        if colour.guess is not None and colour.guess.runs_out_at_mm is not None
    ]
    then = f"these would run out: {', '.join(short)}" if short else "they would last too"
    return [
        f"Weighed so that its use is known: {source}, {check.borrowed_ratio:.2f} times what was "
        f"planned. If the others took as much, {then}. That is a guess and changes no stripe: "
        "weigh them."
    ]


def _changed(check: Check, units: Units) -> list[str]:
    """Say what each colour was moved, and what it did to the length."""
    planned, rest = check.rest_as_planned, check.rest
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
    shorter = _picks_lost(check)
    if shorter > 0:
        lost = format_length(shorter / check.picks_per_cm * 10, units)
        notes.append(f"The cloth ends {lost} sooner on the loom: there is no more yarn.")
    return notes


def _picks_lost(check: Check) -> int:
    planned, came = (
        sum(stripe.picks for stripe in stripes) for stripes in (check.rest_as_planned, check.rest)
    )
    return planned - came


def _over(check: Check, spare_g: Mapping[str, float], units: Units) -> list[str]:
    """Where the cloth gets shorter, say what yarn is over to weave the missing length in."""
    over = []
    for colour in check.colours:
        picks = min(_picks_lost(check), int(spare_g.get(colour.colour, 0.0) / colour.g_per_pick))
        if picks >= LEAST_OVER_PICKS:
            long = format_length(picks / check.picks_per_cm * 10, units)
            over.append(f"{colour.colour} for {long}")
    return [f"Yarn is over to weave it longer: {', '.join(over)}."] if over else []
