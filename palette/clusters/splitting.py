"""Where grouping begins: a picture's colours split in two, and in two again."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["split"]

_NEAR = 2.0

Points = NDArray[np.float64]


def split(points: Points, weights: Points, count: int) -> Points:
    """Means of groups made by splitting the widest group along its longest axis, again and again.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
    weights : ndarray of shape (n,)
    count : int

    Returns
    -------
    ndarray of shape (at most count, 3)
        Fewer where there are fewer different points.

    Notes
    -----
    Random starts end in one of many equally good groupings; a photograph saved half as large
    then ends in another one, and its swatches jump. Splitting has no chance in it and changes
    little when the picture changes little. How wide a group is goes by distance, not by its
    square, so a few stray points open no group (axis: principal component, Pearson 1901).

    Examples
    --------
    >>> split(np.array([[0.0, 0, 0], [1, 0, 0], [50, 0, 0]]), np.ones(3), 2).tolist()
    [[0.5, 0.0, 0.0], [50.0, 0.0, 0.0]]
    """
    owner = np.zeros(len(points), dtype=np.intp)
    widths = [_halves(points, weights, np.arange(len(points)))]
    for index in range(1, count):
        widest = max(range(index), key=lambda row: (widths[row][0], -row))
        width, rows, upper = widths[widest]
        if not width > 0:
            break
        owner[rows[upper]] = index
        widths[widest] = _halves(points, weights, rows[~upper])
        widths.append(_halves(points, weights, rows[upper]))
    sums = np.bincount(owner, weights=weights)
    means = [np.bincount(owner, weights=weights * points[:, axis]) / sums for axis in range(3)]
    return np.stack(means, axis=1)


def _halves(
    points: Points, weights: Points, rows: NDArray[np.intp]
) -> tuple[float, NDArray[np.intp], NDArray[np.bool_]]:
    """How wide a group is, its points, and which of them lie in its upper half."""
    mine, mass = points[rows], weights[rows]
    offset = mine - mass @ mine / mass.sum()
    distance = np.sqrt((offset**2).sum(axis=1))
    pull = mass / np.maximum(distance, _NEAR)
    sizes, axes = np.linalg.eigh((offset * pull[:, None]).T @ offset)
    axis = axes[:, -1] * (1.0 if axes[np.abs(axes[:, -1]).argmax(), -1] > 0 else -1.0)
    upper = offset @ axis > 1e-9
    width = float(sizes[-1]) ** 0.5 * float(mass.sum()) if upper.any() and not upper.all() else 0.0
    return width, rows, upper
