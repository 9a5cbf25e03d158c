"""Grouping counted colours, with scikit-learn's k-means on the weighted counts."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["group", "nearest"]

_STARTS = 10
_COARSE = 3.0  # edge of the boxes in which the starts are tried, in units of the space


def nearest(points: NDArray[np.float64], centres: NDArray[np.float64]) -> NDArray[np.intp]:
    """Row of the nearest centre for each point (Euclidean); ties go to the earlier.

    Examples
    --------
    >>> nearest(np.array([[0.0, 0, 0], [9, 0, 0]]), np.array([[1.0, 0, 0], [8, 0, 0]])).tolist()
    [0, 1]
    """
    square = (centres**2).sum(axis=1) - 2 * points @ centres.T
    return np.asarray(square.argmin(axis=1))


def group(
    points: NDArray[np.float64], weights: NDArray[np.float64], count: int, *, seed: int = 0
) -> NDArray[np.float64]:
    """Centres of groups of weighted points.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where equal distances look equal.
    weights : ndarray of shape (n,)
    count : int
        Groups asked for; fewer come back where there are fewer different points.
    seed : int

    Returns
    -------
    ndarray of shape (at most count, 3)

    Notes
    -----
    The starts are tried on a coarse gathering of the points (boxes of edge 3), the best of them
    is carried to the end on all points. One thread, so that the sums are made in the same
    order on every machine.

    Examples
    --------
    >>> points = np.array([[0.0, 0, 0], [1, 0, 0], [50, 0, 0]])
    >>> group(points, np.ones(3), 2).round(6).tolist()
    [[0.5, 0.0, 0.0], [50.0, 0.0, 0.0]]
    """
    from sklearn.cluster import KMeans
    from threadpoolctl import threadpool_limits  # type: ignore[import-untyped]

    coarse, mass = gather(points, weights, _COARSE)
    if len(coarse) <= count:
        coarse, mass = gather(points, weights, 1e-6)
    if len(coarse) <= count:
        return _in_order(coarse)
    with threadpool_limits(limits=1):
        start = KMeans(count, n_init=_STARTS, random_state=seed, tol=1e-3).fit(
            coarse, sample_weight=mass
        )
        final = KMeans(count, init=start.cluster_centers_, n_init=1, max_iter=30, tol=1e-4).fit(
            points, sample_weight=weights
        )
    return _in_order(np.asarray(final.cluster_centers_, dtype=float))


def _in_order(centres: NDArray[np.float64]) -> NDArray[np.float64]:
    return centres[np.lexsort(centres.T[::-1])]


def gather(
    points: NDArray[np.float64], weights: NDArray[np.float64], edge: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Points gathered into boxes of one edge: weighted means and summed weights.

    Examples
    --------
    >>> means, sums = gather(np.array([[0.0, 0, 0], [1, 0, 0], [9, 0, 0]]), np.ones(3), 4.0)
    >>> means[:, 0].tolist(), sums.tolist()
    ([0.5, 9.0], [2.0, 1.0])
    """
    cells = np.floor((points - points.min(axis=0)) / edge).astype(np.int64)
    key = (cells[:, 0] << 42) | (cells[:, 1] << 21) | cells[:, 2]
    _, inverse = np.unique(key, return_inverse=True)
    sums = np.bincount(inverse, weights=weights).astype(np.float64)
    means = [np.bincount(inverse, weights=weights * points[:, axis]) / sums for axis in range(3)]
    return np.stack(means, axis=1), sums
