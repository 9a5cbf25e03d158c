"""How many colours a picture has, and why."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import gather, nearest
from palette.clusters.splitting import split
from palette.clusters.threads import one_thread

__all__ = ["MOST", "how_many"]

MOST = 12
_LEAST_GAIN = 0.08
_APART = 7.0
_BOX = 2.0  # finer than this no grouping is told from another

Points = NDArray[np.float64]


def how_many(points: Points, weights: Points) -> tuple[int, str]:
    """How many groups tell something new, and the reason in a sentence.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where a distance of 1 is about one CIEDE2000.
    weights : ndarray of shape (n,)

    Returns
    -------
    count : int
        From 1 to 12.
    why : str

    Notes
    -----
    Groups are added as long as one more lessens the mean difference between the picture and
    its palette by at least 8 %, and stands at least 7 from all the others (two yarns nearer
    than that read as one across a room). The groups are those of k-means gone on with until it
    rests: what a number of colours can reach is asked here, not where swatches should stand.

    Examples
    --------
    >>> how_many(np.array([[0.0, 0, 0], [40, 0, 0]]), np.array([0.5, 0.5]))
    (2, 'the picture has no more colours than that')
    """
    points, weights = gather(points, weights, _BOX)
    centres = _resting(points, weights, 1)
    mean = float(weights @ nearest(points, centres)[1]) / float(weights.sum())
    for count in range(1, MOST):
        more = _resting(points, weights, count + 1)
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


def _resting(points: Points, weights: Points, count: int) -> Points:
    """Centres of scikit-learn's k-means, begun without chance; fewer for fewer points."""
    import sklearn.cluster

    begin = split(points, weights, count)
    with one_thread():  # scikit-learn's own threads as well, so that sums have one order
        way = sklearn.cluster.KMeans(len(begin), init=begin, n_init=1, random_state=0)
        way.fit(points, sample_weight=weights)
    return np.asarray(way.cluster_centers_)
