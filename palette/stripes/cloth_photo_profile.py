"""From a straightened picture to one column of colour: the profile of the cloth along its warp."""

from __future__ import annotations

import warnings
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.stripes.cloth_photo_light import DARKEST, Light
from palette.stripes.cloth_photo_straighten import Straightening

__all__ = ["ClothProfile", "cloth_rows", "half_rows", "profile_of"]

Array = NDArray[np.float64]

_CELL_PX = 6
_LIKE = 0.5
_UNLIKE = 0.35
_TURNS = 3
_EDGE_CELLS = 2  # at the edge of the picture, surely beside the cloth where its selvedge shows


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClothProfile:
    """Colour along the warp, the light across evened out.

    Attributes
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of linear light, row by row of the straightened picture.
    cells : ndarray of shape (cells, height, 3)
        The same for narrow parts of the cloth side by side, the light across evened out.
    ground : ndarray of shape (height,), bool
        Rows that show what lies beyond the cloth, or its fringe.
    width_px : float
        Width of the cloth in the picture, or of the picture where the cloth runs out of it.
    selvedges : tuple of 2 bool
        Whether the left and the right edge of the cloth are in the picture.
    """

    rows: Array
    cells: Array
    ground: NDArray[np.bool_]
    width_px: float
    selvedges: tuple[bool, bool]


def _levelled_cells(light: Light, straightening: Straightening) -> Array:
    """Narrow columns of the straightened picture, mean light of each; NaN beyond the picture."""
    height, width = light.shape[:2]
    count = width // _CELL_PX
    x_all = np.arange(count * _CELL_PX)
    strips = len(straightening.shift)
    x = ((x_all + 0.5) / width * strips - 0.5 - strips // 2) / (strips / 2)
    bend = np.stack([x, x**2, x**3], axis=1) @ straightening.surface.reshape(3, 3)
    y = np.linspace(-1, 1, height)
    rows = np.arange(height)[:, None]
    cells = np.empty((count, height, 3))
    for cell in range(count):
        columns = x_all[cell * _CELL_PX : (cell + 1) * _CELL_PX]
        own = bend[columns]
        at = rows + own[:, 0] + y[:, None] * own[:, 1] + (y**2)[:, None] * own[:, 2]
        low = np.floor(at).astype(int)
        part = (at - low)[..., None]
        safe = np.clip(low, 0, height - 2)
        seen = light[safe, columns[None, :]] * (1 - part) + light[safe + 1, columns[None, :]] * part
        mean = seen.mean(axis=1)
        mean[((at < 0) | (at > height - 1)).any(axis=1)] = np.nan
        cells[cell] = mean
    return cells


def _span(like: Array, cells: int) -> tuple[int, int, tuple[bool, bool]]:
    """First and last cell (exclusive) of the cloth, and which selvedges are in the picture."""
    strips = len(like)
    middle = strips // 2
    good = like > _LIKE
    first = middle
    while first > 0 and good[max(0, first - 2) : first].any():
        first -= 1
    last = middle
    while last < strips - 1 and good[last + 1 : last + 3].any():
        last += 1
    while not good[first]:
        first += 1
    while not good[last]:
        last -= 1
    left = bool(first > 0 and (like[:first] < _UNLIKE).any())
    right = bool(last < strips - 1 and (like[last + 1 :] < _UNLIKE).any())
    per = cells / strips
    return round(first * per), round((last + 1) * per), (left, right)


def profile_of(light: Light, straightening: Straightening) -> ClothProfile:
    """Profile of a cloth whose wefts have been found.

    Parameters
    ----------
    light : ndarray of shape (height, width, 3)
        Linear light; stripes about level.
    straightening : Straightening
        As found in the same picture.
    """
    everything = _levelled_cells(light, straightening)
    first, last, selvedges = _span(straightening.like, len(everything))
    inner = 2 if last - first > 30 else 0
    left, right = first + inner * selvedges[0], last - inner * selvedges[1]
    everything = np.log(np.maximum(everything, 0) + DARKEST)
    everything, rows = _even_across(everything, left, right)
    cells = everything[left:right]
    outside = []
    if selvedges[0]:
        outside.append(everything[: max(_EDGE_CELLS, first - 3)])
    if selvedges[1]:
        outside.append(everything[min(len(everything) - _EDGE_CELLS, last + 3) :])
    ground = _ground(rows, cells, outside)
    width = light.shape[1]
    if all(selvedges):
        width = _width(everything[max(0, first - 6) : last + 6], rows, ground)
    return ClothProfile(
        rows=rows, cells=cells, ground=ground, width_px=float(width), selvedges=selvedges
    )


def _width(cells: Array, rows: Array, ground: NDArray[np.bool_]) -> float:
    """Pixels from selvedge to selvedge: the mean part of each cell that looks like the cloth."""
    differs = np.abs(cells - rows)[:, ~ground].max(axis=2)
    alike = np.where(np.isfinite(differs), differs < 0.35, np.nan)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        cover = np.nan_to_num(np.nanmean(alike, axis=1))
    full = float(np.median(cover))
    return float(np.clip((cover / full - 0.15) / 0.8, 0, 1).sum() * _CELL_PX)


def _even_across(everything: Array, left: int, right: int) -> tuple[Array, Array]:
    """Take the change of light from side to side out, as a smooth surface in the logarithm.

    The surface is fitted to the cells of the cloth, from `left` up to `right`, and goes on
    beside it.
    """
    cells = everything[left:right]
    count, height = cells.shape[:2]
    x = np.linspace(-1, 1, count)
    beyond = (np.arange(len(everything)) - left) / max(count - 1, 1) * 2 - 1
    y = np.linspace(-1, 1, height)
    terms = [(i, j) for i in (1, 2, 3) for j in (0, 1, 2)]
    step = max(1, height // 150)
    hop = max(1, count // 80)
    rows = _median(cells)
    fitted = np.zeros(len(terms))
    for _ in range(_TURNS):
        rest = (cells - rows).mean(axis=2)[::hop, ::step]
        gx, gy = np.meshgrid(x[::hop], y[::step], indexing="ij")
        good = np.isfinite(rest)
        design = np.stack([gx[good] ** i * gy[good] ** j for i, j in terms], axis=1)
        target = rest[good]
        weight = np.ones(len(target))
        for _ in range(4):
            normal = design.T @ (design * weight[:, None]) + 1e-6 * np.eye(len(terms))
            fitted = np.linalg.solve(normal, design.T @ (weight * target))
            off = np.abs(target - design @ fitted)
            weight = 1 / (1 + (off / (2 * np.median(off) + 1e-6)) ** 2)
        surface = _surface(fitted, terms, x, y)
        rows = _median(cells - surface[..., None])
    beside = _surface(fitted, terms, np.clip(beyond, -1.3, 1.3), y)
    return everything - beside[..., None], rows


def _surface(weights: Array, terms: list[tuple[int, int]], x: Array, y: Array) -> Array:
    """Sum of powers of x (from side to side) and of y (along), each with its weight."""
    parts = [w * np.outer(x**i, y**j) for w, (i, j) in zip(weights, terms, strict=True)]
    return np.asarray(np.sum(parts, axis=0))


def _median(cells: Array) -> Array:
    """Median over the cells, of those that show a row; rows that none shows take the nearest."""
    groups = np.array_split(np.arange(len(cells)), min(len(cells), 41))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        wide = np.stack([np.log(np.nanmean(np.exp(cells[group]), axis=0)) for group in groups])
        middle = np.nanmedian(wide, axis=0)
    good = np.isfinite(middle).all(axis=1)
    rows = np.arange(len(middle))
    return np.stack([np.interp(rows, rows[good], middle[good, c]) for c in range(3)], axis=1)


def _ground(rows: Array, cells: Array, outside: list[Array]) -> NDArray[np.bool_]:
    """Rows near the ends that show a fringe, or look like what lies beside the cloth."""
    from scipy import ndimage

    height = len(rows)
    soft = max(2, height // 300)
    luminance = np.nan_to_num(cells.mean(axis=2) - rows.mean(axis=1))
    smooth = ndimage.gaussian_filter1d(luminance, soft, axis=1)
    smooth = smooth - ndimage.gaussian_filter1d(smooth, 10, axis=0)
    uneven = 1.4826 * np.median(np.abs(smooth), axis=0) + 0.3 * smooth.std(axis=0)
    usual = float(np.quantile(uneven[height // 4 : -height // 4], 0.98))
    fringe = uneven > max(1.35 * usual, 0.08)
    beside: NDArray[np.bool_] = np.zeros(height, dtype=bool)
    for part in outside:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", RuntimeWarning)
            colour = np.nanmedian(part, axis=0)
        seen = np.asarray(np.isfinite(colour).all(axis=1))
        differs = np.where(seen[:, None], rows - colour, 9.0)
        differs = ndimage.median_filter(differs, size=(7, 1), mode="nearest")
        tint = differs - differs.mean(axis=1, keepdims=True)
        alike = (np.abs(tint).max(axis=1) < 0.10) & (np.abs(differs.mean(axis=1)) < 0.25)
        beside = np.logical_or(beside, alike)
    marked = np.array(np.logical_or(fringe, beside), dtype=bool)
    marked[height // 4 : -height // 4] = False
    return np.asarray(marked)


def cloth_rows(profile: ClothProfile) -> tuple[int, int]:
    """First row of the cloth and the row after its last, ground and fringe left out."""
    height = len(profile.rows)
    top = _marked_run(profile.ground[: height // 4])
    bottom = height - _marked_run(profile.ground[::-1][: height // 4])
    spare = max(2, height // 300)  # the fringe blurs into the first rows; slivers are dealt with
    return max(0, top - spare), min(height, bottom + spare)


def _marked_run(marks: NDArray[np.bool_]) -> int:
    """Rows from the end inward that are marked, small gaps between them counted in."""
    marked = np.flatnonzero(marks)
    if not len(marked):
        return 0
    gap, leap = 4, max(4, len(marks) // 25)
    end = -1
    for row in marked.tolist():
        beyond = marks[row : row + 2 * leap]
        if row - end > (leap if beyond.mean() > 0.5 else gap):
            break
        end = row
    return end + 1


def half_rows(profile: ClothProfile) -> tuple[Array, Array]:
    """Profile of the left and of the right half of the cloth, by themselves."""
    half = len(profile.cells) // 2
    return _median(profile.cells[:half]), _median(profile.cells[half:])
