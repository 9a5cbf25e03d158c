"""A photograph brought to a lattice of mean codes, coarse enough to count.

Up to 420,000 pixels every one has a point of its own. Of a larger picture each point stands for
a square cell and is the mean of five of its pixels, one in each fifth of its rows and of its
columns: sensor noise is halved, no stripe or weave of the same pitch can hide, and nothing wider
than a six-hundredth of the picture is lost.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from palette.photo.photo import Photo

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Lattice", "lattice_of"]

MOST_POINTS = 420_000
"""Points of the lattice; a picture with fewer pixels has one for each pixel."""

_SAMPLES = 5  # pixels of each cell, one in each fifth of its rows and of its columns
_SPREAD = (1, 3, 0, 2, 4)
_LEAST_PART = 0.5  # of a cell's pixels must count for the cell to count
_BAND_POINTS = 1 << 16

Plane = NDArray[np.float32]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lattice:
    """Mean codes of a photograph.

    Attributes
    ----------
    planes : ndarray of shape (channels, rows, columns), float32
        Codes from 0 to the photograph's top code.
    kept : ndarray of shape (rows, columns), bool, or None
        Which points count; None: all.
    cell : int
        Side in pixels of the square that one point stands for.
    """

    planes: Plane
    kept: NDArray[np.bool_] | None
    cell: int


def lattice_of(photo: Photo) -> Lattice:
    """Bring a photograph to its lattice.

    Parameters
    ----------
    photo : Photo

    Returns
    -------
    Lattice

    Examples
    --------
    >>> leaf = Photo(name="leaf", pixels=np.full((2, 3, 3), [93, 115, 58], dtype=np.uint8))
    >>> lattice_of(leaf).planes[:, 0, 0].tolist()
    [93.0, 115.0, 58.0]
    """
    cell = math.ceil(math.sqrt(photo.width_px * photo.height_px / MOST_POINTS))
    cell = max(1, min(cell, photo.width_px, photo.height_px))
    planes, part = _cells(photo, cell)
    kept = None if part is None else part >= _LEAST_PART
    return Lattice(planes=planes, kept=kept, cell=cell)


def _samples(cell: int) -> Iterator[tuple[int, int]]:
    """Places (down, across) of the pixels that are taken of each cell."""
    if cell * cell <= _SAMPLES:
        yield from (divmod(place, cell) for place in range(cell * cell))
        return
    for row, column in enumerate(_SPREAD):
        yield tuple(int((2 * part + 1) * cell / (2 * _SAMPLES)) for part in (row, column))  # type: ignore[misc]


def _cells(photo: Photo, cell: int) -> tuple[Plane, NDArray[Any] | None]:
    """Mean code of every cell, and what part of it counts where not all of the picture does."""
    pixels = photo.pixels
    rows, columns = pixels.shape[0] // cell, pixels.shape[1] // cell
    planes = np.zeros((pixels.shape[2], rows, columns), dtype=np.float32)
    places = tuple(_samples(cell))
    words = _words(pixels)
    if words is not None and photo.kept is None:
        _add_words(planes, words, pixels, cell, places)
        return planes, None
    count = np.zeros((rows, columns), dtype=np.float32)
    for down, across in places:
        taken = (slice(down, rows * cell, cell), slice(across, columns * cell, cell))
        counts = 1 if photo.kept is None else photo.kept[taken]
        count += counts
        for plane, channel in zip(planes, range(pixels.shape[2]), strict=True):
            plane += pixels[taken][..., channel] * counts
    planes /= np.maximum(count, 1)
    return planes, None if photo.kept is None else count / len(places)


def _add_words(
    planes: Plane,
    words: NDArray[np.uint32],
    pixels: NDArray[np.uint8],
    cell: int,
    places: tuple[tuple[int, int], ...],
) -> None:
    """Means of 8 bit RGB, band by band: red and blue are added in the two halves of one word."""
    rows, columns = planes.shape[1:]
    step = max(1, _BAND_POINTS // columns)
    scale = np.float32(1 / len(places))
    for top in range(0, rows, step):
        end = min(top + step, rows)
        outer = np.zeros((end - top, columns), dtype=np.uint32)
        green = np.zeros_like(outer)
        for down, across in places:
            lines = slice(top * cell + down, end * cell, cell)
            taken = words[lines, across : columns * cell : cell].astype(np.uint32)
            outer[: len(taken)] += taken & np.uint32(0xFF00FF)
            taken >>= np.uint32(8)
            taken &= np.uint32(0xFF)
            green[: len(taken)] += taken
            if len(taken) < end - top:  # the last row of all has no words
                last = pixels[-1, across : columns * cell : cell].astype(np.uint32)
                outer[-1] += last[:, 0] | (last[:, 2] << np.uint32(16))
                green[-1] += last[:, 1]
        planes[0, top:end] = outer & np.uint32(0xFFFF)
        planes[1, top:end] = green
        planes[2, top:end] = outer >> np.uint32(16)
    planes *= scale


def _words(pixels: NDArray[Any]) -> NDArray[np.uint32] | None:
    """8 bit RGB pixels, but for the last row, seen as overlapping 32 bit words; red is lowest.

    Reading a pixel as one word is three times as fast as reading its channels one by one. The
    last row stays out because the word of its last pixel would reach past the end.
    """
    height, width, channels = pixels.shape
    if channels != 3 or pixels.dtype != np.uint8 or not pixels.flags.c_contiguous or height < 2:
        return None
    return np.ndarray((height - 1, width), np.dtype("<u4"), pixels, strides=(3 * width, 3))
