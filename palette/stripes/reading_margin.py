"""How far the widths that were read may be off: the margin of each, in picks.

Four things put a width off: its edges, known the worse the softer they are and the less the two
colours differ; threads, which are not all of one thickness; beat and yarn, which change slowly
along a cloth; and the slant at which the cloth is seen. Each has its variance, and they add up.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_counting import TRUST
from palette.stripes.reading_sequence import Sequence
from palette.stripes.reading_settle import Explanation, Seen
from palette.stripes.reading_smear import foretold

__all__ = ["chance_of_miss", "edge_errors", "width_errors"]

Array = NDArray[np.float64]

_THREAD = 0.09  # unevenness of single threads, in picks
_WANDER = 0.09  # picks by which the weft at an edge wanders from side to side, in the mean
_DRIFT, _DRIFT_PICKS = 0.015, 20.0  # slow change of beat and yarn, and how far it holds
_RATE = 0.008  # part by which picks that are counted are off
_PICKS, _PART = 1.0, 0.03  # what a width may be off
_STEP = 0.2  # rows


def edge_errors(seen: Seen, now: Explanation) -> Array:
    """Covariance of the edges between stripes, in rows, from how sharply each is seen.

    Parameters
    ----------
    seen : Seen
    now : Explanation

    Returns
    -------
    ndarray of shape (stripes - 1, stripes - 1)
        Inverse of Fisher's information of the picture about the edges.
    """
    inner, height = now.edges[1:-1], len(seen.lab)
    slopes = np.zeros((len(inner), height, 3))
    reach = seen.smear.reach + 2
    for number, edge in enumerate(inner):
        low, high = max(0, int(edge - reach)), min(height, int(edge + reach) + 1)
        rows: Array = np.arange(low, high, dtype=np.float64) + 0.5
        places = np.array([[edge - _STEP], [edge + _STEP]])
        shown = foretold(rows, places, now.colours[number : number + 2], seen.smear)
        change = (shown[1] - shown[0]) / (2 * _STEP)
        slopes[number, low:high] = change / np.sqrt(seen.variance[low:high])
    flat = slopes.reshape(len(inner), -1)
    told = flat @ flat.T / max(seen.smear.window, 1.0)
    return np.asarray(np.linalg.inv(told + 1e-3 * np.eye(len(inner))))


def width_errors(found: Sequence, picks: Array, slope_error: float) -> Array:
    """Reckon the standard error of the width of each stripe of the cloth, in picks.

    Parameters
    ----------
    found : Sequence
    picks : ndarray of shape (stripes,)
        Widths that were read.
    slope_error : float
        Standard error of the logarithm of the size of a pick at the last row as a part of that
        at the first.
    """
    pick = float(found.edges[-1] - found.edges[0]) / float(picks.sum())
    rows = edge_errors(found.seen, found.explanation) / pick**2
    padded = np.pad(rows, 1)  # the outermost edges are those of the picture
    first, count = found.first_stripe, len(picks)
    own = padded[first : first + count + 1, first : first + count + 1]
    spread = np.diag(own)
    edges = spread[:-1] + spread[1:] - 2 * np.diag(own, 1)
    middles = (np.cumsum(picks) - picks / 2) / picks.sum() - 0.5
    slanted = (slope_error * middles * picks) ** 2
    threads = _THREAD**2 * picks
    drifted = _DRIFT**2 * picks**2 * _DRIFT_PICKS / (_DRIFT_PICKS + picks)
    left = TRUST / (TRUST + picks) if found.rows_per_pick > 0 else 1.0  # by counting the threads
    beaten = left * (threads + drifted + slanted) + (_RATE * picks) ** 2
    return np.asarray(np.sqrt(np.maximum(edges, 0) + beaten + 2 * _WANDER**2))


def chance_of_miss(picks: Array, errors: Array) -> Array:
    """Chance that a width is off by more than one pick and more than 3 in a hundred.

    Examples
    --------
    >>> chance_of_miss(np.array([10.0, 10.0, 100.0]), np.array([0.25, 1.0, 1.0])).round(3).tolist()
    [0.0, 0.317, 0.003]
    """
    from scipy import special

    allowed = np.maximum(_PICKS, _PART * picks)
    return np.asarray(2 * special.ndtr(-allowed / errors))
