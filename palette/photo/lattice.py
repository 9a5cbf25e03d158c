"""A photograph brought to a lattice of points, few enough to count.

Up to 420,000 pixels every one is a point. Of a larger picture one pixel is taken from each square
cell: a mean over the cell would mix leaf and shadow along every edge into a green that is nowhere
in the picture. Which pixel of the cell is taken moves from row to row over rows and columns of
the cell, so that no stripe or weave of the same pitch can hide; 400,000 points give a share to
0.1 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from palette.photo.photo import Photo

__all__ = ["MOST_POINTS", "Lattice", "lattice_of"]

MOST_POINTS = 420_000
"""Points of the lattice; a picture with fewer pixels has one for each pixel."""

_SPREAD = (1, 3, 0, 2, 4)  # five places, one in each fifth of the rows and of the columns


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lattice:
    """Codes of a photograph at the points of its lattice.

    Attributes
    ----------
    codes : ndarray of shape (channels, rows, columns), unsigned
        From 0 to the photograph's top code.
    kept : ndarray of shape (rows, columns), bool, or None
        Which points count; None: all.
    cell : int
        Side in pixels of the square that one point stands for.
    """

    codes: NDArray[Any]
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
    >>> lattice_of(leaf).codes[:, 0, 0].tolist()
    [93, 115, 58]
    """
    cell = math.ceil(math.sqrt(photo.width_px * photo.height_px / MOST_POINTS))
    cell = max(1, min(cell, photo.width_px, photo.height_px))
    words = _words(photo.pixels)
    if words is None:
        codes = np.moveaxis(_taken(photo.pixels, cell), 2, 0)
    else:
        taken = _taken(words, cell, photo.pixels)
        codes = np.stack(
            [(taken >> np.uint32(8 * channel)).astype(np.uint8) for channel in range(3)]
        )
    kept = None if photo.kept is None else _taken(photo.kept, cell)
    return Lattice(codes=codes, kept=kept, cell=cell)


def _places(cell: int) -> tuple[tuple[int, int], ...]:
    """Places (down, across) in a cell that the rows of cells take in turn."""
    if cell == 1:
        return ((0, 0),)
    fifths = [(2 * part + 1) * cell // 10 for part in range(5)]
    return tuple((fifths[down], fifths[across]) for down, across in enumerate(_SPREAD))


def _taken(array: NDArray[Any], cell: int, pixels: NDArray[Any] | None = None) -> NDArray[Any]:
    """One element from every cell; which one goes round with the row of cells.

    Words lack the last row of the picture: what falls there is taken from the pixels.
    """
    height, width = (array if pixels is None else pixels).shape[:2]
    rows, columns = height // cell, width // cell
    taken = np.empty((rows, columns, *array.shape[2:]), dtype=array.dtype)
    places = _places(cell)
    for turn, (down, across) in enumerate(places):
        lines = slice(turn * cell + down, rows * cell, cell * len(places))
        part = array[lines, across : columns * cell : cell]
        target = taken[turn :: len(places)]
        target[: len(part)] = part
        if len(part) < len(target) and pixels is not None:
            last = pixels[-1, across : columns * cell : cell].astype(np.uint32)
            target[-1] = last @ np.array([1, 1 << 8, 1 << 16], dtype=np.uint32)
    return taken


def _words(pixels: NDArray[Any]) -> NDArray[np.uint32] | None:
    """8 bit RGB pixels, but for the last row, seen as overlapping 32 bit words; red is lowest.

    Reading a pixel as one word is three times as fast as reading its channels one by one. The
    last row stays out because the word of its last pixel would reach past the end.
    """
    height, width, channels = pixels.shape
    if channels != 3 or pixels.dtype != np.uint8 or not pixels.flags.c_contiguous or height < 2:
        return None
    return np.ndarray((height - 1, width), np.dtype("<u4"), pixels, strides=(3 * width, 3))
