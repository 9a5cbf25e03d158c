"""Folding shadows into the lit colour: a leaf is one colour, in sun and in shade."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["folded", "lit_places"]

_LEVEL = 50.0
_LIGHTNESS_KEPT = 0.2
_DARKEST = 14.0  # below this lightness hue and chroma are mostly noise

Points = NDArray[np.float64]


def folded(labs: Points) -> Points:
    """CIELAB with the effect of shading taken out, as far as it can be told.

    Where less of the same light falls on a surface, its XYZ shrink by one factor, and L + 16,
    a and b by the cube root of that factor (CIE 15:2018, section 8.2.1, above the straight
    part of the curve). So a / (L + 16) and b / (L + 16) stay as they are. Here a and b are
    brought to what they would be at L = 50, and differences in L are kept to a fifth, so that
    white and black yarn still part.

    Parameters
    ----------
    labs : ndarray of shape (n, 3)

    Returns
    -------
    ndarray of shape (n, 3)

    Examples
    --------
    >>> sun, shade = folded(np.array([[68.0, -28.0, 42.0], [26.0, -14.0, 21.0]]))
    >>> sun.tolist(), shade.round(1).tolist()
    ([53.6, -22.0, 33.0], [45.2, -22.0, 33.0])
    """
    lightness = labs[:, 0]
    factor = (_LEVEL + 16) / (np.maximum(lightness, _DARKEST) + 16)
    level = _LEVEL + _LIGHTNESS_KEPT * (lightness - _LEVEL)
    return np.stack([level, labs[:, 1] * factor, labs[:, 2] * factor], axis=1)


def lit_places(labs: Points, weights: Points, owner: NDArray[np.intp], count: int) -> Points:
    """Colour of the lit part of each group: the mean of the lighter half of its pixels.

    Parameters
    ----------
    labs : ndarray of shape (n, 3)
    weights : ndarray of shape (n,)
    owner : ndarray of shape (n,), int
        Group of each colour.
    count : int

    Returns
    -------
    ndarray of shape (count, 3)
        Rows of NaN for groups without a pixel.

    Examples
    --------
    >>> labs = np.array([[60.0, -20, 30], [20, -8, 12]])
    >>> lit_places(labs, np.ones(2), np.zeros(2, dtype=int), 1).tolist()
    [[60.0, -20.0, 30.0]]
    """
    places = np.full((count, 3), np.nan)
    order = np.argsort(-labs[:, 0], kind="stable")
    for index in range(count):
        mine = order[owner[order] == index]
        if not len(mine):
            continue
        half = weights[mine].sum() / 2
        before = np.concatenate([[0.0], np.cumsum(weights[mine])[:-1]])
        part = np.clip(half - before, 0, weights[mine])
        places[index] = part @ labs[mine] / part.sum()
    return places
