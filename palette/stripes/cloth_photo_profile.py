"""From a straightened picture to one column of colour: the profile of the cloth along its warp."""

from __future__ import annotations

import warnings
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_ends import find_ends, pieces_of
from palette.stripes.cloth_photo_light import DARKEST, Light
from palette.stripes.cloth_photo_outline import Outline, evened, find_outline, narrowing
from palette.stripes.cloth_photo_straighten import Straightening
from palette.stripes.reading_segments import cut, running_mean
from palette.stripes.reading_threads import Threads, find_threads

__all__ = ["ClothProfile", "half_rows", "profile_of"]

Array = NDArray[np.float64]

_CELL_PX = 6
_LIKE = 0.5
_UNLIKE = 0.35
_TURNS = 3
_EVEN_ROWS = 20.0
_ACROSS = (1, 2, 3)  # powers of the place from side to side by which the light may change
_PRICE = 16.0  # of a piece more
_FLOOR = np.array([0.8, 0.45, 0.45])  # noise in CIELAB that is always allowed for


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClothProfile:
    """Colour along the warp, the light across evened out.

    Attributes
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of linear light, row by row of the straightened picture.
    cells : ndarray of shape (cells, height, 3)
        The same for narrow parts of the cloth side by side, the light across evened out.
    ends : tuple of 2 (int or None)
        Rows at which the cloth begins and ends; None where it runs out of the picture.
    width_px : float
        Width of the cloth in the middle of the picture, or of the picture where the cloth runs
        out of it.
    selvedges : tuple of 2 bool
        Whether the left and the right edge of the cloth are in the picture.
    threads : Threads
        Spacing of the picks.
    growth : float or None
        Logarithm of the size of things at the last row as a part of that at the first, seen in
        the width of the cloth; None where a selvedge is not in the picture.
    """

    rows: Array
    cells: Array
    ends: tuple[int | None, int | None]
    width_px: float
    selvedges: tuple[bool, bool]
    threads: Threads
    growth: float | None


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
    raw = _levelled_cells(light, straightening)
    raw = np.log(np.maximum(raw, 0) + DARKEST)
    first, last, selvedges = _span(straightening.like, len(raw))
    inner = 2 if last - first > 30 else 0
    left, right = first + inner * selvedges[0], last - inner * selvedges[1]
    height = raw.shape[1]
    middle = slice(height // 8, height - height // 8)
    even = _EVEN_ROWS
    powers: tuple[int, ...] = (1,)  # ground among the columns would bend a freer surface
    for _ in range(3):
        everything, rows = _even_across(raw, left, right, even, powers)
        threads = find_threads(everything[left:right, middle])
        even = 4 * max(threads.window, 3.0)
        outline = find_outline(everything, rows, left, right, even)
        inside = _inside(outline, len(everything))
        settled = inside is None or (abs(inside[0] - left) < 4 and abs(inside[1] - right) < 4)
        if settled and len(powers) > 1:
            break
        left, right = inside or (left, right)
        powers = _ACROSS
    pieces = pieces_of(
        everything, outline, _rough_cuts(rows, threads.window), threads.window / _CELL_PX
    )
    ends = find_ends(pieces, threads.window)
    return ClothProfile(
        rows=rows,
        cells=everything[left:right],
        ends=ends,
        width_px=_width(outline, height, light.shape[1]),
        selvedges=(outline.left is not None, outline.right is not None),
        threads=threads,
        growth=narrowing(outline),
    )


def _inside(outline: Outline, count: int) -> tuple[int, int] | None:
    """Cells that lie within the cloth over most of its length."""
    left = 0 if outline.left is None else round(float(np.mean(outline.left)) + 2)
    right = count if outline.right is None else round(float(np.mean(outline.right)) - 2)
    return (max(0, left), min(count, right)) if right - left > 20 else None


def _width(outline: Outline, height: int, width_px: int) -> float:
    """Pixels from selvedge to selvedge in the middle row, or of the whole picture."""
    left, right = outline.at("left", height), outline.at("right", height)
    start = 0.0 if left is None else left[height // 2] * _CELL_PX
    stop = float(width_px) if right is None else right[height // 2] * _CELL_PX
    return float(stop - start)


def _rough_cuts(rows: Array, window: float) -> list[int]:
    """Cut the whole height, ground and all, into pieces of one colour."""
    smooth = running_mean(np.exp(rows), window)
    lab = linear_srgb_to_lab(np.maximum(smooth - DARKEST, 0))
    lag = max(2, round(window))
    noise = np.quantile(np.abs(lab[lag:] - lab[:-lag]), 0.3, axis=0) / 0.545
    blind = max(1, int(np.ceil(window / 2)))
    return cut(lab / np.maximum(noise, _FLOOR), window, _PRICE, blind)


def _even_across(
    everything: Array, left: int, right: int, even_rows: float, powers: tuple[int, ...] = _ACROSS
) -> tuple[Array, Array]:
    """Take the change of light from side to side out, as a smooth surface in the logarithm.

    The surface is fitted to the cells of the cloth, from `left` up to `right`, the weave
    evened out, and goes on beside it.
    """
    cells = everything[left:right]
    level = np.log(evened(np.exp(cells), even_rows, even_rows / _CELL_PX))
    count, height = cells.shape[:2]
    x = np.linspace(-1, 1, count)
    beyond = (np.arange(len(everything)) - left) / max(count - 1, 1) * 2 - 1
    y = np.linspace(-1, 1, height)
    terms = [(i, j) for i in powers for j in (0, 1, 2)]
    step = max(1, height // 150)
    hop = max(1, count // 80)
    rows = _median(cells)
    fitted = np.zeros(len(terms))
    for _ in range(_TURNS):
        stripes = np.log(evened(np.exp(rows)[None], even_rows, 1))
        rest = (level[::hop, ::step] - stripes[:, ::step]).mean(axis=2)
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


def half_rows(profile: ClothProfile) -> tuple[Array, Array]:
    """Profile of the left and of the right half of the cloth, by themselves."""
    half = len(profile.cells) // 2
    return _median(profile.cells[:half]), _median(profile.cells[half:])
