"""How many colours a picture has, and why."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import group, nearest

__all__ = ["MOST", "how_many"]

MOST = 12
_LEAST_GAIN = 0.08
_APART = 7.0

Points = NDArray[np.float64]


def how_many(points: Points, weights: Points, *, seed: int = 0) -> tuple[int, str]:
    """How many groups tell something new, and the reason in a sentence.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where a distance of 1 is about one CIEDE2000.
    weights : ndarray of shape (n,)
    seed : int

    Returns
    -------
    count : int
        From 1 to 12.
    why : str

    Notes
    -----
    Groups are added as long as one more lessens the mean difference between the picture and
    its palette by at least 8 %, and stands at least 7 from all the others (two yarns nearer
    than that read as one across a room).

    Examples
    --------
    >>> how_many(np.array([[0.0, 0, 0], [40, 0, 0]]), np.array([0.5, 0.5]))
    (2, 'the picture has no more colours than that')
    """
    centres = group(points, weights, 1, seed=seed)
    mean = float(weights @ nearest(points, centres)[1]) / float(weights.sum())
    for count in range(1, MOST):
        more = group(points, weights, count + 1, seed=seed)
        if len(more) <= count or mean < 1e-6:
            return count, "the picture has no more colours than that"
        apart = np.sqrt(((more[:, None] - more[None]) ** 2).sum(axis=2))
        closest = float(apart[~np.eye(len(more), dtype=bool)].min())
        if closest < _APART:
            return count, f"one more would stand only {closest:.1f} from another (CIEDE2000)"
        less = float(weights @ nearest(points, more)[1]) / float(weights.sum())
        if less > mean * (1 - _LEAST_GAIN):
            return count, (
                f"one more would bring the mean difference from {mean:.1f} "
                f"only to {less:.1f} (CIEDE2000)"
            )
        mean = less
    return MOST, f"{MOST} is as many as are chosen unasked"
