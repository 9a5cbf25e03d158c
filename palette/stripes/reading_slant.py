"""Foreshortening along the warp: further picks of a cloth seen at a slant look closer together."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_threads import Threads

__all__ = ["foreshortening", "slant_error", "unslanted"]

Array = NDArray[np.float64]

_USUAL = 0.05  # standard deviation of the slope in photographs from about above
_BEATEN = 0.25  # unevenness of beat and yarn, as that of one pick
_SPREAD = 0.01  # standard error where selvedges or ends tell the slope


def foreshortening(threads: Threads, growth: float | None, height: int) -> float:
    """Change of the size of a pick from one end of a profile to the other, as a logarithm.

    Where both selvedges or single ends can be followed, they tell it: lengths across shrink with
    the distance, lengths along with its square (a plane under a pinhole camera). Otherwise the
    spacing of the picks does, drawn towards 0 as far as uneven beating makes it uncertain.

    Parameters
    ----------
    threads : Threads
    growth : float or None
        Logarithm of the width at the last row as a part of that at the first.
    height : int
        Rows of the profile.

    Examples
    --------
    >>> plain = Threads(period=5.0, strength=2.0, slope=0.1, slope_doubt=0.02)
    >>> foreshortening(plain, 0.05, 1000)
    0.1
    >>> 0 < foreshortening(plain, None, 1000) < 0.1
    True
    """
    if growth is not None:
        return 2 * growth
    if threads.counted <= 0 or not np.isfinite(threads.slope_doubt):
        return 0.0
    doubt = _doubt(threads, height)
    return float(threads.slope * _USUAL**2 / (_USUAL**2 + doubt))


def slant_error(threads: Threads, growth: float | None, height: int) -> float:
    """Reckon the standard error of the `foreshortening`.

    Examples
    --------
    >>> plain = Threads(period=5.0, strength=2.0, slope=0.1, slope_doubt=0.02)
    >>> slant_error(plain, 0.05, 1000) < slant_error(plain, None, 1000) < 0.05
    True
    """
    if growth is not None:
        return _SPREAD
    if threads.counted <= 0 or not np.isfinite(threads.slope_doubt):
        return _USUAL
    doubt = _doubt(threads, height)
    return float(np.sqrt(doubt * _USUAL**2 / (_USUAL**2 + doubt)))


def _doubt(threads: Threads, height: int) -> float:
    """Variance of the slope of the spacing of picks that are not evenly beaten."""
    return threads.slope_doubt**2 + 12 * _BEATEN**2 * threads.period / height


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
