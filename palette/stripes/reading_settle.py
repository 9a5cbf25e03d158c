"""What a sequence of stripes foretells, held against what was seen; its edges settle.

Edges are moved by least squares after Gauss and Newton, damped after Levenberg (1944).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_smear import Smear, foretold

__all__ = [
    "Explanation",
    "Seen",
    "Window",
    "as_it_is",
    "costs",
    "joined",
    "misfits",
    "settle",
    "window_round",
]

Array = NDArray[np.float64]

_CAP = 60.0  # most that one row may cost: a knot or a stain does not decide
_PLAY = 0.22  # rows by which an edge is uneven: rows of steep change count less
_LEAST = 0.6  # picks that a stripe is at least wide
_STEPS = 5


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


def costs(seen: Seen, low: int, high: int, edges: Array, colours: Array) -> Array:
    """Cost of stripes with these edges (sets of them stacked in front) in rows low to high."""
    rows: Array = np.arange(low, high, dtype=np.float64) + 0.5
    off = (foretold(rows, edges, colours, seen.smear) - seen.lab[low:high]) ** 2
    per_row = (off / seen.variance[low:high]).sum(axis=-1)
    return np.asarray(np.minimum(per_row, _CAP).sum(axis=-1) / max(seen.smear.window, 1.0) / 2)


@dataclass(frozen=True, slots=True, eq=False)
class Window:
    """Part of a cloth in which something is tried: rows, and the stripes that stay around it."""

    low: int
    high: int
    before: Array  # fixed edges
    after: Array
    left: Array  # colours of the stripes that stay
    right: Array


def window_round(seen: Seen, now: Explanation, first: int, last: int) -> Window:
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
    return Window(
        low,
        high,
        now.edges[begin + 1 : first],
        now.edges[last + 2 : end + 1],
        now.colours[begin:first],
        now.colours[last + 1 : end + 1],
    )


def settle(
    seen: Seen, window: Window, inner: Array, start: Array, moving: Array
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

    best = float(costs(seen, window.low, window.high, laid(place), colours)[0])
    free = np.flatnonzero(moving)
    if not len(free):
        return best, place
    rows: Array = np.arange(window.low, window.high, dtype=np.float64) + 0.5
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
        cost = float(costs(seen, window.low, window.high, laid(new), colours)[0])
        if cost < best:
            gained = best - cost
            best, place, damping = cost, new, damping / 3
            if gained < 0.02:
                break
        else:
            damping *= 6
    return best, place


def _ordered(places: Array, window: Window, least: float, count: int, height: int) -> Array:
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


def as_it_is(seen: Seen, now: Explanation, first: int, last: int) -> float:
    """Cost of the same window as the stripes are."""
    window = window_round(seen, now, first, last)
    edges = now.edges[max(first, 1) : min(last + 1, len(now.yarns) - 1) + 1]
    colours = np.concatenate([window.left, now.colours[first : last + 1], window.right])
    laid = np.concatenate([window.before, edges, window.after])[None]
    return float(costs(seen, window.low, window.high, laid, colours)[0])


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
        window = window_round(seen, now, number, number)
        rows = (window.high - window.low) / max(seen.smear.window, 1.0)
        costs.append(as_it_is(seen, now, number, number) / rows)
    return np.array(costs)
