"""How pleasant a plan is to weave: shuttles in play, starts and cuts, wefts carried."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from palette.errors import InputError
from palette.stripes.plan import StripePlan

__all__ = ["Carry", "Handling", "check_limits", "handling_of", "starts_of", "usual_carry_picks"]

USUAL_CARRY_PICKS = 4  # a weaving teacher's rule for light worsted yarn
USUAL_CARRY_CM = 1.0  # the same in finer yarn; common practice
START_WEIGHT = (
    3.0  # a start and its cut, tails worked in, against one shuttle change: own weighting
)
EASY_SHUTTLES = 2  # each shuttle in play beyond these counts as one more change


def usual_carry_picks(picks_per_cm: float) -> int:
    """Give the picks that a weft is carried where nothing else is asked: 4, or 1 cm if more.

    Common practice: carry a weft over a few picks, cut it where it would be away for some
    centimetres.

    Examples
    --------
    >>> usual_carry_picks(8), usual_carry_picks(3)
    (8, 4)
    """
    return max(USUAL_CARRY_PICKS, math.floor(picks_per_cm * USUAL_CARRY_CM))


@dataclass(frozen=True, slots=True, kw_only=True)
class Carry:
    """A weft carried up the selvedge past other stripes.

    Attributes
    ----------
    colour : str
    from_stripe, to_stripe : int
        Numbers of the stripes that it joins, from 1.
    picks : int
        Picks that it passes.
    """

    colour: str
    from_stripe: int
    to_stripe: int
    picks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """What the weaver's hands do over one cloth.

    Attributes
    ----------
    in_play : tuple of int
        Shuttles in use or carried while each stripe is woven, one entry per stripe.
    changes : int
        Times one shuttle is laid down for another.
    starts : tuple of (str, int)
        Each colour, in the order in which it enters, and how often it is started; it is cut as
        often, so it has twice as many tails.
    carries : tuple of Carry
        In weaving order.
    woven_length_mm, picks_per_cm : float
        Of the cloth.
    carry_picks : int
        The limit that was kept.
    shuttles : int, optional
        The limit that was kept; None: none.
    """

    in_play: tuple[int, ...]
    changes: int
    starts: tuple[tuple[str, int], ...]
    carries: tuple[Carry, ...]
    woven_length_mm: float
    picks_per_cm: float
    carry_picks: int
    shuttles: int | None = None

    @property
    def most_in_play(self) -> int:
        """Shuttles needed."""
        return max(self.in_play)

    @property
    def total_starts(self) -> int:
        """Starts of all colours; as many cuts."""
        return sum(count for _, count in self.starts)

    @property
    def longest_carry_mm(self) -> float:
        """Length of the longest float at the selvedge, woven; 0 where nothing is carried."""
        return max((carry.picks for carry in self.carries), default=0) / self.picks_per_cm * 10

    @property
    def carried_mm(self) -> float:
        """Length of all floats at the selvedge together, woven."""
        return sum(carry.picks for carry in self.carries) / self.picks_per_cm * 10

    @property
    def stops_per_metre(self) -> float:
        """Interruptions per metre of woven cloth: one number to compare plans by, less is easier.

        A shuttle change counts 1, a start with its cut 3, and every stripe 1 more for each
        shuttle in play beyond two. Own weighting.
        """
        crowded = sum(max(0, count - EASY_SHUTTLES) for count in self.in_play)
        stops = self.changes + START_WEIGHT * self.total_starts + crowded
        return stops / self.woven_length_mm * 1000

    def starts_of(self, colour: str) -> int:
        """Count the starts of one colour, 0 where it is not used."""
        return dict(self.starts).get(colour, 0)


def check_limits(carry_picks: int | None, shuttles: int | None) -> None:
    """Refuse a carry under 0, and no shuttle at all; None is no limit."""
    if carry_picks is not None and not carry_picks >= 0:
        raise InputError("carry", "must be 0 picks or more", got=f"{carry_picks}")
    if shuttles is not None and not shuttles >= 1:
        raise InputError("shuttles", "must be at least 1", got=f"{shuttles}")


def _carries(plan: StripePlan, carry_picks: int, shuttles: int | None) -> tuple[Carry, ...]:
    """Choose the carries: as many as the limits allow, so the starts are as few as can be.

    A carry occupies a shuttle over the stripes it passes; the stripe being woven needs one
    more. Where too many overlap, the one that would end last is cut: that keeps the largest
    number of carries (the greedy rule is exact for intervals).
    """
    room = math.inf if shuttles is None else shuttles - 1
    last_use: dict[str, int] = {}
    following: dict[int, int] = {}
    for place, stripe in enumerate(plan.stripes):
        if stripe.colour in last_use:
            following[last_use[stripe.colour]] = place
        last_use[stripe.colour] = place
    held: dict[int, int] = {}  # stripe where the carry begins -> stripe where it ends
    kept: list[Carry] = []
    for place, stripe in enumerate(plan.stripes):
        start = next((begin for begin, end in held.items() if end == place), None)
        if start is not None:
            del held[start]
            passed = stripe.first_pick - plan.stripes[start].last_pick - 1
            kept.append(
                Carry(
                    colour=stripe.colour,
                    from_stripe=start + 1,
                    to_stripe=place + 1,
                    picks=passed,
                )
            )
        while len(held) > room:
            del held[max(held, key=lambda begin: held[begin])]
        after = following.get(place, place)
        gap = plan.stripes[after].first_pick - stripe.last_pick - 1
        if 1 <= gap <= carry_picks:
            held[place] = after
    return tuple(kept)


def handling_of(
    plan: StripePlan, *, carry_picks: int | None = None, shuttles: int | None = None
) -> Handling:
    """Count what a plan asks of the weaver.

    Parameters
    ----------
    plan : StripePlan
    carry_picks : int, optional
        Most picks that a weft is carried before it is cut; None: the plan's own, or else
        `usual_carry_picks`. 0: every weft is cut when another follows.
    shuttles : int, optional
        Most shuttles in play; None: the plan's own. Where carrying would need more, wefts are
        cut, as few as possible.

    Returns
    -------
    Handling

    References
    ----------
    .. [1] U. Faigle and W. M. Nawijn, "Note on scheduling intervals on-line", Discrete Applied
       Mathematics 58 (1995) 13-17: the greedy rule that keeps the most intervals.

    Examples
    --------
    >>> from palette.stripes.plan import Stripe
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> stripes = tuple(
    ...     Stripe(colour=name, hex="#5d733a", lab=moss.lab, picks=picks, first_pick=first)
    ...     for name, picks, first in (("moss", 20, 1), ("rust", 4, 21), ("moss", 20, 25))
    ... )
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), stripes=stripes, picks_per_cm=8,
    ...     finished_length_mm=55)
    >>> handling_of(plan).starts, handling_of(plan).in_play
    ((('moss', 1), ('rust', 1)), (1, 2, 1))
    >>> handling_of(plan, carry_picks=2).starts
    (('moss', 2), ('rust', 1))
    """
    carry = plan.carry_picks if carry_picks is None else carry_picks
    carry = usual_carry_picks(plan.picks_per_cm) if carry is None else carry
    limit = plan.shuttles if shuttles is None else shuttles
    check_limits(carry, limit)
    carries = _carries(plan, carry, limit)
    colours = [stripe.colour for stripe in plan.stripes]
    runs = [c for place, c in enumerate(colours) if place == 0 or colours[place - 1] != c]
    carried = Counter(weft.colour for weft in carries)
    entries = Counter(runs)
    return Handling(
        in_play=_in_play(len(colours), carries),
        changes=len(runs) - 1,
        starts=tuple((c, entries[c] - carried[c]) for c in plan.colours),
        carries=carries,
        woven_length_mm=plan.woven_length_mm,
        picks_per_cm=plan.picks_per_cm,
        carry_picks=carry,
        shuttles=limit,
    )


def _in_play(count: int, carries: tuple[Carry, ...]) -> tuple[int, ...]:
    """Shuttles while each stripe is woven: its own, and those that are carried past it."""
    steps = [0] * (count + 1)
    for carry in carries:
        steps[carry.from_stripe] += 1
        steps[carry.to_stripe - 1] -= 1
    shuttles, running = [], 1
    for step in steps[:count]:
        running += step
        shuttles.append(running)
    return tuple(shuttles)


def starts_of(
    plan: StripePlan,
    colour: str,
    carry_picks: int | None = None,
    shuttles: int | None = None,
) -> int:
    """Count how often one colour is started: its tails are twice as many.

    Parameters
    ----------
    plan, carry_picks, shuttles
        As in `handling_of`.
    colour : str
        Name of the weft; one that is not used gives 0.

    Returns
    -------
    int
    """
    return handling_of(plan, carry_picks=carry_picks, shuttles=shuttles).starts_of(colour)
