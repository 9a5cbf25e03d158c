"""Stearns and Noechel's mixing law, on reflectances and on CIELAB colours.

The law was found on blends of dyed wool: a function of the reflectance adds by mass,

    f(R) = (1 - R) / (M (R - 0.01) + 0.01),

and one constant M says how the mix lies between a plain average of light (M = 0) and the
much darker mix of an intimate blend (M = 0.15 for wool fibre). Threads that lie side by side
are in between: light crosses from one to the next before it comes out.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.perception.spaces import lab_to_xyz, xyz_to_lab
from palette.photo.primaries import BT_2020, rgb_to_xyz_matrix

__all__ = [
    "BLEND_CONSTANT",
    "WOVEN_CONSTANT",
    "channels_to_lab",
    "lab_to_channels",
    "mix_channels",
    "mix_lab",
    "mixing_function",
    "reflectance",
]

BLEND_CONSTANT = 0.15
"""M of carded wool in the original paper."""

WOVEN_CONSTANT = 0.045
"""M of threads side by side, by cross-validation on measured handwoven cloth."""

_XYZ_FROM_CHANNELS = rgb_to_xyz_matrix(BT_2020)
_CHANNELS_FROM_XYZ = np.linalg.inv(_XYZ_FROM_CHANNELS)


def mixing_function(
    reflectance: ArrayLike, *, constant: float = BLEND_CONSTANT
) -> NDArray[np.float64]:
    """Quantity that adds up in a mix: f(R), from 0 at white.

    Parameters
    ----------
    reflectance : array_like
        R, as a share of a perfect white, of any shape.
    constant : float
        M of the law.

    Returns
    -------
    ndarray, the same shape

    References
    ----------
    E. I. Stearns and F. Noechel, "Spectrophotometric prediction of color of wool blends",
    American Dyestuff Reporter 33 (1944), 177.

    Examples
    --------
    >>> mixing_function([0.80, 0.05]).round(6)
    array([ 1.55642, 59.375 ])
    """
    r = np.asarray(reflectance, dtype=np.float64)
    return np.asarray((1 - r) / (constant * (r - 0.01) + 0.01), dtype=np.float64)


def reflectance(mixed: ArrayLike, *, constant: float = BLEND_CONSTANT) -> NDArray[np.float64]:
    """Reflectance whose `mixing_function` is `mixed`: the law the other way round.

    Examples
    --------
    >>> bright, dark = mixing_function([0.80, 0.05])
    >>> round(float(reflectance(0.5 * bright + 0.5 * dark)), 6)
    0.133045
    """
    f = np.asarray(mixed, dtype=np.float64)
    return np.asarray((1 + 0.01 * f * (constant - 1)) / (1 + f * constant), dtype=np.float64)


def lab_to_channels(lab: ArrayLike) -> NDArray[np.float64]:
    """Three reflectances that stand for a colour: BT.2020 linear light.

    Examples
    --------
    >>> lab_to_channels([100.0, 0.0, 0.0]).round(3).tolist()
    [1.0, 1.0, 1.0]
    """
    return np.asarray(lab_to_xyz(lab) @ _CHANNELS_FROM_XYZ.T, dtype=np.float64)


def channels_to_lab(channels: ArrayLike) -> NDArray[np.float64]:
    """CIELAB D65 of three reflectances: `lab_to_channels` undone."""
    return xyz_to_lab(np.asarray(channels, dtype=np.float64) @ _XYZ_FROM_CHANNELS.T)


def mix_channels(
    first: NDArray[np.float64],
    second: NDArray[np.float64],
    first_share: NDArray[np.float64],
    *,
    constant: float = WOVEN_CONSTANT,
) -> NDArray[np.float64]:
    """Reflectances of two yarns side by side, from theirs; shares of shape (...), one per row.

    A colour that no yarn can have has channels outside 0 to 1, and below 0 the law has a pole: what
    is outside counts as the nearer end.
    """
    first, second = np.clip(first, 0, 1), np.clip(second, 0, 1)
    share = first_share[..., np.newaxis]
    mixed = share * mixing_function(first, constant=constant) + (1 - share) * mixing_function(
        second, constant=constant
    )
    return reflectance(mixed, constant=constant)


def mix_lab(
    first_lab: ArrayLike,
    second_lab: ArrayLike,
    first_share: ArrayLike = 0.5,
    *,
    constant: float = WOVEN_CONSTANT,
) -> NDArray[np.float64]:
    """Colour of two yarns side by side by the law alone.

    The law needs reflectances; here they are the three channels of BT.2020 linear light, whose
    narrow primaries hold every dyed yarn.

    Parameters
    ----------
    first_lab, second_lab : array_like of shape (..., 3)
        CIELAB D65.
    first_share : array_like of shape (...)
        Part of the face that the first takes, 0 to 1.
    constant : float
        M of the law; 0 is the plain average of light.

    Returns
    -------
    ndarray of shape (..., 3)
        CIELAB D65.

    Examples
    --------
    >>> mix_lab([90.0, 0.0, 0.0], [20.0, 0.0, 0.0]).round(1).tolist()
    [49.0, 0.0, 0.0]
    """
    share = np.asarray(first_share, dtype=np.float64)
    first, second = lab_to_channels(first_lab), lab_to_channels(second_lab)
    return channels_to_lab(mix_channels(first, second, share, constant=constant))
