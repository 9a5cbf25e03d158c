"""Which stripes explain a picture best, and by how much: a sequence against its near alternatives.

Every stripe is tried without, in another yarn, and with a narrow stripe more beside it; the edges
settle anew each time, and what would then be seen is held against what was seen. A stripe more has
its price, as in any choice between models of different size (Schwarz 1978). The same sums say
afterwards how sure the reading is: by how much the best alternative is worse.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_settle import (
    Explanation,
    Seen,
    as_it_is,
    costs,
    settle,
    window_round,
)

__all__ = ["Alternative", "alternatives", "explained"]

Array = NDArray[np.float64]

_PRICE = 12.0  # of a stripe more
_PASSES, _MOST_YARNS = 4, 24  # passes; one alone where so many yarns say that these are no stripes
_NARROW, _TRIED = 4.5, 8  # picks under which more yarns than the nearest two are tried


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Alternative:
    """Stripes `first` to `last` replaced by others.

    Attributes
    ----------
    kind : str
        "without", "yarn", "more" or "two".
    first, last : int
        Stripes that are replaced, both included; `last` < `first`: nothing is.
    yarns : tuple of int
        Yarns that take their place.
    worse : float
        Half of twice the logarithm of a likelihood ratio, the price of stripes counted in.
    edges : ndarray
        Edges before, between and after the new stripes.
    """

    kind: str
    first: int
    last: int
    yarns: tuple[int, ...]
    worse: float
    edges: Array = field(repr=False)


def _replaced(
    seen: Seen, now: Explanation, first: int, last: int, inner: tuple[int, ...]
) -> tuple[float, Array]:
    """Cost of replacing stripes first..last (widened by their neighbours) by these yarns."""
    count = len(now.yarns)
    window = window_round(seen, now, first, last)
    start, stop = now.edges[first], now.edges[last + 1]
    kept_left, kept_right = first > 0, last < count - 1
    if not inner:  # the neighbours meet, or one of them runs on to the end
        edges = np.array([(start + stop) / 2]) if kept_left and kept_right else np.array([])
        colours = np.empty((0, 3))
    else:
        between = start + (stop - start) * np.arange(1, len(inner)) / len(inner)
        edges = np.concatenate([[start] * kept_left, between, [stop] * kept_right])
        colours = np.array([now.yarn_light[yarn] for yarn in inner])
    return settle(seen, window, colours, edges, np.ones(len(edges), dtype=bool))


def alternatives(seen: Seen, now: Explanation, number: int) -> Iterator[Alternative]:
    """Alternatives to one stripe, each with how much worse it is (less than 0: better)."""
    count = len(now.yarns)
    if number and (now.yarns[number - 1] >= 0 or now.yarns[number] >= 0):
        yield from _more(seen, now, number)
    if now.yarns[number] < 0:
        return  # what lies beyond the cloth stays
    here = as_it_is(seen, now, number, number)
    before = now.yarns[number - 1] if number else None
    after = now.yarns[number + 1] if number < count - 1 else None
    if count > 2:
        yield _without(seen, now, number, here)
    others = [yarn for yarn in now.yarn_light if yarn not in (before, after, now.yarns[number])]
    for yarn in _nearest(seen, now, number, others):
        cost, edges = _replaced(seen, now, number, number, (yarn,))
        yield Alternative(
            kind="yarn", first=number, last=number, yarns=(yarn,), worse=cost - here, edges=edges
        )


def _without(seen: Seen, now: Explanation, number: int, here: float) -> Alternative:
    """Leave the stripe out; where its neighbours are of one yarn they become one stripe."""
    count = len(now.yarns)
    inside = 0 < number < count - 1
    if inside and now.yarns[number - 1] == now.yarns[number + 1]:
        here = as_it_is(seen, now, number, number)
        window = window_round(seen, now, number, number)
        widths = np.diff(now.edges)[[number - 1, number + 1]]
        one = np.average(now.colours[[number - 1, number + 1]], axis=0, weights=widths)
        left, right = window.left.copy(), window.right.copy()
        left[-1] = one
        joined = np.concatenate([left, right[1:]])
        laid = np.concatenate([window.before, window.after])[None]
        cost = float(costs(seen, window.low, window.high, laid, joined)[0])
        return Alternative(
            kind="without",
            first=number - 1,
            last=number + 1,
            yarns=(now.yarns[number - 1],),
            worse=cost - here - 2 * _PRICE,
            edges=np.concatenate(
                [
                    now.edges[[number - 1]][: int(number > 1)],
                    now.edges[[number + 2]][: int(number < count - 2)],
                ]
            ),
        )
    cost, edges = _replaced(seen, now, number, number, ())
    return Alternative(
        kind="without",
        first=number,
        last=number,
        yarns=(),
        worse=cost - here - _PRICE,
        edges=edges,
    )


def _nearest(seen: Seen, now: Explanation, number: int, others: list[int]) -> list[int]:
    """Yarns worth trying: the nearest, more for a narrow stripe than for a wide one."""
    width = now.edges[number + 1] - now.edges[number]
    most = _TRIED if width < _NARROW * seen.smear.window else 2
    if len(others) <= most:
        return others
    own = np.cbrt(now.colours[number])
    near = sorted(others, key=lambda y: float(np.abs(np.cbrt(now.yarn_light[y]) - own).sum()))
    return near[:most]


def _more(seen: Seen, now: Explanation, number: int) -> Iterator[Alternative]:
    """Try a narrow stripe more at the edge before a stripe: the yarn that would fit best."""
    sides = (now.yarns[number - 1], now.yarns[number])
    others = [yarn for yarn in now.yarn_light if yarn not in sides]
    if not others:
        return
    if len(others) > _TRIED:
        others = _nearest(seen, now, number, others)
    edge, pick = now.edges[number], max(seen.smear.window, 1.5)
    reach = seen.smear.reach + 2
    low, high = max(0, int(edge - reach)), min(len(seen.lab), int(edge + reach) + 1)
    fixed = now.edges[1:-1]
    near = np.abs(fixed - edge) < 2 * reach + pick
    near[number - 1] = True
    index = np.flatnonzero(near)
    context = now.colours[index[0] : index[-1] + 2]
    here = float(costs(seen, low, high, fixed[index][None], context)[0])
    if here < 0.6 * _PRICE:
        return  # what is seen here is explained already: no room for a stripe more
    own = number - 1 - index[0]
    tries = []
    for yarn in others:
        colours = np.insert(context, own + 1, now.yarn_light[yarn], axis=0)
        places = [
            np.sort(np.concatenate([np.delete(fixed[index], own), edge + move + [-half, half]]))
            for move in (-0.5 * pick, 0.0, 0.5 * pick)
            for half in (0.4 * pick, 0.8 * pick, 1.3 * pick)
        ]
        tries.append((float(costs(seen, low, high, np.array(places), colours).min()), yarn))
    for cost, yarn in sorted(tries)[:2]:
        if cost < here + _PRICE:
            yield _settled_more(seen, now, number, yarn, pick)


def _settled_more(seen: Seen, now: Explanation, number: int, yarn: int, pick: float) -> Alternative:
    """Put a stripe between two, and let its edges settle."""
    edge = now.edges[number]
    split = Explanation(
        edges=np.insert(now.edges, number, edge),
        yarns=[*now.yarns[:number], yarn, *now.yarns[number:]],
        colours=np.insert(now.colours, number, now.yarn_light[yarn], axis=0),
        yarn_light=now.yarn_light,
    )
    split.edges[number : number + 2] = edge - 0.5 * pick, edge + 0.5 * pick
    window = window_round(seen, split, number, number)
    inner = split.colours[number : number + 1]
    start = split.edges[number : number + 2]
    cost, edges = settle(seen, window, inner, start, np.ones(2, dtype=bool))
    single = np.concatenate([window.before, [edge], window.after])[None]
    colours = np.concatenate([window.left, window.right])
    here = float(costs(seen, window.low, window.high, single, colours)[0])
    return Alternative(
        kind="more",
        first=number,
        last=number - 1,
        yarns=(yarn,),
        worse=cost - here + _PRICE,
        edges=edges,
    )


def _taken(now: Explanation, choice: Alternative) -> Explanation:
    """Put an alternative into the explanation."""
    first, last = choice.first, choice.last
    count = len(now.yarns)
    yarns = [*now.yarns[:first], *choice.yarns, *now.yarns[last + 1 :]]
    head = now.edges[:first] if first > 0 else now.edges[:1]
    tail = now.edges[last + 2 :] if last < count - 1 else now.edges[-1:]
    middle = [now.yarn_light[yarn] for yarn in choice.yarns]
    colours = np.array([*now.colours[:first], *middle, *now.colours[last + 1 :]])
    return Explanation(
        edges=np.concatenate([head, choice.edges, tail]),
        yarns=yarns,
        colours=colours,
        yarn_light=now.yarn_light,
    )


def explained(seen: Seen, start: Explanation) -> Explanation:
    """Take alternatives that are better until none is left, then settle every edge.

    Parameters
    ----------
    seen : Seen
    start : Explanation

    Returns
    -------
    Explanation
    """
    now = _all_settled(seen, start)
    left: set[tuple[int, ...]] = set()  # what was given up is not gone back to
    for _ in range(_PASSES if len(now.yarn_light) <= _MOST_YARNS else 1):
        changed = False
        number = 0
        while number < len(now.yarns):
            best = min(alternatives(seen, now, number), key=lambda a: a.worse, default=None)
            better = None if best is None or best.worse >= -0.5 else _taken(now, best)
            if better is not None and tuple(better.yarns) not in left:
                left.add(tuple(now.yarns))
                now, changed = better, True
                number = max(0, number - 1)
            else:
                number += 1
        now = _all_settled(seen, now)
        if not changed:
            break
    return now


def _all_settled(seen: Seen, now: Explanation) -> Explanation:
    """Settle the edges, stripe by stripe."""
    edges = now.edges.copy()
    for number in range(len(now.yarns)):
        current = Explanation(
            edges=edges, yarns=now.yarns, colours=now.colours, yarn_light=now.yarn_light
        )
        window = window_round(seen, current, number, number)
        places = slice(max(number, 1), min(number + 1, len(now.yarns) - 1) + 1)
        inner = now.colours[number : number + 1]
        start = edges[places]
        _, edges[places] = settle(seen, window, inner, start, np.ones(len(start), dtype=bool))
    return Explanation(edges=edges, yarns=now.yarns, colours=now.colours, yarn_light=now.yarn_light)
