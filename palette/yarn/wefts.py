"""What one colour of weft does in a cloth: its picks, its starts, its way up the selvedge."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.warp import Warp
from palette.stripes.handling import handling_of
from palette.stripes.plan import StripePlan
from palette.yarn.defaults import TAIL_MM, WEFT_TAKE_UP

__all__ = ["Weaving", "WeftUse", "weft_per_pick_mm", "weft_uses"]


def weft_per_pick_mm(warp: Warp, weft_take_up: float = WEFT_TAKE_UP.value) -> float:
    """Millimetres of weft in one pick: width in the reed / (1 - weft take-up).

    Draw-in is in the width in the reed already and is not added again.

    References
    ----------
    Taylor, *Cotton Weaving and Designing*, 6th ed.; Brooks, *Cotton Manufacturing*: the length
    of a pick is the width in the reed.
    """
    if not 0 <= weft_take_up < 1:
        raise InputError("weft take-up", "must be from 0 to under 1", got=f"{weft_take_up}")
    return warp.width_in_reed_mm / (1 - weft_take_up)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weaving:
    """How the weft is thrown: everything that turns picks into metres.

    Attributes
    ----------
    pick_mm : float
        Weft in one pick.
    tail_mm : float
        Left at each start and at each end of a weft.
    carry_picks : int or None
        An idle weft is carried up the selvedge over at most this many picks, else cut; None:
        the plan's own limit, or else the usual few.
    shuttles : int or None
        Most shuttles in play; None: the plan's own limit.
    """

    pick_mm: float
    tail_mm: float = TAIL_MM.value
    carry_picks: int | None = None
    shuttles: int | None = None

    def __post_init__(self) -> None:
        """Refuse quantities out of range."""
        if not 0 < self.pick_mm < math.inf:
            got = f"{self.pick_mm} mm"
            raise InputError("weft per pick", "must be more than 0, and finite", got=got)
        if not 0 <= self.tail_mm < math.inf:
            raise InputError("tail", "must be 0 or more, and finite", got=f"{self.tail_mm} mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeftUse:
    """What one colour comes to in one cloth.

    Attributes
    ----------
    picks, starts : int
    pick_m, tail_m, carried_m : float
        Metres in the picks, in the tails, and up the selvedge.
    """

    picks: int = 0
    starts: int = 0
    pick_m: float = 0.0
    tail_m: float = 0.0
    carried_m: float = 0.0

    @property
    def length_m(self) -> float:
        """Metres altogether."""
        return self.pick_m + self.tail_m + self.carried_m


def weft_uses(plan: StripePlan, weaving: Weaving) -> dict[str, WeftUse]:
    """Count picks, starts and metres of every colour in one cloth.

    Parameters
    ----------
    plan : StripePlan
    weaving : Weaving

    Returns
    -------
    dict of str to WeftUse
        In the order in which the colours first enter.
    """
    handling = handling_of(plan, carry_picks=weaving.carry_picks, shuttles=weaving.shuttles)
    carried = Counter[str]()
    for carry in handling.carries:
        carried[carry.colour] += carry.picks
    picks = Counter[str]()
    for stripe in plan.stripes:
        picks[stripe.colour] += stripe.picks
    return {
        colour: WeftUse(
            picks=picks[colour],
            starts=starts,
            pick_m=picks[colour] * weaving.pick_mm / 1000,
            tail_m=2 * starts * weaving.tail_mm / 1000,
            carried_m=carried[colour] / plan.picks_per_cm / 100,
        )
        for colour, starts in handling.starts
    }
