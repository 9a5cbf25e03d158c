"""Which of several colours is nearest, also where all of them are far away.

CIEDE2000 was made for small differences. Its rotation term, which mends small ones among blues,
makes some huge ones look small: a vivid magenta and a greenish grey are 15 apart by it, and 31 if
the grey is neutral. A search over many mixes finds exactly those. Here a difference is CIEDE2000
up to 5, and passes into the larger of CIEDE2000 and CIE94 from 5 to 10.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.perception.difference import ciede2000

__all__ = ["ranking_difference"]

FloatArray = NDArray[np.float64]

_SMALL, _LARGE = 5.0, 10.0


def ranking_difference(labs: ArrayLike, target_lab: ArrayLike) -> FloatArray:
    """Difference to rank colours by, from a colour that is wanted.

    Parameters
    ----------
    labs : array_like of shape (..., 3)
        CIELAB colours to rank.
    target_lab : array_like of shape (3,)

    Returns
    -------
    ndarray of shape (...)
        CIEDE2000 where that is at most 5; never less than CIEDE2000.

    References
    ----------
    CIE 116-1995 (CIE94), with the mean of both chromas as in CIEDE2000, so that it is symmetrical.

    Examples
    --------
    >>> magenta, greenish, neutral = [56.3, 88.1, -18.8], [50.4, -3.7, -1.3], [49.0, 0.0, 0.0]
    >>> ciede2000([greenish, neutral], magenta).round(1).tolist()
    [15.3, 30.6]
    >>> ranking_difference([greenish, neutral], magenta).round(0).tolist()
    [35.0, 31.0]
    """
    first, second = np.asarray(labs, dtype=float), np.asarray(target_lab, dtype=float)
    small = ciede2000(first, second)
    part = np.clip((small - _SMALL) / (_LARGE - _SMALL), 0, 1)
    rise = part**2 * (3 - 2 * part)
    return np.asarray(small + rise * np.maximum(0.0, _cie94(first, second) - small))


def _cie94(first: FloatArray, second: FloatArray) -> FloatArray:
    chroma_1 = np.hypot(first[..., 1], first[..., 2])
    chroma_2 = np.hypot(second[..., 1], second[..., 2])
    mean = (chroma_1 + chroma_2) / 2
    across = first[..., 1] * second[..., 1] + first[..., 2] * second[..., 2]
    hue_squared = np.maximum(0.0, 2 * (chroma_1 * chroma_2 - across))
    along = (chroma_1 - chroma_2) / (1 + 0.045 * mean)
    lightness = first[..., 0] - second[..., 0]
    return np.asarray(
        np.sqrt(lightness**2 + along**2 + hue_squared / (1 + 0.015 * mean) ** 2), dtype=float
    )
