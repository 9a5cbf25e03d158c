"""The picture of a cloth as light: linear, upright or turned, and not larger than it has to be."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from palette.perception.device import codes_to_xyz
from palette.perception.spaces import srgb_to_linear
from palette.photo.photo import Photo

__all__ = ["DARKEST", "Light", "averaged", "light_of", "logarithm"]

Light = NDArray[np.float32]

_LONG_SIDE_PX = 2400
DARKEST = 0.004
"""Light added before a logarithm is taken, so that noise in black stays small."""

# IEC 61966-2-1: XYZ (D65) to linear sRGB, as read from the standard's matrix
_TO_RGB = np.linalg.inv(
    np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
)


def light_of(photo: Photo) -> Light:
    """Linear sRGB light of the part of a photograph that counts.

    Parameters
    ----------
    photo : Photo
        Where pixels are left out, the box round those that count is used.

    Returns
    -------
    ndarray of shape (height, width, 3), float32
        At most about 2400 pixels on the long side: means of whole blocks of pixels, taken in
        light, so that fine threads keep their mean colour.

    Examples
    --------
    >>> grey = Photo(name="grey", pixels=np.full((4, 6, 3), 188, dtype=np.uint8))
    >>> light_of(grey)[0, 0].astype(float).round(3).tolist()
    [0.503, 0.503, 0.503]
    """
    pixels = photo.pixels
    if photo.kept is not None:
        rows = np.flatnonzero(photo.kept.any(axis=1))
        columns = np.flatnonzero(photo.kept.any(axis=0))
        pixels = pixels[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    factor = max(1, math.ceil(max(pixels.shape[:2]) / _LONG_SIDE_PX))
    if photo.profile.kind == "srgb" and pixels.dtype == np.uint8:
        table = srgb_to_linear(np.arange(256) / 255).astype(np.float32)
        return averaged(pixels, factor, table)
    codes = averaged(pixels, factor, None) / np.float32(photo.top_code)
    flat = codes.reshape(-1, codes.shape[2])
    light = codes_to_xyz(photo.profile, flat) @ _TO_RGB.T
    return np.maximum(light, 0).reshape(*codes.shape[:2], 3).astype(np.float32)


def averaged(pixels: NDArray[np.generic], factor: int, table: Light | None) -> Light:
    """Mean of every block of `factor` by `factor` pixels, through a table of light if given."""
    rows, columns = pixels.shape[0] // factor, pixels.shape[1] // factor
    total: Light = np.zeros((rows, columns, pixels.shape[2]), dtype=np.float32)
    for down in range(factor):
        for across in range(factor):
            part = pixels[down : rows * factor : factor, across : columns * factor : factor]
            total += table[part] if table is not None else part.astype(np.float32)
    return (total / (factor * factor)).astype(np.float32)


def logarithm(light: Light) -> Light:
    """Natural logarithm of light: a change of the lamp becomes a sum, the same in every channel."""
    shown = np.maximum(light, 0) + np.float32(DARKEST)
    return np.log(shown).astype(np.float32)
