"""Counting the colours of a photograph in the codes of its device.

Codes are counted in small boxes (64 steps a channel for RGB, 32 for large sRGB pictures), so
only the few thousand boxes that hold something need converting to CIELAB, through the exact
profile. Up to 1.3 million pixels every one is counted. Above that one pixel is taken
from every 2 x 2 (3 x 3 ...) cell: a camera of that size records colour in cells of 2 x 2
anyway. Which pixel of the cell moves from row to row through all the places of the cell, so
that no stripe or weave of the same pitch can hide; a million pixels give a share to 0.05 %.
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

__all__ = ["Counted", "count_colours"]

_EVERY_PIXEL_UP_TO = 1_300_000
_EXACT_CODES_FROM = 1 << 16
_MAP_POINTS = 310_000
_BITS = {1: 8, 3: 6, 4: 4}
_FEWER_BITS_ABOVE, _FEWER_BITS = 1 << 22, 5
_BAND_PIXELS = 1 << 16


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Counted:
    """Colours of one photograph with their weights, and where they lie.

    Attributes
    ----------
    codes : ndarray of shape (n, channels), float in [0, 1]
        Mean device code of each box that holds something.
    weights : ndarray of shape (n,), float
        Part of the pixels that count in each box; they sum to 1.
    where : ndarray of shape (rows, columns), int32
        Box of each point of a coarse lattice over the upright picture; -1 where nothing counts.
    pixels : int
        How many pixels count in the whole photograph (estimated where cells are taken).
    """

    codes: NDArray[np.float64]
    weights: NDArray[np.float64]
    where: NDArray[np.int32]
    pixels: int


def count_colours(photo: Photo) -> Counted:
    """Count the colours of a photograph.

    Parameters
    ----------
    photo : Photo

    Returns
    -------
    Counted

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.full((2, 3, 3), [93, 115, 58], dtype=np.uint8))
    >>> counted = count_colours(leaf)
    >>> (counted.codes * 255).tolist(), counted.weights.tolist()
    ([[93.0, 115.0, 58.0]], [1.0])
    """
    channels = photo.profile.channels
    bits = _bits(photo)
    boxes = 1 << (bits * channels)
    cell = max(1, math.ceil(math.sqrt(photo.width_px * photo.height_px / _EVERY_PIXEL_UP_TO)))
    cell = min(cell, photo.width_px, photo.height_px)
    index = _index(photo.pixels, cell, bits)
    if photo.kept is not None:
        index[~_lattice(photo.kept, cell)] = boxes
    counts = np.bincount(index.ravel(), minlength=boxes + 1)[:boxes]
    filled = np.flatnonzero(counts)
    place = np.full(boxes + 1, -1, dtype=np.int32)
    place[filled] = np.arange(len(filled))
    step = max(1, math.ceil(math.sqrt(index.size / _MAP_POINTS)))
    total = int(counts.sum())
    return Counted(
        codes=_mean_codes(photo, index, filled, cell, bits),
        weights=counts[filled] / total,
        where=place[index[::step, ::step]],
        pixels=total * cell * cell,
    )


def _bits(photo: Photo) -> int:
    """Upper bits of each channel that tell the boxes apart.

    Large pictures in plain sRGB do with fewer: the mean code of a box is taken from its pixels
    anyway, and half the boxes take a third of the time.
    """
    if photo.profile.kind == "srgb" and photo.width_px * photo.height_px > _FEWER_BITS_ABOVE:
        return _FEWER_BITS
    return _BITS[photo.profile.channels]


def _turns(rows: int, cell: int) -> Iterator[tuple[slice, int, int]]:
    """Rows of cells that take the same place of their cell: (rows of cells, down, across)."""
    for turn in range(min(cell * cell, rows)):
        down, across = divmod(turn, cell)
        yield slice(turn, None, cell * cell), down, across


def _lattice(array: NDArray[Any], cell: int) -> NDArray[Any]:
    """One element from every cell; which one goes round with the row of cells."""
    rows, columns = array.shape[0] // cell, array.shape[1] // cell
    taken = np.empty((rows, columns), dtype=array.dtype)
    for target, down, across in _turns(rows, cell):
        first = target.start * cell + down
        taken[target] = array[first : rows * cell : cell**3, across : columns * cell : cell]
    return taken


def _index(pixels: NDArray[Any], cell: int, bits: int) -> NDArray[np.uint32]:
    """Box of every point of the lattice, shape (rows, columns)."""
    rows, columns = pixels.shape[0] // cell, pixels.shape[1] // cell
    index = np.empty((rows, columns), dtype=np.uint32)
    words = _words(pixels)
    for target, down, across in _turns(rows, cell):
        part = index[target]
        first = target.start * cell + down
        lines = np.arange(first, rows * cell, cell**3)
        step = max(1, _BAND_PIXELS // columns)
        for top in range(0, len(lines), step):
            chosen = slice(lines[top], lines[min(top + step, len(lines)) - 1] + 1, cell**3)
            place = (chosen, slice(across, columns * cell, cell))
            if words is not None and chosen.stop <= len(words):
                part[top : top + step] = _box_of_words(words[place], bits)
            else:
                part[top : top + step] = _box_of(pixels[place], bits)
    return index


def _words(pixels: NDArray[Any]) -> NDArray[np.uint32] | None:
    """8 bit RGB pixels, but for the last row, seen as overlapping 32 bit words; red is lowest.

    Reading a pixel as one word is three times as fast as reading its channels one by one. The
    last row stays out because the word of its last pixel would reach past the end.
    """
    height, width, channels = pixels.shape
    if channels != 3 or pixels.dtype != np.uint8 or not pixels.flags.c_contiguous or height < 2:
        return None
    return np.ndarray((height - 1, width), np.dtype("<u4"), pixels, strides=(3 * width, 3))


def _box_of_words(words: NDArray[np.uint32], bits: int) -> NDArray[np.uint32]:
    """Box of each RGB pixel: the upper bits of red, green and blue, side by side."""
    word: NDArray[np.uint32] = words.astype(np.uint32)
    word >>= 8 - bits
    mask = (1 << bits) - 1
    box: NDArray[np.uint32] = np.bitwise_and(word, np.uint32(mask))
    box <<= 2 * bits
    green: NDArray[np.uint32] = np.right_shift(word, 8 - bits)
    green &= mask << bits
    box |= green
    word >>= 16
    word &= mask
    box |= word
    return box


def _box_of(pixels: NDArray[Any], bits: int) -> NDArray[np.uint32]:
    """Box of each pixel of any kind: the upper bits of its channels, side by side."""
    drop = 8 * pixels.dtype.itemsize - bits
    box = (pixels[..., 0] >> drop).astype(np.uint32)
    for channel in range(1, pixels.shape[-1]):
        box <<= bits
        box |= (pixels[..., channel] >> drop).astype(np.uint32)
    return box


def _mean_codes(
    photo: Photo, index: NDArray[np.uint32], filled: NDArray[np.intp], cell: int, bits: int
) -> NDArray[np.float64]:
    """Mean code in [0, 1] of each filled box.

    From every pixel of a picture up to a quarter of a million, from an even part of a larger
    one; a box that this part misses stands at its middle.
    """
    step = max(1, math.ceil(math.sqrt(index.size / _EXACT_CODES_FROM)))
    rows, columns = (np.arange(0, size, step) for size in index.shape)
    down, across = np.divmod(rows % (cell * cell), cell)
    pixels = photo.pixels[(rows * cell + down)[:, None], columns * cell + across[:, None]]
    part = index[::step, ::step].ravel()
    channels = photo.profile.channels
    length = (1 << (bits * channels)) + 1
    seen = np.bincount(part, minlength=length)[filled]
    codes = np.empty((len(filled), channels))
    for channel in range(channels):
        sums = np.bincount(part, weights=pixels[..., channel].ravel(), minlength=length)[filled]
        level = (filled >> (bits * (channels - 1 - channel))) & ((1 << bits) - 1)
        middle = (level + 0.5) * (photo.top_code + 1) / (1 << bits) - 0.5
        codes[:, channel] = np.where(seen > 0, sums / np.maximum(seen, 1), middle)
    return codes / photo.top_code
