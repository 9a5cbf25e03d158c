"""Which yarn goes with which colour: near pairs are kept, hopeless ones are left apart."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["best_pairs", "nearest_pairs"]

FloatArray = NDArray[np.float64]

_HAIR = 1e-6  # a pair just within its reach is better than none
_NEVER = 1e6


def best_pairs(differences: FloatArray, reach: FloatArray, *, alone: float) -> dict[int, int]:
    """Pair rows with columns, each at most once, so that the costs together are least.

    A pair costs its difference, a row that stays without a column costs `alone`, and a pair
    farther apart than its column reaches is never made. So a row that nothing comes near costs the
    same whatever it would get, and drags no good pair apart.

    Parameters
    ----------
    differences : ndarray of shape (rows, columns)
    reach : ndarray of shape (columns,)
        Largest difference at which each column may be taken.
    alone : float
        What a row without a column costs: the largest reach.

    Returns
    -------
    dict of int to int
        Column of each row that has one. Equal costs are decided by the order of the columns.

    References
    ----------
    Crouse 2016, "On implementing 2D rectangular assignment algorithms", IEEE Transactions on
    Aerospace and Electronic Systems 52: the assignment problem, through scipy. Each row has a
    further column of its own that costs `alone`.

    Examples
    --------
    >>> apart = np.array([[1.0, 30.0], [9.0, 40.0]])
    >>> best_pairs(apart, np.array([10.0, 10.0]), alone=10.0)
    {0: 0}
    """
    from scipy.optimize import linear_sum_assignment

    rows, columns = differences.shape
    costs = np.full((rows, columns + rows), _NEVER)
    costs[:, :columns] = np.where(differences <= reach, differences, _NEVER)
    costs[np.arange(rows), columns + np.arange(rows)] = alone + _HAIR
    pairs = zip(*linear_sum_assignment(costs), strict=True)
    return {int(row): int(column) for row, column in pairs if column < columns}


def nearest_pairs(differences: FloatArray, reach: FloatArray) -> dict[int, int]:
    """Give each row the nearest column that reaches it; a column may serve several rows.

    Examples
    --------
    >>> apart = np.array([[1.0, 3.0], [9.0, 8.0], [50.0, 40.0]])
    >>> nearest_pairs(apart, np.array([10.0, 5.0]))
    {0: 0, 1: 0}
    """
    allowed = np.where(differences <= reach, differences, np.inf)
    nearest = allowed.argmin(axis=1)
    return {
        row: int(column) for row, column in enumerate(nearest) if np.isfinite(allowed[row, column])
    }
