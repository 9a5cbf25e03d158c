"""Which part of a photograph counts: a region, a mask."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from palette.errors import InputError
from palette.photo.photo import Photo
from palette.photo.reading import read_photo

__all__ = ["neutral_codes", "parse_point", "parse_region", "within_mask", "within_region"]

_HALF_WHITE = 0.5
_NEUTRAL_WINDOW = 0.01  # of the longer side
_DARKEST_NEUTRAL = 0.05
_CLIPPED = 0.995


def _per_cents(text: str, option: str, count: int, example: str) -> tuple[float, ...]:
    parts = [part.strip().removesuffix("%").strip() for part in text.split(",")]
    try:
        values = tuple(float(part) / 100 for part in parts)
    except ValueError:
        values = ()
    if len(values) != count or not all(0 <= value <= 1 for value in values):
        raise InputError(
            option,
            f"must be {count} per cents of the picture, each from 0 to 100",
            got=repr(text),
            remedy=f"Write it like {example}.",
        )
    return values


def parse_region(text: str) -> tuple[float, float, float, float]:
    """Read ``left,top,right,bottom`` in per cent of the picture.

    Gives shares in [0, 1]; raises InputError where they are outside the picture.

    Examples
    --------
    >>> parse_region("10,20,60,80")
    (0.1, 0.2, 0.6, 0.8)
    """
    left, top, right, bottom = _per_cents(text, "--region", 4, "10,20,60,80")
    return left, top, right, bottom


def parse_point(text: str, *, option: str = "--neutral") -> tuple[float, float]:
    """Read ``across,down`` in per cent of the picture, from its upper left corner.

    Examples
    --------
    >>> parse_point("50, 25")
    (0.5, 0.25)
    """
    across, down = _per_cents(text, option, 2, "50,25")
    return across, down


def within_region(photo: Photo, region: tuple[float, float, float, float]) -> Photo:
    """Keep the part of a photograph inside a rectangle.

    Parameters
    ----------
    photo : Photo
    region : (left, top, right, bottom)
        Shares of the width and the height, in [0, 1].

    Returns
    -------
    Photo
        Cut to the region; places are counted from its corner.

    Raises
    ------
    InputError
        Where the region lies outside the picture, holds no pixel, or only transparent ones.

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.zeros((10, 20, 3), dtype=np.uint8))
    >>> within_region(leaf, (0.5, 0.0, 1.0, 0.5)).pixels.shape
    (5, 10, 3)
    """
    left, top, right, bottom = region
    text = ",".join(f"{value * 100:g}" for value in region)
    if not (0 <= left < right <= 1 and 0 <= top < bottom <= 1):
        raise InputError(
            "--region",
            "must lie inside the picture, left before right and top before bottom",
            got=text,
            remedy="Write it like 10,20,60,80.",
        )
    columns = slice(round(left * photo.width_px), round(right * photo.width_px))
    rows = slice(round(top * photo.height_px), round(bottom * photo.height_px))
    pixels = photo.pixels[rows, columns]
    if not pixels.size:
        raise InputError("--region", "must hold at least one pixel", got=text)
    kept = None if photo.kept is None else np.ascontiguousarray(photo.kept[rows, columns])
    if kept is not None and not kept.any():
        raise InputError("--region", "must hold a colour", got=f"{text}, where nothing counts")
    return replace(
        photo,
        pixels=np.ascontiguousarray(pixels),
        kept=kept,
        uncut=photo.pixels if photo.uncut is None else photo.uncut,
        settings=(*photo.settings, ("region", f"{text} per cent")),
    )


def within_mask(photo: Photo, mask: str | Path) -> Photo:
    """Keep the pixels of a photograph that are white in a mask of the same size.

    Parameters
    ----------
    photo : Photo
    mask : str or Path
        A picture: light (over half) counts, dark or transparent does not.

    Returns
    -------
    Photo

    Raises
    ------
    PhotoError
        Where the mask cannot be read.
    InputError
        Where it has another size, or leaves nothing.
    """
    cover = read_photo(mask)
    if cover.pixels.shape[:2] != photo.pixels.shape[:2]:
        raise InputError(
            "--mask",
            f"must be as large as the picture, {photo.width_px} x {photo.height_px}",
            got=f"{cover.width_px} x {cover.height_px} ({cover.name})",
        )
    light = cover.pixels.mean(axis=2, dtype=np.float32) / cover.top_code >= _HALF_WHITE
    if cover.profile.channels == 4:
        light = ~light
    if cover.kept is not None:
        light &= cover.kept
    if photo.kept is not None:
        light &= photo.kept
    if not light.any():
        raise InputError(
            "--mask",
            "must leave something",
            got=f"a mask ({cover.name}) that covers all of it",
            remedy="White counts, black does not.",
        )
    return replace(photo, kept=light, settings=(*photo.settings, ("mask", cover.name)))


def neutral_codes(photo: Photo, point: tuple[float, float]) -> NDArray[np.float64]:
    """Codes around one place of a photograph that is known to be grey or white.

    Parameters
    ----------
    photo : Photo
    point : (across, down)
        Shares of the width and the height of the whole picture, also where the photograph is
        only a region of it.

    Returns
    -------
    ndarray of shape (n, channels), float in [0, 1]

    Raises
    ------
    InputError
        Where the place is black or blown out, so that it says nothing about the light.
    """
    across, down = point
    text = f"{across * 100:g},{down * 100:g}"
    if not (0 <= across <= 1 and 0 <= down <= 1):
        raise InputError("--neutral", "must lie inside the picture", got=text)
    whole = photo.pixels if photo.uncut is None else photo.uncut
    height, width = whole.shape[:2]
    half = max(1, math.ceil(_NEUTRAL_WINDOW / 2 * max(width, height)))
    column = min(int(across * width), width - 1)
    row = min(int(down * height), height - 1)
    rows = slice(max(0, row - half), row + half + 1)
    columns = slice(max(0, column - half), column + half + 1)
    codes = whole[rows, columns].reshape(-1, photo.profile.channels) / photo.top_code
    if photo.profile.channels == 1:
        raise InputError("--neutral", "must be used on a colour picture", got="a grey one")
    level = codes.mean(axis=0)
    if photo.profile.channels == 3 and not level.min() > _DARKEST_NEUTRAL:
        raise InputError(
            "--neutral",
            "must be a grey or white place with light on it",
            got=f"{text}, which is black",
            remedy="Point at a grey card or a white wall.",
        )
    if photo.profile.channels == 3 and level.max() > _CLIPPED:
        raise InputError(
            "--neutral",
            "must be a place that is not blown out",
            got=f"{text}, which is as bright as the camera can say",
            remedy="Point at something a little darker.",
        )
    return np.asarray(codes)
