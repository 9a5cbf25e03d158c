"""Colour difference as the eye ranks it: CIEDE2000, through colour-science."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["NEUTRAL_CHROMA", "chroma", "ciede2000", "hue_degrees", "is_neutral"]

NEUTRAL_CHROMA = 2.0
"""Below this CIELAB chroma a colour counts as grey and its hue says nothing.

About twice the smallest step the eye can see near grey; 8 bit rounding alone moves a grey by 0.6.
"""


def ciede2000(lab_a: ArrayLike, lab_b: ArrayLike, *, textiles: bool = False) -> NDArray[np.float64]:
    """CIEDE2000 colour difference of CIELAB colours.

    Parameters
    ----------
    lab_a, lab_b : array_like of shape (..., 3)
        CIELAB colours; the shapes broadcast against each other.
    textiles : bool
        True: parametric factor kL = 2, which halves lightness differences, as textile
        tolerances do. False (the default everywhere in this program): kL = kC = kH = 1.

    Returns
    -------
    ndarray of the broadcast shape without its last axis

    Notes
    -----
    The scale that colour-science keeps as a global switch is pinned here, so that no other
    program in the same process can change the answer.

    References
    ----------
    Sharma, Wu and Dalal (2005), "The CIEDE2000 color-difference formula", Color Research and
    Application 30, 21-30.

    Examples
    --------
    >>> round(float(ciede2000([50, 2.6772, -79.7751], [50, 0, -82.7485])), 4)
    2.0425
    >>> ciede2000([[50, 2.5, 0]], [[[73, 25, -18]], [[61, -5, 29]]]).round(4).tolist()
    [[27.1492], [22.8977]]
    """
    import colour
    from colour.difference import delta_E_CIE2000

    first, second = np.broadcast_arrays(
        np.asarray(lab_a, dtype=float), np.asarray(lab_b, dtype=float)
    )
    with colour.domain_range_scale("reference"):
        return np.asarray(delta_E_CIE2000(first, second, textiles=textiles), dtype=float)


def chroma(lab: ArrayLike) -> NDArray[np.float64]:
    """CIELAB chroma: the distance from grey.

    Examples
    --------
    >>> float(chroma([50.0, 3.0, 4.0]))
    5.0
    """
    values = np.asarray(lab, dtype=float)
    return np.asarray(np.hypot(values[..., 1], values[..., 2]))


def hue_degrees(lab: ArrayLike) -> NDArray[np.float64]:
    """CIELAB hue angle in [0, 360); meaningless for neutral colours.

    Examples
    --------
    >>> float(hue_degrees([50.0, 0.0, -10.0]))
    270.0
    """
    values = np.asarray(lab, dtype=float)
    return np.asarray(np.degrees(np.arctan2(values[..., 2], values[..., 1])) % 360)


def is_neutral(lab: ArrayLike) -> NDArray[np.bool_]:
    """Whether colours are too near grey for their hue to mean anything.

    Examples
    --------
    >>> bool(is_neutral([60.0, 0.5, -0.5]))
    True
    """
    return np.asarray(chroma(lab) < NEUTRAL_CHROMA)
