"""Stripes made wider or narrower: the same order, other numbers of picks.

Hems and soft changes keep their picks. Every other stripe is a whole number of steps; what is
left of a stripe that was begun keeps its odd picks, so that the shuttle comes home.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from palette.errors import InputError
from palette.stripes.apportion import apportion
from palette.stripes.plan import Stripe

__all__ = ["KEPT_ROLES", "Layout", "renumbered", "scaled_units"]

KEPT_ROLES = ("hem", "blend")
"""Roles of stripes that keep their picks as long as their yarn is enough."""


def renumbered(stripes: Sequence[Stripe], first_pick: int = 1) -> tuple[Stripe, ...]:
    """Renumber stripes so that each begins where the one before ends."""
    numbered = []
    for stripe in stripes:
        numbered.append(replace(stripe, first_pick=first_pick))
        first_pick += stripe.picks
    return tuple(numbered)


class Layout:
    """Stripes taken apart into the picks that stay and the steps that can be moved.

    Parameters
    ----------
    stripes : sequence of Stripe
    step : int
        Picks in one unit.
    least : int
        Smallest stripe, in picks.
    kept_roles : tuple of str
        Roles of the stripes that keep their picks.

    Attributes
    ----------
    kept : dict of str to int
        Picks of each colour that stay.
    units : dict of str to int
        Steps of each colour that can be moved.
    """

    def __init__(
        self,
        stripes: Sequence[Stripe],
        *,
        step: int,
        least: int,
        kept_roles: tuple[str, ...] = KEPT_ROLES,
    ) -> None:
        if not step >= 1:
            raise InputError("step", "must be at least 1 pick", got=f"{step}")
        self._stripes = tuple(stripes)
        self._step = step
        self._narrowest = max(1, math.ceil(least / step))
        self._units = tuple(
            0 if stripe.role in kept_roles else stripe.picks // step for stripe in stripes
        )
        looks = [(stripe.colour, stripe.picks) for stripe in stripes]
        self._mirrored = looks == looks[::-1]
        self.kept: dict[str, int] = {}
        self.units: dict[str, int] = {}
        for stripe, units in zip(self._stripes, self._units, strict=True):
            kept = stripe.picks - units * step
            self.kept[stripe.colour] = self.kept.get(stripe.colour, 0) + kept
            self.units[stripe.colour] = self.units.get(stripe.colour, 0) + units

    @property
    def step(self) -> int:
        """Picks in one unit."""
        return self._step

    def units_for(self, picks: int) -> int:
        """Units that come nearest to a total of picks, those that stay counted."""
        return max(0, round((picks - sum(self.kept.values())) / self._step))

    def resized(self, units: Mapping[str, int]) -> tuple[Stripe, ...]:
        """Share each colour's units over its stripes, in proportion to their widths.

        Parameters
        ----------
        units : mapping of str to int
            For each colour. Too few for stripes of the smallest width: the narrowest ones are
            left out.

        Returns
        -------
        tuple of Stripe
            Numbered from 1. A mirrored sequence stays mirrored, which can leave one unit over.
        """
        if all(units[colour] == have for colour, have in self.units.items()):
            return renumbered(self._stripes)
        widths = list(self._units)
        for colour, have in self.units.items():
            if units[colour] != have:
                for place, width in self._shared(colour, units[colour]).items():
                    widths[place] = width
        return renumbered(self._joined(widths))

    def _shared(self, colour: str, units: int) -> dict[int, int]:
        """Units of each stripe of one colour."""
        places = [
            i
            for i, stripe in enumerate(self._stripes)
            if stripe.colour == colour and self._units[i]
        ]
        if not places:
            return {}
        if not self._mirrored:
            return self._spread(places, units)
        last = len(self._stripes) - 1
        halves = [place for place in places if place < last - place]
        middle = [place for place in places if place == last - place]
        in_middle = self._middle(halves, middle, units)
        shared = self._spread(halves, (units - in_middle) // 2)
        shared.update({last - place: width for place, width in shared.items()})
        shared.update(dict.fromkeys(middle, in_middle))
        return shared

    def _middle(self, halves: list[int], middle: list[int], units: int) -> int:
        """Units of the stripe in the middle, which takes what cannot be halved."""
        if not middle:
            return 0
        if not halves:
            return units if units >= self._narrowest else 0
        width = self._units[middle[0]]
        exact = units * width / (width + 2 * sum(self._units[place] for place in halves))
        in_middle = units - 2 * round((units - exact) / 2)
        return in_middle if in_middle >= self._narrowest else 0

    def _spread(self, places: list[int], units: int) -> dict[int, int]:
        room = units // self._narrowest
        widest = sorted(places, key=lambda place: (-self._units[place], place))
        woven = sorted(widest[:room])
        shared = dict.fromkeys(places, 0)
        if woven:
            widths = [self._units[place] for place in woven]
            parts = apportion(widths, units, least=self._narrowest)
            shared.update(zip(woven, parts, strict=True))
        return shared

    def _joined(self, widths: Sequence[int]) -> list[Stripe]:
        """Stripes with their new widths; those left without picks go, neighbours join."""
        joined: list[Stripe] = []
        for place, stripe in enumerate(self._stripes):
            was = self._units[place]
            kept = stripe.picks - was * self._step
            gone = widths[place] == 0 and was > 0 and place > 0
            picks = 0 if gone else widths[place] * self._step + kept
            if not picks:
                continue
            if joined and _alike(joined[-1], stripe):
                joined[-1] = replace(joined[-1], picks=joined[-1].picks + picks)
            else:
                joined.append(replace(stripe, picks=picks))
        return joined


def _alike(one: Stripe, other: Stripe) -> bool:
    return one.colour == other.colour and one.role == other.role == "stripe"


def scaled_units(units: Mapping[str, int], total: int, most: Mapping[str, int]) -> dict[str, int]:
    """Units of each colour for another total, in the same proportions, none over its most.

    Parameters
    ----------
    units : mapping of str to int
        As they are.
    total : int
        Units wished for altogether; what the mosts do not allow is left out.
    most : mapping of str to int
        For each colour.

    Returns
    -------
    dict of str to int

    Examples
    --------
    >>> scaled_units({"moss": 30, "rust": 10}, 40, {"moss": 40, "rust": 6})
    {'moss': 34, 'rust': 6}
    """
    colours = [colour for colour, have in units.items() if have]
    mosts = [max(0, min(most[colour], total)) for colour in colours]
    total = min(total, sum(mosts))
    if not colours:
        return dict.fromkeys(units, 0)
    parts = apportion([units[colour] for colour in colours], total, most=mosts)
    return {**dict.fromkeys(units, 0), **dict(zip(colours, parts, strict=True))}
