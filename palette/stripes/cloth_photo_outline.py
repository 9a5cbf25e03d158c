"""Where a cloth ends to its left and right: its selvedges as two lines across the picture.

Inside a cloth every column shows the same stripes; beside it, none does. Where a column stops
agreeing with the profile of the stripes, block by block along the warp, is the selvedge. Both lines
together say how the cloth narrows into the distance.
"""

from __future__ import annotations

import itertools
import warnings
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Outline", "beside", "evened", "find_outline", "narrowing"]

Array = NDArray[np.float64]

_BLOCKS = 20
_MARGIN = 0.12  # of the height, in which the cloth may not yet have begun
_CLEAR = 2.2  # times as unlike the stripes as the inside: beside the cloth
_LEAST_OFF = 0.12  # logarithm of light
_BAND = 9  # cells beside a selvedge that are compared
_EVEN_ACROSS = 0.19  # cells that go with a row, ends being a little wider apart than picks
_GAP = 1.6  # cells that a selvedge and its shadow may blur


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Selvedges of a cloth.

    Attributes
    ----------
    left, right : tuple of 2 float, or None
        Place in cells at the first row, and at the last; None where the cloth runs out of the
        picture.
    """

    left: tuple[float, float] | None
    right: tuple[float, float] | None

    def at(self, side: str, height: int) -> Array | None:
        """Place of one selvedge in every row, in cells."""
        ends = self.left if side == "left" else self.right
        return None if ends is None else np.linspace(ends[0], ends[1], height)


def find_outline(
    cells: Array, rows: Array, first: int, last: int, even_rows: float = 12.0
) -> Outline:
    """Find the selvedges.

    Parameters
    ----------
    cells : ndarray of shape (cells, height, 3)
        Logarithm of light in narrow columns of the straightened picture, the light evened out;
        NaN beyond the picture.
    rows : ndarray of shape (height, 3)
        Profile of the stripes.
    first, last : int
        Cells between which the cloth roughly lies.
    even_rows : float
        Rows over which the weave evens out: a few picks.
    """
    height = len(rows)
    edges = np.linspace(_MARGIN * height, (1 - _MARGIN) * height, _BLOCKS + 1).astype(int)
    middles = (edges[:-1] + edges[1:]) / 2 / height
    even = _unlike(cells, rows, even_rows, _EVEN_ACROSS * even_rows, edges)
    sharp = _unlike(cells, rows, even_rows, 1, edges)
    count = len(cells)
    left = _side(even[:, ::-1], sharp[:, ::-1], count - 1 - (first + last) // 2, count - 1 - first)
    right = _side(even, sharp, (first + last) // 2, last - 1)
    mirrored = [None if place is None else count - place for place in left]
    return Outline(left=_line(mirrored, middles), right=_line(right, middles))


def _unlike(
    cells: Array, rows: Array, even_rows: float, across: float, edges: NDArray[np.int64]
) -> Array:
    """How unlike the stripes every cell is, block by block; shape (blocks, cells)."""
    stripes = np.log(evened(np.exp(rows)[None], even_rows, 1))
    seen = np.log(evened(np.exp(cells), even_rows, across))
    off = np.abs(seen - stripes).max(axis=2)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        blocks = [np.nanmedian(off[:, a:b], axis=1) for a, b in itertools.pairwise(edges.tolist())]
    return np.stack(blocks)


def evened(light: Array, even_rows: float, across: float) -> Array:
    """Mean light over a few picks and ends, so that the weave does not count as a difference.

    Parameters
    ----------
    light : ndarray of shape (cells, height, 3)
        NaN beyond the picture.
    even_rows : float
        Rows over which the weave evens out.
    across : float
        Cells over which it does.
    """
    from scipy import ndimage

    seen: NDArray[np.bool_] = np.asarray(np.isfinite(light).all(axis=2), dtype=bool)
    filled = np.where(seen[..., None], light, 0.0)
    size = (max(1, round(across)), max(3, round(even_rows)))
    weight = ndimage.uniform_filter(seen.astype(float), size, mode="nearest")
    sums = [ndimage.uniform_filter(filled[..., c], size, mode="nearest") for c in range(3)]
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(seen[..., None], np.stack(sums, axis=-1) / weight[..., None], np.nan)


def _side(even: Array, sharp: Array, middle: int, guess: int) -> list[float | None]:
    """Place in every block where the cells, from the middle to the end, leave the cloth."""
    return [_leaving(*blocks, middle, guess) for blocks in zip(even, sharp, strict=True)]


def _leaving(even: Array, sharp: Array, middle: int, guess: int) -> float | None:
    """First place beyond which all is unlike the stripes, taken half way up the change."""
    seen = even[middle : max(guess - 2, middle + 3)]
    inside = float(np.nanmedian(seen)) if np.isfinite(seen).any() else np.nan
    level = max(_CLEAR * inside, inside + _LEAST_OFF)
    out: NDArray[np.bool_] = np.asarray(np.isnan(even) | (even > level), dtype=np.bool_)
    leaves = [
        cell
        for cell in range(middle + 1, len(even) - 1)
        if out[cell] and out[cell : cell + 4].mean() > 0.7 and np.isfinite(even[cell])
    ]
    if not leaves:
        return None
    first = leaves[0]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        outside = float(np.nanmedian(even[first + 3 : first + 12]))
    half = (inside + outside) / 2 if np.isfinite(outside) else level
    for cell in range(max(first - 2, 1), min(first + 9, len(sharp))):
        if sharp[cell] > half and not sharp[cell : cell + 3].mean() <= half:
            rise = sharp[cell] - sharp[cell - 1]
            part = (half - sharp[cell - 1]) / rise if rise > 0 else 0.5
            return cell - 0.5 + float(np.clip(part, 0, 1))
    return first + 0.5


def _line(places: list[float | None], middles: Array) -> tuple[float, float] | None:
    """Straight line through the places of most blocks; None where few show the selvedge."""
    seen = np.array([place is not None for place in places])
    if seen.sum() < 0.5 * len(places):
        return None
    x = middles[seen]
    y = np.array([place for place in places if place is not None], dtype=float)
    slopes = [(y[j] - y[i]) / (x[j] - x[i]) for i in range(len(x)) for j in range(i)]
    slope = float(np.median(slopes))  # Theil (1950), Sen (1968)
    start = float(np.median(y - slope * x))
    near = np.abs(y - start - slope * x) < 2.5
    if near.sum() < 0.4 * len(places):
        return None
    slope, start = (float(value) for value in np.polyfit(x[near], y[near], 1))
    return start, start + slope


def narrowing(outline: Outline) -> float | None:
    """Logarithm of the cloth's width at the last row as a part of that at the first.

    Examples
    --------
    >>> round(narrowing(Outline(left=(10.0, 5.0), right=(90.0, 95.0))), 3)
    0.118
    """
    if outline.left is None or outline.right is None:
        return None
    first, last = (outline.right[k] - outline.left[k] for k in (0, 1))
    return float(np.log(last / first)) if min(first, last) > 0 else None


def beside(cells: Array, outline: Outline, side: str) -> tuple[Array, Array] | None:
    """Colour along the warp just inside a selvedge and just outside it.

    Returns
    -------
    tuple of 2 ndarray of shape (height, 3), or None
        Means of the logarithm of light in a narrow band; NaN in rows that the picture does not
        show. None where that selvedge is not in the picture.
    """
    height = cells.shape[1]
    place = outline.at(side, height)
    if place is None:
        return None
    way = 1 if side == "right" else -1
    number = np.arange(len(cells))[:, None] + 0.5
    out = (number - place[None, :]) * way
    bands = []
    for low, high in ((-_BAND, -_GAP), (_GAP, _BAND)):
        part = np.where(((out > low) & (out < high))[..., None], cells, np.nan)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", RuntimeWarning)
            bands.append(np.nanmedian(part, axis=0))
    return bands[0], bands[1]
