"""The light of a photograph from a grey place in it, and the picture before and after."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.perception.device import codes_to_xyz
from palette.perception.light import Light
from palette.perception.spaces import lab_to_srgb8
from palette.photo.photo import Photo
from palette.photo.selection import neutral_codes
from palette.swatches.taking import measured

__all__ = ["light_from_neutral", "picture"]


def light_from_neutral(photo: Photo, point: tuple[float, float]) -> Light:
    """Light of a photograph, from a place in it that is grey or white in truth.

    Parameters
    ----------
    photo : Photo
    point : (across, down)
        Shares of the width and the height; a small window round it is averaged in linear
        light.

    Returns
    -------
    Light

    Raises
    ------
    InputError
        Where the place is black, blown out or outside the picture.

    Examples
    --------
    >>> warm = Photo(name="card", pixels=np.full((9, 9, 3), [180, 150, 110], dtype=np.uint8))
    >>> light_from_neutral(warm, (0.5, 0.5)).name
    'grey at 50,50 per cent'
    """
    xyz = codes_to_xyz(photo.profile, neutral_codes(photo, point)).mean(axis=0)
    x, _, z = (float(value) for value in xyz / xyz[1])
    return Light(
        name=f"grey at {point[0] * 100:g},{point[1] * 100:g} per cent", white_xyz=(x, 1.0, z)
    )


def picture(photo: Photo, *, light: Light | None = None, side_px: int = 800) -> NDArray[np.uint8]:
    """Small sRGB picture of a photograph, as it is or with the cast of a light taken away.

    Parameters
    ----------
    photo : Photo
    light : Light, optional
    side_px : int
        Longest side at most.

    Returns
    -------
    ndarray of shape (rows, columns, 3), uint8
        Pixels that do not count are white.

    Examples
    --------
    >>> warm = Photo(name="card", pixels=np.full((9, 9, 3), [180, 150, 110], dtype=np.uint8))
    >>> picture(warm, light=light_from_neutral(warm, (0.5, 0.5)))[4, 4].tolist()
    [155, 155, 155]
    """
    step = max(1, -(-max(photo.width_px, photo.height_px) // side_px))
    codes = photo.pixels[::step, ::step]
    flat = codes.reshape(-1, codes.shape[2]) / photo.top_code
    small = lab_to_srgb8(measured(photo, flat, light)).reshape(*codes.shape[:2], 3)
    if photo.kept is not None:
        small[~photo.kept[::step, ::step]] = 255
    return small
