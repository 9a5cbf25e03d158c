"""Grouping counted colours: a few turns of weighted k-means, then of weighted medians."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.splitting import split

__all__ = ["boxes_of", "gather", "group", "nearest"]

_MEAN_TURNS = 2
_ONES = np.ones(3)
_NEAR = 2.0  # closer than this counts as on the spot when medians are sought
_MEDIAN_TURNS = 2

Points = NDArray[np.float64]


def nearest(points: Points, centres: Points) -> tuple[NDArray[np.intp], Points]:
    """Row of the nearest centre for each point, and how far it is; ties go to the earlier.

    Examples
    --------
    >>> owner, far = nearest(np.array([[0.0, 0, 0], [9, 0, 0]]), np.array([[1.0, 0, 0], [8, 0, 0]]))
    >>> owner.tolist(), far.round(6).tolist()
    ([0, 1], [1.0, 1.0])
    """
    square = points @ (-2 * centres.T) + (centres**2).sum(axis=1)
    owner = square.argmin(axis=1)
    least = square[np.arange(len(points)), owner] + (points**2) @ _ONES
    return owner, np.sqrt(np.maximum(least, 0))


def gather(points: Points, weights: Points, edge: float) -> tuple[Points, Points]:
    """Points gathered into boxes of one edge: weighted means and summed weights.

    Boxes without weight are left out.

    Examples
    --------
    >>> means, sums = gather(np.array([[0.0, 0, 0], [1, 0, 0], [9, 0, 0]]), np.ones(3), 4.0)
    >>> means[:, 0].tolist(), sums.tolist()
    ([0.5, 9.0], [2.0, 1.0])
    """
    inverse = boxes_of(points, edge)
    sums = np.bincount(inverse, weights=weights).astype(np.float64)
    full = np.flatnonzero(sums)
    totals = [np.bincount(inverse, weights=weights * points[:, axis])[full] for axis in range(3)]
    return np.stack(totals, axis=1) / sums[full, None], sums[full]


def boxes_of(points: Points, edge: float) -> NDArray[np.intp]:
    """Give each point the number of its box of one edge; only boxes with points count.

    Examples
    --------
    >>> boxes_of(np.array([[0.0, 0, 0], [9, 0, 0], [1, 0, 0]]), 4.0).tolist()
    [0, 1, 0]
    """
    cells = np.floor(points / edge).astype(np.int64) + (1 << 20)  # counted from the origin
    key = (cells[:, 0] << 42) | (cells[:, 1] << 21) | cells[:, 2]
    return np.asarray(np.unique(key, return_inverse=True)[1])


def group(
    points: Points,
    weights: Points,
    count: int,
    *,
    start: Points | None = None,
    fixed: Points | None = None,
) -> Points:
    """Centres of groups of weighted points.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where equal distances look equal.
    weights : ndarray of shape (n,)
    count : int
        Groups asked for; fewer come back where there are fewer different points.
    start : ndarray of shape (count, 3), optional
        Where to begin, instead of by splitting.
    fixed : ndarray of shape (m, 3), optional
        Centres that exist beside those and stay where they are; points nearer to one of them
        than to any group belong to it.

    Returns
    -------
    ndarray of shape (at most count, 3)
        Spatial medians of the groups, so that a few stray points pull no centre.

    Notes
    -----
    Begins with `split`, so there is no chance in it; k-means (Lloyd 1982, IEEE Transactions on
    Information Theory 28, 129-137) and then weighted medians (Weiszfeld 1937) take it on for
    two turns each. More turns would lower the mean difference by a hundredth and let the
    swatches move twice as far when a picture is cropped or saved again.

    Examples
    --------
    >>> points = np.array([[0.0, 0, 0], [50, 0, 0]])
    >>> group(points, np.ones(2), 2).round(6).tolist()
    [[0.0, 0.0, 0.0], [50.0, 0.0, 0.0]]
    """
    begin = split(points, weights, count) if start is None else start
    if len(begin) < count:
        return _in_order(begin)
    centres = begin
    for _ in range(_MEAN_TURNS):
        owner, _ = nearest(points, centres)
        centres = _means(points, weights, owner, centres)
    held = centres[:0] if fixed is None else fixed
    for _ in range(_MEDIAN_TURNS):
        owner, far = nearest(points, np.concatenate([centres, held]))
        centres = _means(points, weights / np.maximum(far, _NEAR), owner, centres)
    return _in_order(centres)


def _means(points: Points, weights: Points, owner: NDArray[np.intp], centres: Points) -> Points:
    """Weighted mean of each centre's points; a centre without any stays where it is."""
    count = len(centres)
    sums = np.bincount(owner, weights=weights, minlength=count)[:count, None]
    totals = [
        np.bincount(owner, weights=weights * points[:, axis], minlength=count)[:count]
        for axis in range(3)
    ]
    return np.where(sums > 0, np.stack(totals, axis=1) / np.where(sums > 0, sums, 1), centres)


def _in_order(centres: Points) -> Points:
    return centres[np.lexsort(centres.T[::-1])]
