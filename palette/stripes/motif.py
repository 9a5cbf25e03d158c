"""The stripes that come again in a plan: one repeat of them, as wide as it was woven."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from palette.stripes.plan import Role, Stripe, StripePlan
from palette.stripes.repeat import repeat_of
from palette.stripes.weft import Weft

__all__ = ["Motif", "axes_of", "body_of", "motif_of"]

_SAME_PICKS = 1.0  # two readings of one width, each within half a pick, differ by so much
_SAME_SHARE = 0.15  # a line of 2 picks is no line of 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Motif:
    """One repeat.

    Attributes
    ----------
    wefts : tuple of Weft
    roles : tuple of Role
    picks : tuple of float
        Of each stripe, in the picks of the plan that it comes from; a mean where the cloth
        shows a stripe several times.
    """

    wefts: tuple[Weft, ...]
    roles: tuple[Role, ...]
    picks: tuple[float, ...]

    def turned(self, start: int) -> Motif:
        """Give the same repeat, begun at another of its stripes."""
        return Motif(
            wefts=self.wefts[start:] + self.wefts[:start],
            roles=self.roles[start:] + self.roles[:start],
            picks=self.picks[start:] + self.picks[:start],
        )


def body_of(plan: StripePlan) -> tuple[Stripe, ...]:
    """Stripes of a plan without its hems and borders."""
    return tuple(stripe for stripe in plan.stripes if stripe.role in ("stripe", "blend"))


def motif_of(plan: StripePlan) -> Motif | None:
    """Take one repeat out of a plan.

    Parameters
    ----------
    plan : StripePlan
        Read off a cloth, its repeat is the one that was found there: a stripe has the mean of
        its widths, the first and last of the cloth left out because the picture may cut them,
        and stripes of one colour that differ by what a reading may be off are made alike. Else
        it is the repeat that its stripes keep to the pick.

    Returns
    -------
    Motif or None
        None where nothing comes again.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, number_picks
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> green, grey = Weft.of(moss), Weft("grey", "#808080", (53.6, 0.0, 0.0))
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), picks_per_cm=8, finished_length_mm=50,
    ...     stripes=number_picks([Piece(green, 6), Piece(grey, 2)] * 3 + [Piece(green, 6)]))
    >>> motif_of(plan).picks
    (6.0, 2.0)
    """
    body = body_of(plan)
    period = plan.repeat_stripes or 0
    if 1 < period < len(body) and _follows(body, period):
        return _of(body[:period], _evened(body[:period], _means(body, period)))
    found = repeat_of(plan)
    if found is None:
        return None
    once = plan.stripes[found.first_stripe - 1 : found.last_stripe]
    return _of(once, [float(stripe.picks) for stripe in once])


def _of(stripes: Sequence[Stripe], picks: Sequence[float]) -> Motif:
    return Motif(
        wefts=tuple(map(Weft.of, stripes)),
        roles=tuple(stripe.role for stripe in stripes),
        picks=tuple(picks),
    )


def _follows(body: Sequence[Stripe], period: int) -> bool:
    """Whether every stripe has the colour of the one a repeat before."""
    return all(a.colour == b.colour for a, b in zip(body, body[period:], strict=False))


def _means(body: Sequence[Stripe], period: int) -> list[float]:
    """Mean picks of each stripe of a repeat over the cloth; its two ends only where they must."""
    means = []
    for place in range(period):
        shown = body[place::period]
        whole = [s for s in shown if s is not body[0] and s is not body[-1]] or list(shown)
        means.append(math.fsum(stripe.picks for stripe in whole) / len(whole))
    return means


def _evened(stripes: Sequence[Stripe], picks: Sequence[float]) -> list[float]:
    """Make stripes of one colour alike that differ by no more than a reading may be off."""
    by_colour: dict[str, list[int]] = defaultdict(list)
    for place in sorted(range(len(stripes)), key=lambda place: picks[place]):
        by_colour[stripes[place].colour].append(place)
    evened = list(picks)
    for places in by_colour.values():
        while places:
            narrow = picks[places[0]]
            room = min(_SAME_PICKS, _SAME_SHARE * narrow) + 1e-9
            alike = [place for place in places if picks[place] - narrow <= room]
            mean = math.fsum(picks[place] for place in alike) / len(alike)
            for place in alike:
                evened[place] = mean
            places = places[len(alike) :]
    return evened


def axes_of(keys: Sequence[Hashable]) -> tuple[int, ...]:
    """Stripes about which a repeat, woven on and on, reads the same both ways.

    Examples
    --------
    >>> axes_of("abcb"), axes_of("abc"), axes_of("ab")
    ((0, 2), (), (0, 1))
    """
    count = len(keys)
    return tuple(
        axis
        for axis in range(count)
        if all(
            keys[(axis + away) % count] == keys[(axis - away) % count]
            for away in range(1, count // 2 + 1)
        )
    )
