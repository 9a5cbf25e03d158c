"""The photograph made small, for a sheet or a card."""

from __future__ import annotations

import io

import numpy as np
from numpy.typing import NDArray

from palette.perception.device import codes_to_lab
from palette.perception.spaces import lab_to_srgb8
from palette.photo.photo import Photo

__all__ = ["thumbnail_jpeg", "thumbnail_pixels"]

_QUALITY = 88


def thumbnail_pixels(photo: Photo, *, longest_px: int = 900) -> NDArray[np.uint8]:
    """Make a photograph small, in sRGB.

    Parameters
    ----------
    photo : Photo
    longest_px : int
        Its longer side will have at most so many pixels.

    Returns
    -------
    ndarray of shape (height, width, 3), uint8
        sRGB; colours outside it are clipped. Each pixel is the mean of a whole block of
        device codes, which is near enough for a picture to recognise a place by.
    """
    block = max(1, -(-max(photo.width_px, photo.height_px) // longest_px))
    down, across = min(block, photo.height_px), min(block, photo.width_px)
    rows, columns = photo.height_px // down, photo.width_px // across
    pixels = photo.pixels[: rows * down, : columns * across]
    bands = pixels.reshape(rows, down, columns, across, -1)
    codes = bands.sum(axis=(1, 3), dtype=np.uint64) / (down * across)
    return lab_to_srgb8(codes_to_lab(photo.profile, codes / photo.top_code))


def thumbnail_jpeg(photo: Photo, *, longest_px: int = 900) -> bytes:
    """Make a photograph small, as an sRGB JPEG; see `thumbnail_pixels`."""
    from PIL import Image

    picture = io.BytesIO()
    Image.fromarray(thumbnail_pixels(photo, longest_px=longest_px)).save(
        picture, "JPEG", quality=_QUALITY, optimize=True
    )
    return picture.getvalue()
