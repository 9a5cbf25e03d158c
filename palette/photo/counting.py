"""Counting the colours of a photograph.

Codes are counted in small boxes (128 steps a channel for RGB, fewer for large pictures), so only
the few thousand boxes that hold something need converting to CIELAB, through the exact profile.
What is counted are the points of the photograph's lattice. The boxes of all RGB photographs lie in
the codes of sRGB, so that the same scene in another space falls into the same ones. A large
picture would fill so many that it must do with coarser boxes.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.photo.common_codes import common_codes
from palette.photo.lattice import Lattice, lattice_of
from palette.photo.photo import Photo

__all__ = ["Counted", "count_colours"]

_BITS = {1: 8, 3: 7, 4: 4}
_LARGE_BITS = {1: 8, 3: 6, 4: 4}
_FEWER_BITS_ABOVE, _FEWER_BITS = 1 << 22, 5
_COMMON = ("srgb", "matrix")
_BEYOND = 4  # boxes go on for a quarter of the codes of sRGB on either side


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
        Box of each point of the lattice over the upright picture; -1 where nothing counts.
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
    lattice = lattice_of(photo)
    index, boxes = _boxes(photo, lattice)
    if lattice.kept is not None:
        index[~lattice.kept] = boxes
    flat = index.ravel().astype(np.intp)
    counts = np.bincount(flat, minlength=boxes + 1)[:boxes]
    filled = np.flatnonzero(counts)
    place = np.full(boxes + 1, -1, dtype=np.int32)
    place[filled] = np.arange(len(filled))
    sums = [np.bincount(flat, plane.ravel(), boxes + 1)[filled] for plane in lattice.codes]
    total = int(counts.sum())
    return Counted(
        codes=np.stack(sums, axis=1) / (counts[filled, None] * photo.top_code),
        weights=counts[filled] / total,
        where=place[index],
        pixels=total * lattice.cell**2,
    )


def _boxes(photo: Photo, lattice: Lattice) -> tuple[NDArray[np.uint32], int]:
    """Box of every point of the lattice, and how many boxes there are."""
    steps = 1 << _bits(photo, lattice.cell)
    if photo.profile.kind == "matrix":
        codes = common_codes(lattice.codes, photo.profile, photo.top_code)
        span = steps + 2 * (steps // _BEYOND)
        levels = np.floor((codes * 255 + 0.5) * (steps / 256)) + steps // _BEYOND
        planes = np.clip(levels, 0, span - 1).astype(np.uint32)
    else:
        span = steps
        drop = np.uint32(8 * lattice.codes.itemsize - steps.bit_length() + 1)
        planes = lattice.codes >> drop
    index = planes[0].astype(np.uint32)
    for plane in planes[1:]:
        index *= np.uint32(span)
        index += plane
    return index, span ** len(planes)


def _bits(photo: Photo, cell: int) -> int:
    """Upper bits of each channel that tell the boxes apart.

    The mean code of a box is taken from its points anyway, so large pictures in RGB do with few
    boxes, in a third of the time.
    """
    channels = photo.profile.channels
    if photo.profile.kind in _COMMON and photo.width_px * photo.height_px > _FEWER_BITS_ABOVE:
        return _FEWER_BITS
    return (_BITS if cell == 1 else _LARGE_BITS)[channels]
