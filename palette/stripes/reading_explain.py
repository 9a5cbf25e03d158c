"""Which stripes explain a picture best, and by how much: a sequence against its near alternatives.

Every stripe is tried without, in another yarn, and with a narrow stripe more beside it; the edges
settle anew each time (least squares after Gauss and Newton, damped after Levenberg 1944), and
what would then be seen is held against what was seen. A stripe more has its price, as in any
choice between models of different size (Schwarz 1978). The same sums say afterwards how sure the
reading is: by how much the best alternative is worse.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_smear import Smear, foretold

__all__ = ["Alternative", "Explanation", "Seen", "alternatives", "explained", "joined", "misfits"]

Array = NDArray[np.float64]

_PRICE = 12.0  # of a stripe more
_CAP = 60.0  # most that one row may cost: a knot or a stain does not decide
_PLAY = 0.22  # rows by which an edge is uneven: rows of steep change count less
_LEAST = 0.6  # picks that a stripe is at least wide
_STEPS = 5
_PASSES = 4
_NARROW = 4.5  # picks under which every yarn is tried


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """What the picture shows, row by row.

    Attributes
    ----------
    lab : ndarray of shape (height, 3)
        CIELAB, the light evened out and smoothed over a pick.
    variance : ndarray of shape (height, 3)
        Of the mean of one pick.
    smear : Smear
    """

    lab: Array
    variance: Array
    smear: Smear

    @classmethod
    def of(cls, lab: Array, noise: Array, smear: Smear) -> Seen:
        """Allow for noise, and for uneven edges where the colour changes steeply."""
        steep = np.gradient(lab, axis=0) * _PLAY * max(1.0, smear.window / 4)
        return cls(lab=lab, variance=noise**2 + steep**2, smear=smear)


@dataclass(slots=True, kw_only=True, eq=False)
class Explanation:
    """A sequence of stripes with the colours it foretells.

    Attributes
    ----------
    edges : ndarray of shape (stripes + 1,)
    yarns : list of int
    colours : ndarray of shape (stripes, 3)
        Linear sRGB of each stripe.
    yarn_light : dict of int to ndarray of shape (3,)
        Linear sRGB of each yarn.
    """

    edges: Array
    yarns: list[int]
    colours: Array
    yarn_light: dict[int, Array]


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


def _costs(seen: Seen, low: int, high: int, edges: Array, colours: Array) -> Array:
    """Cost of stripes with these edges (sets of them stacked in front) in rows low to high."""
    rows = np.arange(low, high) + 0.5
    off = (foretold(rows, edges, colours, seen.smear) - seen.lab[low:high]) ** 2
    per_row = (off / seen.variance[low:high]).sum(axis=-1)
    return np.asarray(np.minimum(per_row, _CAP).sum(axis=-1) / max(seen.smear.window, 1.0) / 2)


@dataclass(frozen=True, slots=True, eq=False)
class _Window:
    """Part of a cloth in which something is tried: rows, and the stripes that stay around it."""

    low: int
    high: int
    before: Array  # fixed edges
    after: Array
    left: Array  # colours of the stripes that stay
    right: Array


def _window(seen: Seen, now: Explanation, first: int, last: int) -> _Window:
    """Window round stripes first to last and the stripes beside them that are felt in it."""
    reach = seen.smear.reach
    start, stop = now.edges[first], now.edges[last + 1]
    low = max(0, int(start - reach - 2))
    high = min(len(seen.lab), int(np.ceil(stop + reach + 2)))
    begin, end = first, last
    while begin > 0 and now.edges[begin] > low - reach:
        begin -= 1
    while end < len(now.yarns) - 1 and now.edges[end + 1] < high + reach:
        end += 1
    return _Window(
        low,
        high,
        now.edges[begin + 1 : first],
        now.edges[last + 2 : end + 1],
        now.colours[begin:first],
        now.colours[last + 1 : end + 1],
    )


def _settle(
    seen: Seen, window: _Window, inner: Array, start: Array, moving: Array
) -> tuple[float, Array]:
    """Let the moving edges settle; their cost and places."""
    colours = np.concatenate([window.left, inner, window.right])
    least = _LEAST * max(seen.smear.window, 1.5)
    place = start.astype(float).copy()
    count = len(place)

    def laid(places: Array) -> Array:
        stack = np.atleast_2d(places)
        fixed = [
            np.broadcast_to(part, (len(stack), len(part))) for part in (window.before, window.after)
        ]
        return np.concatenate([fixed[0], stack, fixed[1]], axis=1)

    best = float(_costs(seen, window.low, window.high, laid(place), colours)[0])
    free = np.flatnonzero(moving)
    if not len(free):
        return best, place
    rows = np.arange(window.low, window.high) + 0.5
    weight = 1 / np.sqrt(seen.variance[window.low : window.high])
    damping = 0.1
    for _ in range(_STEPS):
        trial = np.repeat(place[None], len(free) + 1, axis=0)
        trial[np.arange(1, len(free) + 1), free] += 0.2
        shown = foretold(rows, laid(trial), colours, seen.smear)
        off = (seen.lab[window.low : window.high] - shown[0]) * weight
        capped = np.sqrt(np.minimum(1, _CAP / ((off**2).sum(axis=1, keepdims=True) + 1e-9)))
        slope = ((shown[1:] - shown[0]) / 0.2 * weight * capped).reshape(len(free), -1)
        normal = slope @ slope.T
        normal += np.diag(damping * np.diag(normal) + 1e-6)
        step = np.linalg.solve(normal, slope @ (off * capped).ravel())
        new = place.copy()
        new[free] += np.clip(step, -0.7 * least, 0.7 * least)
        new = _ordered(new, window, least, count, len(seen.lab))
        cost = float(_costs(seen, window.low, window.high, laid(new), colours)[0])
        if cost < best:
            gained = best - cost
            best, place, damping = cost, new, damping / 3
            if gained < 0.02:
                break
        else:
            damping *= 6
    return best, place


def _ordered(places: Array, window: _Window, least: float, count: int, height: int) -> Array:
    """Keep edges in order and stripes wide enough."""
    floor = (window.before[-1] if len(window.before) else 0.0) + least
    roof = (window.after[0] if len(window.after) else float(height)) - least
    for k in range(count):
        floor_k = floor if k == 0 else places[k - 1] + least
        places[k] = max(places[k], floor_k)
    for k in range(count - 1, -1, -1):
        roof_k = roof if k == count - 1 else places[k + 1] - least
        places[k] = min(places[k], roof_k)
    return places


def _replaced(
    seen: Seen, now: Explanation, first: int, last: int, inner: tuple[int, ...]
) -> tuple[float, Array]:
    """Cost of replacing stripes first..last (widened by their neighbours) by these yarns."""
    count = len(now.yarns)
    window = _window(seen, now, first, last)
    start, stop = now.edges[first], now.edges[last + 1]
    kept_left, kept_right = first > 0, last < count - 1
    if not inner:  # the neighbours meet, or one of them runs on to the end
        edges = np.array([(start + stop) / 2]) if kept_left and kept_right else np.array([])
        colours = np.empty((0, 3))
    else:
        between = start + (stop - start) * np.arange(1, len(inner)) / len(inner)
        edges = np.concatenate([[start] * kept_left, between, [stop] * kept_right])
        colours = np.array([now.yarn_light[yarn] for yarn in inner])
    return _settle(seen, window, colours, edges, np.ones(len(edges), dtype=bool))


def _as_it_is(seen: Seen, now: Explanation, first: int, last: int) -> float:
    """Cost of the same window as the stripes are."""
    window = _window(seen, now, first, last)
    edges = now.edges[max(first, 1) : min(last + 1, len(now.yarns) - 1) + 1]
    colours = np.concatenate([window.left, now.colours[first : last + 1], window.right])
    laid = np.concatenate([window.before, edges, window.after])[None]
    return float(_costs(seen, window.low, window.high, laid, colours)[0])


def alternatives(seen: Seen, now: Explanation, number: int) -> Iterator[Alternative]:
    """Alternatives to one stripe, each with how much worse it is (less than 0: better)."""
    count = len(now.yarns)
    if number and (now.yarns[number - 1] >= 0 or now.yarns[number] >= 0):
        yield from _more(seen, now, number)
    if now.yarns[number] < 0:
        return  # what lies beyond the cloth stays
    here = _as_it_is(seen, now, number, number)
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
    """The stripe left out; where its neighbours are of one yarn they become one stripe."""
    count = len(now.yarns)
    inside = 0 < number < count - 1
    if inside and now.yarns[number - 1] == now.yarns[number + 1]:
        here = _as_it_is(seen, now, number, number)
        window = _window(seen, now, number, number)
        widths = np.diff(now.edges)[[number - 1, number + 1]]
        one = np.average(now.colours[[number - 1, number + 1]], axis=0, weights=widths)
        left, right = window.left.copy(), window.right.copy()
        left[-1] = one
        joined = np.concatenate([left, right[1:]])
        laid = np.concatenate([window.before, window.after])[None]
        cost = float(_costs(seen, window.low, window.high, laid, joined)[0])
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
    """Yarns worth trying: all for a narrow stripe, the nearest two for a wide one."""
    width = now.edges[number + 1] - now.edges[number]
    if width < _NARROW * seen.smear.window or len(others) <= 2:
        return others
    own = np.cbrt(now.colours[number])
    return sorted(others, key=lambda y: float(np.abs(np.cbrt(now.yarn_light[y]) - own).sum()))[:2]


def _more(seen: Seen, now: Explanation, number: int) -> Iterator[Alternative]:
    """A narrow stripe more at the edge before a stripe: the yarn that would fit best."""
    sides = (now.yarns[number - 1], now.yarns[number])
    others = [yarn for yarn in now.yarn_light if yarn not in sides]
    if not others:
        return
    edge, pick = now.edges[number], max(seen.smear.window, 1.5)
    reach = seen.smear.reach + 2
    low, high = max(0, int(edge - reach)), min(len(seen.lab), int(edge + reach) + 1)
    fixed = now.edges[1:-1]
    near = np.abs(fixed - edge) < 2 * reach + pick
    near[number - 1] = True
    index = np.flatnonzero(near)
    context = now.colours[index[0] : index[-1] + 2]
    here = float(_costs(seen, low, high, fixed[index][None], context)[0])
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
        tries.append((float(_costs(seen, low, high, np.array(places), colours).min()), yarn))
    for cost, yarn in sorted(tries)[:2]:
        if cost < here + _PRICE:
            yield _settled_more(seen, now, number, yarn, pick)


def _settled_more(seen: Seen, now: Explanation, number: int, yarn: int, pick: float) -> Alternative:
    """A stripe put between two, and its edges settled."""
    edge = now.edges[number]
    split = Explanation(
        edges=np.insert(now.edges, number, edge),
        yarns=[*now.yarns[:number], yarn, *now.yarns[number:]],
        colours=np.insert(now.colours, number, now.yarn_light[yarn], axis=0),
        yarn_light=now.yarn_light,
    )
    split.edges[number : number + 2] = edge - 0.5 * pick, edge + 0.5 * pick
    window = _window(seen, split, number, number)
    inner = split.colours[number : number + 1]
    start = split.edges[number : number + 2]
    cost, edges = _settle(seen, window, inner, start, np.ones(2, dtype=bool))
    single = np.concatenate([window.before, [edge], window.after])[None]
    colours = np.concatenate([window.left, window.right])
    here = float(_costs(seen, window.low, window.high, single, colours)[0])
    return Alternative(
        kind="more",
        first=number,
        last=number - 1,
        yarns=(yarn,),
        worse=cost - here + _PRICE,
        edges=edges,
    )


def _taken(now: Explanation, choice: Alternative) -> Explanation:
    """The explanation with an alternative in it."""
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
    for _ in range(_PASSES):
        changed = False
        number = 0
        while number < len(now.yarns):
            best = min(alternatives(seen, now, number), key=lambda a: a.worse, default=None)
            if best is not None and best.worse < -0.5:
                now = _taken(now, best)
                changed = True
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
        window = _window(seen, current, number, number)
        places = slice(max(number, 1), min(number + 1, len(now.yarns) - 1) + 1)
        inner = now.colours[number : number + 1]
        start = edges[places]
        _, edges[places] = _settle(seen, window, inner, start, np.ones(len(start), dtype=bool))
    return Explanation(edges=edges, yarns=now.yarns, colours=now.colours, yarn_light=now.yarn_light)


def joined(now: Explanation) -> Explanation:
    """Neighbours of the same yarn made one stripe."""
    yarns = now.yarns
    starts = [k for k in range(len(yarns)) if k == 0 or yarns[k] != yarns[k - 1]]
    if len(starts) == len(yarns):
        return now
    widths = np.diff(now.edges)
    stops = [*starts[1:], len(yarns)]
    colours = [
        np.average(now.colours[a:b], axis=0, weights=widths[a:b])
        for a, b in zip(starts, stops, strict=True)
    ]
    return Explanation(
        edges=np.append(now.edges[starts], now.edges[-1]),
        yarns=[yarns[k] for k in starts],
        colours=np.array(colours),
        yarn_light=now.yarn_light,
    )


def misfits(seen: Seen, now: Explanation) -> Array:
    """Cost of each stripe as it is, for every pick it takes."""
    costs = []
    for number in range(len(now.yarns)):
        window = _window(seen, now, number, number)
        rows = (window.high - window.low) / max(seen.smear.window, 1.0)
        costs.append(_as_it_is(seen, now, number, number) / rows)
    return np.array(costs)
