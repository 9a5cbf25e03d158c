"""What to do at the end of each stripe: carry the colour on, cut it, take up the next shuttle."""

from __future__ import annotations

from dataclasses import dataclass

from palette.stripes.plan import StripePlan

__all__ = ["CARRY_MM", "StripeMarks", "stripe_marks"]

CARRY_MM = 25.0
"""How far an idle weft runs up the selvedge before it is cut; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripeMarks:
    """What the hands do with one stripe's weft.

    Attributes
    ----------
    begins : bool
        The weft is started here: wind a shuttle, leave a tail.
    ends : bool
        The weft is cut after this stripe.
    last : bool
        The colour is not needed again in this cloth.
    carried_picks : int
        Picks that the weft is carried past after this stripe; 0 where it is cut.
    in_play : int
        Wefts on shuttles during this stripe, carried ones included.
    """

    begins: bool
    ends: bool
    last: bool
    carried_picks: int
    in_play: int


def stripe_marks(cloth: StripePlan, *, carry_mm: float = CARRY_MM) -> tuple[StripeMarks, ...]:
    """Find starts, cuts and carries of every stripe.

    A weft is carried to its next stripe where the picks between are no longer than
    `carry_mm` on the loom, and cut otherwise.

    Parameters
    ----------
    cloth : StripePlan
    carry_mm : float
        Longest float up the selvedge.

    Returns
    -------
    tuple of StripeMarks, one for each stripe
    """
    longest = carry_mm / 10 * cloth.picks_per_cm
    following: dict[tuple[str, str], int] = {}
    gaps: list[int | None] = [None] * len(cloth.stripes)
    for index in range(len(cloth.stripes) - 1, -1, -1):
        stripe = cloth.stripes[index]
        key = (stripe.colour, stripe.hex)
        if key in following:
            gaps[index] = following[key] - stripe.last_pick - 1
        following[key] = stripe.first_pick
    carried: dict[tuple[str, str], int] = {}
    marks: list[StripeMarks] = []
    for stripe, gap in zip(cloth.stripes, gaps, strict=True):
        key = (stripe.colour, stripe.hex)
        goes_on = gap is not None and gap <= longest
        begins = key not in carried
        marks.append(
            StripeMarks(
                begins=begins,
                ends=not goes_on,
                last=gap is None,
                carried_picks=gap if goes_on and gap is not None else 0,
                in_play=len({*carried, key}),
            )
        )
        if goes_on:
            carried[key] = 1
        else:
            carried.pop(key, None)
    return tuple(marks)
