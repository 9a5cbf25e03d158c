"""The photograph made small, for a sheet or a card."""

from __future__ import annotations

import io

import numpy as np
from numpy.typing import NDArray

from palette.perception.light import Light
from palette.perception.spaces import lab_to_srgb8
from palette.photo.photo import Photo
from palette.photo.profile import SRGB
from palette.swatches.taking import measured

__all__ = ["thumbnail_jpeg", "thumbnail_pixels"]

_QUALITY = 88
_TOP = 255


def thumbnail_pixels(
    photo: Photo, *, longest_px: int = 800, light: Light | None = None
) -> NDArray[np.uint8]:
    """Make a photograph small, in sRGB.

    Parameters
    ----------
    photo : Photo
    longest_px : int
        Its longer side will have at most so many pixels.
    light : Light, optional
        The light it was taken in; its cast is taken away.

    Returns
    -------
    ndarray of shape (height, width, 3), uint8
        sRGB; colours outside it are clipped. Each pixel is the mean of a whole block of
        device codes, which is near enough for a picture to recognise a place by.
    """
    from PIL import Image

    block = max(1, -(-max(photo.width_px, photo.height_px) // longest_px))
    codes = photo.pixels if photo.top_code == _TOP else (photo.pixels >> 8).astype(np.uint8)
    picture = Image.fromarray(codes[..., 0] if codes.shape[2] == 1 else codes)
    small = np.asarray(picture.reduce(block))
    small = small.reshape(*small.shape[:2], codes.shape[2])
    if light is None and photo.profile == SRGB:
        return small
    labs = measured(photo, small.reshape(-1, codes.shape[2]) / _TOP, light)
    return lab_to_srgb8(labs).reshape(*small.shape[:2], 3)


def thumbnail_jpeg(photo: Photo, *, longest_px: int = 800) -> bytes:
    """Make a photograph small, as an sRGB JPEG; see `thumbnail_pixels`."""
    from PIL import Image

    picture = io.BytesIO()
    Image.fromarray(thumbnail_pixels(photo, longest_px=longest_px)).save(
        picture, "JPEG", quality=_QUALITY
    )
    return picture.getvalue()
