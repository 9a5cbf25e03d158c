"""Which stripes of a cloth are the same yarn."""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

__all__ = ["same_yarns", "yarn_distance"]

Array = NDArray[np.float64]

_LEAST_APART, _MOST_APART = 2.2, 7.0
_USUAL = 4.0
_LIGHTNESS = 0.8  # a little of a lightness difference may be the lamp's


def yarn_distance(labs: Array) -> Array:
    """Distances between colours, all with all: CIELAB with lightness counted a little less."""
    scaled = labs * np.array([_LIGHTNESS, 1.0, 1.0])
    return np.asarray(np.linalg.norm(scaled[:, None] - scaled[None, :], axis=2))


def same_yarns(labs: Array, weights: Array, limit: float | None = None) -> tuple[list[int], float]:
    """Gather the colours of stripes into yarns.

    The two nearest groups are joined again and again (nearest by their mean colours), until
    the next join would be a leap; the limit is put into the widest gap between joins.

    Parameters
    ----------
    labs : ndarray of shape (stripes, 3)
        CIELAB of each stripe.
    weights : ndarray of shape (stripes,)
        Widths.
    limit : float, optional
        Distance above which colours are different yarns; found where None.

    Returns
    -------
    yarns : list of int
        Number of each stripe's yarn, in order of first appearance.
    limit : float
        The distance used.

    Examples
    --------
    >>> labs = np.array([[50.0, 0, 0], [80, 0, 0], [50.5, 0.3, 0]])
    >>> same_yarns(labs, np.ones(3))[0]
    [0, 1, 0]
    """
    groups = [[number] for number in range(len(labs))]
    means = [labs[number] for number in range(len(labs))]
    states = [[list(group) for group in groups]]
    heights: list[float] = []
    while len(groups) > 1:
        apart = yarn_distance(np.array(means))
        np.fill_diagonal(apart, np.inf)
        a, b = sorted(np.unravel_index(int(apart.argmin()), apart.shape))
        heights.append(float(apart[a, b]))
        groups[a] = groups[a] + groups[b]
        share = weights[groups[a]]
        means[a] = (labs[groups[a]] * share[:, None]).sum(axis=0) / share.sum()
        del groups[b], means[b]
        states.append([list(group) for group in groups])
    chosen = limit if limit is not None else _gap(heights)
    joins = next((k for k, height in enumerate(heights) if height > chosen), len(heights))
    owner = np.zeros(len(labs), dtype=int)
    for number, group in enumerate(states[joins]):
        owner[group] = number
    order = {yarn: rank for rank, yarn in enumerate(dict.fromkeys(owner.tolist()))}
    return [order[yarn] for yarn in owner.tolist()], chosen


def _gap(heights: list[float]) -> float:
    """Limit in the widest gap (as a ratio) between joins that could be either."""
    below = [height for height in heights if height < _LEAST_APART]
    marks = [max([*below, 0.8]), *sorted(h for h in heights if _LEAST_APART <= h <= _MOST_APART)]
    above = [height for height in heights if height > _MOST_APART]
    marks.append(min([*above, 2 * _MOST_APART]))
    ratios = [(after / before, before, after) for before, after in itertools.pairwise(marks)]
    ratio, before, after = max(ratios)
    limit = float(np.sqrt(before * after))
    return float(np.clip(limit, _LEAST_APART, _MOST_APART)) if ratio > 1.25 else _USUAL
