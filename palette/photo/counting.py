"""Counting the colours of a photograph in the codes of its device.

Codes are counted in small boxes (128 steps a channel for RGB, fewer for large pictures), so only
the few thousand boxes that hold something need converting to CIELAB, through the exact profile.
What is counted are the points of the photograph's lattice. The finer the boxes, the less they show
in a palette: a scene saved in another RGB space falls into others. A large picture, whose lattice
has every colour many times over, would fill so many boxes that it must do with coarser ones.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.photo.lattice import Lattice, lattice_of
from palette.photo.photo import Photo

__all__ = ["Counted", "count_colours"]

_BITS = {1: 8, 3: 7, 4: 4}
_LARGE_BITS = {1: 8, 3: 6, 4: 4}
_FEWER_BITS_ABOVE, _FEWER_BITS = 1 << 22, 5


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
    channels = photo.profile.channels
    bits = _bits(photo, lattice.cell)
    boxes = 1 << (bits * channels)
    index = _index(lattice, bits)
    if lattice.kept is not None:
        index[~lattice.kept] = boxes
    flat = index.ravel()
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


def _bits(photo: Photo, cell: int) -> int:
    """Upper bits of each channel that tell the boxes apart.

    The mean code of a box is taken from its points anyway, so large pictures in plain sRGB do
    with half the boxes, in a third of the time.
    """
    if photo.profile.kind == "srgb" and photo.width_px * photo.height_px > _FEWER_BITS_ABOVE:
        return min(_FEWER_BITS, _BITS[photo.profile.channels])
    return (_BITS if cell == 1 else _LARGE_BITS)[photo.profile.channels]


def _index(lattice: Lattice, bits: int) -> NDArray[np.uint32]:
    """Box of every point of the lattice: the upper bits of its channels, side by side."""
    drop = 8 * lattice.codes.itemsize - bits
    box: NDArray[np.uint32] = (lattice.codes[0] >> drop).astype(np.uint32)
    for plane in lattice.codes[1:]:
        box <<= np.uint32(bits)
        box |= plane >> drop
    return box
