"""What the hands do before and after each stripe: start, take up, carry, cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from palette.plans.loom_words import hem_words
from palette.plans.plan import Plan
from palette.stripes.handling import handling_of
from palette.stripes.plan import Stripe, StripePlan

__all__ = ["After", "Before", "StripeMarks", "role_note", "role_words", "stripe_marks"]

Before = Literal["start", "take up", "go on"]
After = Literal["cut", "carry", "go on"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripeMarks:
    """What happens to the weft of one stripe.

    Attributes
    ----------
    before : {"start", "take up", "go on"}
        The weft begins with a new tail, was carried up the selvedge to here, or comes on from
        the stripe before in the same colour.
    after : {"cut", "carry", "go on"}
        The weft is cut, carried up the selvedge, or goes on into the next stripe.
    carry_picks : int
        Picks that it is carried past; 0 where it is not.
    last : bool
        The colour is not needed again in this cloth.
    in_play : int
        Shuttles in use or carried during the stripe.
    """

    before: Before
    after: After
    carry_picks: int
    last: bool
    in_play: int

    @property
    def before_words(self) -> str:
        """Short words for a column."""
        return {"start": "start", "take up": "take up", "go on": ""}[self.before]

    @property
    def after_words(self) -> str:
        """Short words for a column."""
        if self.after == "carry":
            return f"carry past {self.carry_picks}"
        if self.after == "cut":
            return "cut, last" if self.last else "cut"
        return ""


def stripe_marks(cloth: StripePlan) -> tuple[StripeMarks, ...]:
    """Find the starts, carries and cuts of every stripe, within the plan's own limits.

    Parameters
    ----------
    cloth : StripePlan

    Returns
    -------
    tuple of StripeMarks, one for each stripe
    """
    handling = handling_of(cloth)
    leaving = {carry.from_stripe: carry.picks for carry in handling.carries}
    arriving = {carry.to_stripe for carry in handling.carries}
    colours = ["", *(stripe.colour for stripe in cloth.stripes), ""]
    last_use = {colour: number for number, colour in enumerate(colours) if colour}
    marks = []
    for number in range(1, len(cloth.stripes) + 1):
        colour = colours[number]
        before: Before = "take up" if number in arriving else "start"
        after: After = "carry" if number in leaving else "cut"
        marks.append(
            StripeMarks(
                before="go on" if colours[number - 1] == colour else before,
                after="go on" if colours[number + 1] == colour else after,
                carry_picks=leaving.get(number, 0),
                last=last_use[colour] == number,
                in_play=handling.in_play[number - 1],
            )
        )
    return tuple(marks)


def role_note(role: str) -> str:
    """Name what a stripe is for, where it is more than a stripe."""
    return {"stripe": "", "blend": "soft change"}.get(role, role)


def role_words(plan: Plan, cloth: StripePlan, stripe: Stripe) -> str:
    """Name what a stripe is for, a hem with the treadles that weave it plain."""
    note = role_note(stripe.role)
    treadles = hem_words(plan, cloth, stripe.first_pick) if stripe.role == "hem" else ""
    return f"{note}, {treadles}" if treadles else note
