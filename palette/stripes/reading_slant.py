"""Foreshortening along the warp, seen in the threads: further picks look closer together."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_segments import pick_period

__all__ = ["foreshortening", "unslanted"]

Array = NDArray[np.float64]

_WINDOWS = 6
_STRENGTH = 0.2
_LEAST_ROWS = 120


def foreshortening(rows: Array, period: float) -> float:
    """Change of the size of a pick from one end of a profile to the other, as a logarithm.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light along the warp.
    period : float
        Rows per pick over the whole; 0 where the thread cannot be seen.

    Returns
    -------
    float
        Positive where picks look larger at the end; 0 where nothing certain can be seen. A
        change no larger than its own uncertainty is drawn towards 0.
    """
    height = len(rows)
    window = max(_LEAST_ROWS, round(height * 0.3))
    if period <= 0 or height < 2 * _LEAST_ROWS or window < 8 * period:
        return 0.0
    starts = np.linspace(0, height - window, _WINDOWS).astype(int)
    places, logs = [], []
    for start in starts:
        own, strength = pick_period(rows[start : start + window])
        if strength > _STRENGTH and 0.75 < own / period < 1.33:
            places.append((start + window / 2) / height - 0.5)
            logs.append(np.log(own))
    if len(places) < 4:
        return 0.0
    x, y = np.array(places), np.array(logs)
    x, y = x - x.mean(), y - np.median(y)
    slopes = [(y[j] - y[i]) / (x[j] - x[i]) for i in range(len(x)) for j in range(i)]
    slope = float(np.median(slopes))  # Theil (1950), Sen (1968)
    rest = np.abs(y - slope * x)
    doubt = float(1.4826 * np.median(rest) / np.sqrt((x**2).sum())) + 0.012
    return slope * slope**2 / (slope**2 + doubt**2)


def unslanted(edges: Array, height: float, slope: float) -> Array:
    """Edges as they would lie if every pick were seen at one size; the ends stay.

    Examples
    --------
    >>> unslanted(np.array([0.0, 50.0, 100.0]), 100.0, 0.0).tolist()
    [0.0, 50.0, 100.0]
    """
    first, last = edges[0], edges[-1]
    if abs(slope) < 1e-6:
        return edges
    run = (1 - np.exp(-slope * edges / height)) / slope
    return np.asarray(first + (run - run[0]) / (run[-1] - run[0]) * (last - first))
