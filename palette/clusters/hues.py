"""Other hues: how far a colour is from all that light and shade can make of given colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["hue_distance"]

_PURER = 1.5  # how much purer than its typical place one colour may be

Points = NDArray[np.float64]


def hue_distance(points: Points, others: Points) -> Points:
    """Distance from each colour to the hues of others, at whatever lightness and purity.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In the even space.
    others : ndarray of shape (m, 3)

    Returns
    -------
    ndarray of shape (n,)
        Infinite where there are no others.

    Notes
    -----
    A matt surface in sun and shade, with sheen or veiled by haze, shows colours of one hue, from
    grey to somewhat purer than it mostly looks (dichromatic reflection, Shafer 1985, Color
    Research and Application 10, 210-218). In the plane of hue and purity they lie on a line
    from grey, and the distance to that line is what no light explains. So the bright and the
    dark end of a leaf are at 0, and a petal is not. Greys are at 0 from everything.

    Examples
    --------
    >>> leaf = np.array([[40.0, -10, 20]])
    >>> hue_distance(np.array([[70.0, -5, 10], [40.0, 20, 10]]), leaf).round(6).tolist()
    [0.0, 22.36068]
    """
    least = np.full(len(points), np.inf)
    across, along = points[:, 1], points[:, 2]
    for _, a, b in others:
        tip_a, tip_b = _PURER * a, _PURER * b
        size = tip_a * tip_a + tip_b * tip_b
        part = np.clip((across * tip_a + along * tip_b) / max(size, 1e-9), 0, 1)
        np.minimum(least, (across - part * tip_a) ** 2 + (along - part * tip_b) ** 2, out=least)
    return np.asarray(np.sqrt(least))
