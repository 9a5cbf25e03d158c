"""Cutting a profile of colour into stripes: exact least squares with a price for every change.

The profile is cut where that costs least, over all ways of cutting it (a Potts model in one
dimension; dynamic programming after Friedrich, Kempe, Liebscher and Winkler 2008). Rows close to a
cut do not count towards the colour of a stripe, because there the lens and the thread mix both.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["cut", "edges_between", "pick_period", "running_mean"]

Array = NDArray[np.float64]


def running_mean(profile: Array, width: float) -> Array:
    """Mean over a window of a fractional number of rows, the ends continued.

    Examples
    --------
    >>> running_mean(np.array([[0.0], [0.0], [3.0], [3.0]]), 2.0)[:, 0].tolist()
    [0.0, 0.75, 2.25, 3.0]
    """
    if width <= 1:
        return profile
    rows = len(profile)
    pad = int(np.ceil(width))
    padded = np.concatenate(
        [np.repeat(profile[:1], pad, axis=0), profile, np.repeat(profile[-1:], pad, axis=0)]
    )
    total = np.concatenate([np.zeros((1, profile.shape[1])), np.cumsum(padded, axis=0)])
    centres = np.arange(rows) + pad + 0.5
    at = np.arange(len(total), dtype=float)
    upper, lower = centres + width / 2, centres - width / 2
    return np.stack(
        [
            (np.interp(upper, at, total[:, c]) - np.interp(lower, at, total[:, c])) / width
            for c in range(profile.shape[1])
        ],
        axis=1,
    )


def pick_period(rows: Array) -> tuple[float, float]:
    """Rows from one pick to the next, seen in the thread's own light and shade.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light along the warp.

    Returns
    -------
    period : float
        In rows; 0 where no thread can be seen.
    strength : float
        How far the repetition stands out, 0 to 1.
    """
    from scipy import ndimage

    light = rows.mean(axis=1)
    jumps = np.abs(np.diff(rows, axis=0)).max(axis=1)
    change = np.diff(light)
    typical = np.median(np.abs(change)) + 1e-9
    change = np.clip(change, -4 * typical, 4 * typical)
    change[jumps > 8 * typical] = 0
    change -= ndimage.gaussian_filter1d(change, 12)
    longest = min(len(change) // 8, 80)
    norm = float((change**2).sum()) + 1e-12
    likeness = (
        np.array(
            [
                float((change[lag:] * change[: len(change) - lag]).sum())
                for lag in range(longest + 1)
            ]
        )
        / norm
    )
    lags = range(2, longest)
    peaks = [
        lag
        for lag in lags
        if likeness[lag] > likeness[lag - 1]
        and likeness[lag] >= likeness[lag + 1]
        and likeness[lag] > 0.12
    ]
    if not peaks:
        return 0.0, 0.0
    top = max(likeness[lag] for lag in peaks)
    lag = next(lag for lag in peaks if likeness[lag] > 0.45 * top)
    for parts in (4, 3, 2):  # a repeat of several picks, as alternate sheds make it
        near = [int(lag / parts), int(np.ceil(lag / parts))]
        likest = max(near, key=lambda place: float(likeness[place]))
        own = lag / parts
        beside = max(likeness[round(0.5 * own)], likeness[round(1.5 * own)])
        if near[0] >= 2 and likeness[likest] > max(0.25 * top, beside + 0.1 * top):
            lag = likest
            break
    before, here, after = likeness[lag - 1 : lag + 2]
    curve = before - 2 * here + after
    move = float(np.clip(0.5 * (before - after) / curve, -0.6, 0.6)) if curve < 0 else 0.0
    return float(lag + move), float(here)


def cut(samples: Array, per_pick: float, price: float, blind: int) -> list[int]:
    """Cut a profile into stripes.

    Parameters
    ----------
    samples : ndarray of shape (height, channels)
        Colour of every row in units of its noise per pick.
    per_pick : float
        Rows that a pick takes: rows of the same pick are not independent.
    price : float
        What every stripe costs.
    blind : int
        Rows on each side of a cut that do not count.

    Returns
    -------
    list of int
        Rows at which stripes begin, and the height at the end.
    """
    height, channels = samples.shape
    first = np.concatenate([np.zeros((1, channels)), np.cumsum(samples, axis=0)])
    second = np.concatenate([[0.0], np.cumsum((samples**2).sum(axis=1))])
    least = 2 * blind + 1
    best = np.full(height + 1, np.inf)
    best[0] = 0.0
    came = np.zeros(height + 1, dtype=int)
    for stop in range(least, height + 1):
        starts = np.arange(0, stop - least + 1)
        low = np.where(starts == 0, 0, starts + blind)
        high = stop if stop == height else stop - blind
        count = high - low
        part = first[high] - first[low]
        spread = second[high] - second[low] - (part**2).sum(axis=1) / count
        cost = best[starts] + np.maximum(spread, 0) * ((stop - starts) / count / per_pick) + price
        choice = int(cost.argmin())
        best[stop], came[stop] = cost[choice], starts[choice]
    cuts = [height]
    while cuts[-1] > 0:
        cuts.append(int(came[cuts[-1]]))
    return cuts[::-1]


def edges_between(light: Array, cuts: list[int], colours: Array, reach: float) -> Array:
    """Places of the cuts to a part of a row, where as much of the one colour is missing as gained.

    Parameters
    ----------
    light : ndarray of shape (height, 3)
        Light (not its logarithm), evened out.
    cuts : list of int
        As `cut` gives them.
    colours : ndarray of shape (stripes, 3)
        Light of each stripe.
    reach : float
        Rows on each side in which the change takes place.
    """
    edges = [0.0]
    for number in range(1, len(cuts) - 1):
        before, after = colours[number - 1], colours[number]
        way = before - after
        size = float(way @ way) + 1e-12
        low = max(cuts[number - 1] + (cuts[number] - cuts[number - 1]) / 2, cuts[number] - reach)
        high = min(cuts[number] + (cuts[number + 1] - cuts[number]) / 2, cuts[number] + reach)
        top, bottom = round(low), max(round(high), round(low) + 1)
        part = np.clip((light[top:bottom] - after) @ way / size, -0.3, 1.3)
        edges.append(float(np.clip(top + part.sum(), top, bottom)))
    return np.array([*edges, float(cuts[-1])])
