"""Grouping counted colours, with scikit-learn's k-means on the weighted counts."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.splitting import split
from palette.clusters.threads import one_thread

__all__ = ["gather", "group", "nearest"]

_TURNS = 2
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

    Examples
    --------
    >>> means, sums = gather(np.array([[0.0, 0, 0], [1, 0, 0], [9, 0, 0]]), np.ones(3), 4.0)
    >>> means[:, 0].tolist(), sums.tolist()
    ([0.5, 9.0], [2.0, 1.0])
    """
    cells = np.floor(points / edge).astype(np.int64) + (1 << 20)  # counted from the origin
    key = (cells[:, 0] << 42) | (cells[:, 1] << 21) | cells[:, 2]
    _, inverse = np.unique(key, return_inverse=True)
    sums = np.bincount(inverse, weights=weights).astype(np.float64)
    means = [np.bincount(inverse, weights=weights * points[:, axis]) / sums for axis in range(3)]
    return np.stack(means, axis=1), sums


def group(
    points: Points,
    weights: Points,
    count: int,
    *,
    start: Points | None = None,
    fixed: Points | None = None,
    seed: int = 0,
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
    seed : int

    Returns
    -------
    ndarray of shape (at most count, 3)
        Spatial medians of the groups, so that a few stray points pull no centre.

    Notes
    -----
    Begins with `split`; k-means and then weighted medians (Weiszfeld 1937) take it on for two
    turns each. More turns would lower the mean difference by a hundredth and let the swatches
    move twice as far when a picture is cropped or saved again. One thread, so that the sums
    are made in the same order on every machine.

    Examples
    --------
    >>> points = np.array([[0.0, 0, 0], [50, 0, 0]])
    >>> group(points, np.ones(2), 2).round(6).tolist()
    [[0.0, 0.0, 0.0], [50.0, 0.0, 0.0]]
    """
    import sklearn
    from sklearn.cluster import KMeans

    begin = split(points, weights, count) if start is None else start
    if len(begin) < count:
        return _in_order(begin)
    quick = sklearn.config_context(assume_finite=True, skip_parameter_validation=True)
    with one_thread(), quick:
        way = KMeans(len(begin), init=begin, n_init=1, max_iter=_TURNS, tol=0, random_state=seed)
        way.fit(points, sample_weight=weights)
    centres = np.array(way.cluster_centers_, dtype=float)
    return _in_order(_medians(points, weights, centres, fixed))


def _medians(points: Points, weights: Points, centres: Points, fixed: Points | None) -> Points:
    count = len(centres)
    held = centres[:0] if fixed is None else fixed
    for _ in range(_MEDIAN_TURNS):
        owner, far = nearest(points, np.concatenate([centres, held]))
        pull = weights / np.maximum(far, _NEAR)
        sums = np.bincount(owner, weights=pull, minlength=count)[:count]
        for axis in range(3):
            moved = np.bincount(owner, weights=pull * points[:, axis], minlength=count)[:count]
            centres[:, axis] = np.where(
                sums > 0, moved / np.where(sums > 0, sums, 1), centres[:, axis]
            )
    return centres


def _in_order(centres: Points) -> Points:
    return centres[np.lexsort(centres.T[::-1])]
