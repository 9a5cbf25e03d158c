"""How much of a picture lies close to a colour."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.perception.even import local_scale

__all__ = ["CLEAN_SHARE", "CLOSE", "close_parts"]

CLEAN_SHARE = 0.0052
"""Least part of the picture that must lie close to a swatch (0.5 %, and a little to spare)."""

CLOSE = 4.0
"""What is close: CIEDE2000."""

_SURELY = 2.8  # in the even space: within CIEDE2000 4 wherever that is

_ONES = np.ones(3)

Points = NDArray[np.float64]


def close_parts(
    points: Points, weights: Points, places: Points, scales: Points | None = None
) -> Points:
    """Part of the picture that lies within CIEDE2000 4 of each place, or surely enough of it.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In the even space.
    weights : ndarray of shape (n,)
    places : ndarray of shape (m, 3)
    scales : ndarray of shape (m, 3), optional
        CIEDE2000 per unit about each place; None: found only where it could decide whether
        the part is at least `CLEAN_SHARE`.

    Returns
    -------
    ndarray of shape (m,)

    Examples
    --------
    >>> points = np.array([[20.0, 0, 0], [60, 0, 0]])
    >>> close_parts(points, np.array([0.97, 0.03]), points).tolist()
    [0.97, 0.03]
    """
    parts = np.empty(len(places))
    if scales is None:
        for row, place in enumerate(places):
            parts[row] = weights[((points - place) ** 2) @ _ONES < _SURELY**2].sum()
        unsure = np.flatnonzero(parts < CLEAN_SHARE)
        if len(unsure):
            scales = local_scale(places[unsure])
            parts[unsure] = close_parts(points, weights, places[unsure], scales)
        return parts
    for row, (place, scale) in enumerate(zip(places, scales, strict=True)):
        parts[row] = weights[((points * scale - place * scale) ** 2) @ _ONES < CLOSE**2].sum()
    return parts
