"""Colours of some mass that are near no swatch."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.closeness import CLEAN_SHARE, close_parts
from palette.clusters.grouping import gather, nearest
from palette.clusters.typical import typical

__all__ = ["missed", "missed_places"]

_FAR, _ROUND = 9.0, 7.0
_MASS = 0.025  # what has so much of the picture round about it gets a swatch unasked
_ONES = np.ones(3)

Points = NDArray[np.float64]


def missed(points: Points, weights: Points, everything: Points, least: float) -> Points | None:
    """Heaviest colour that is far from all swatches, if one has that much of the picture.

    Examples
    --------
    >>> points = np.array([[20.0, 0, 0], [60, 0, 0]])
    >>> missed(points, np.array([0.98, 0.02]), points[:1], 0.015).round(6).tolist()
    [60.0, 0.0, 0.0]
    """
    far = nearest(points, everything)[1] if len(everything) else np.full(len(points), np.inf)
    out = far > _FAR
    if weights[out].sum() < least:
        return None
    boxes, mass = gather(points[out], weights[out], 5.0)
    place = typical(points[out], weights[out], boxes[mass.argmax()])
    about = ((points - place) ** 2) @ _ONES < _ROUND**2
    if weights[about].sum() < least:
        return None
    return place if close_parts(points, weights, place[None])[0] >= CLEAN_SHARE else None


def missed_places(points: Points, weights: Points, centres: Points, most: int) -> Points:
    """Colours of some mass that are near none of the swatches, until there are `most` swatches.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
    weights : ndarray of shape (n,)
        They sum to 1 or less.
    centres : ndarray of shape (m, 3)
        The swatches that there are.
    most : int

    Returns
    -------
    ndarray of shape (k, 3)
        Each is 9 or more from all others, with 2.5 % of the picture round about it.

    Examples
    --------
    >>> points = np.array([[20.0, 0, 0], [60, 0, 0]])
    >>> missed_places(points, np.array([0.97, 0.03]), points[:1], 12).round(6).tolist()
    [[60.0, 0.0, 0.0]]
    """
    everything = centres
    while len(everything) < most:
        place = missed(points, weights, everything, _MASS)
        if place is None:
            break
        everything = np.concatenate([everything, place[None]])
    return everything[len(centres) :]
