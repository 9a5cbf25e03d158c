"""How many starts a longer carry would save."""

from __future__ import annotations

import math

from palette.measures import CM_PER_INCH, Units, format_length
from palette.stripes.handling import handling_of
from palette.stripes.plan import StripePlan

__all__ = ["carry_note", "longer_carry"]

_LONGEST_CM = 2.5  # a longer float at the selvedge catches; common practice
_MOST_OF_IT = 0.75  # part of what the longest would save that a shorter one has to save
_FEWEST = 3  # starts that have to be saved to be worth a word


def longer_carry(plan: StripePlan) -> tuple[int, int] | None:
    """Find the shortest carry that saves most of the starts that a long one would.

    Parameters
    ----------
    plan : StripePlan
        Its limit on shuttles is kept.

    Returns
    -------
    tuple of (int, int), or None
        Picks to carry, and the starts that are saved; None where few are, or the plan itself
        says how far wefts are carried.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, Weft, number_picks
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> green, grey = Weft.of(moss), Weft("grey", "#808080", (53.6, 0.0, 0.0))
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), picks_per_cm=8, finished_length_mm=50,
    ...     stripes=number_picks([Piece(green, 30), Piece(grey, 12)] * 5))
    >>> longer_carry(plan)
    (12, 4)
    """
    if plan.carry_picks is not None:
        return None
    usual = handling_of(plan)
    most = math.floor(_LONGEST_CM * plan.picks_per_cm)
    gaps = sorted(gap for gap in _gaps(plan) if usual.carry_picks < gap <= most)
    if len(gaps) < _FEWEST:
        return None
    carry = gaps[math.ceil(_MOST_OF_IT * len(gaps)) - 1]
    saved = usual.total_starts - handling_of(plan, carry_picks=carry).total_starts
    return (carry, saved) if saved >= _FEWEST else None


def carry_note(plan: StripePlan, units: Units = Units.METRIC) -> tuple[str, ...]:
    """Say in one sentence how far wefts are carried, and which carry would save how many starts."""
    found = longer_carry(plan)
    if found is None:
        return ()
    carry, saved = found
    usual = handling_of(plan)
    length = format_length(usual.carry_picks / plan.picks_per_cm * 10, units)
    return (
        f"Wefts are carried up to {length} ({usual.carry_picks} picks), and cut where they are "
        f"away for longer: {usual.total_starts} starts. --carry {_typed(carry, plan, units)} saves "
        f"{saved} of them.",
    )


def _gaps(plan: StripePlan) -> list[int]:
    """List the picks between two stripes of one colour, each time it comes again."""
    last: dict[str, int] = {}
    gaps = []
    for stripe in plan.stripes:
        if stripe.colour in last:
            gaps.append(stripe.first_pick - last[stripe.colour] - 1)
        last[stripe.colour] = stripe.last_pick
    return gaps


def _typed(picks: int, plan: StripePlan, units: Units) -> str:
    """Length as it is typed, rounded up to a tenth so that it holds the picks."""
    cm = picks / plan.picks_per_cm
    value, unit = (cm / CM_PER_INCH, "in") if units is Units.IMPERIAL else (cm, "cm")
    return f"{math.ceil(round(value * 10, 6)) / 10:g}{unit}"
