"""Places that stand for the bulk of a picture's colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import gather

__all__ = ["HEAVY", "heavy_places"]

HEAVY = 0.03
"""A colour with this much of the picture round about it is a mass, no accent."""

_BALL, _COVER = 5.0, 6.0

Points = NDArray[np.float64]


def heavy_places(points: Points, weights: Points) -> Points:
    """Places that stand for the bulk of a picture's colours.

    Every colour with at least 3 % of the picture close about it is within 6 of one of them.
    They follow from the picture alone and not from a grouping of it, so that what counts as an
    accent does not change when the groups do.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
    weights : ndarray of shape (n,)
        They sum to 1.

    Returns
    -------
    ndarray of shape (m, 3)

    Examples
    --------
    >>> heavy_places(np.array([[0.0, 0, 0], [50, 0, 0]]), np.array([0.99, 0.01])).tolist()
    [[0.0, 0.0, 0.0]]
    """
    boxes, mass = gather(points, weights, 4.5)
    small = (boxes - boxes.mean(axis=0)).astype(np.float32)
    size, one = (small**2).sum(axis=1), np.ones(len(small), dtype=np.float32)
    square = np.column_stack([small, size, one]) @ np.column_stack([-2 * small, one, size]).T
    about = (square < _BALL**2).astype(np.float32) @ mass.astype(np.float32)
    places: list[int] = []
    open_ = about >= HEAVY
    while open_.any():
        heaviest = int(np.where(open_, about, 0).argmax())
        places.append(heaviest)
        open_ &= square[heaviest] > _COVER**2
    return boxes[places]
