"""Straightening: where each weft of a photographed cloth lies in every column of the picture.

The picture is cut into narrow upright strips. Beginning in the middle, each strip is laid against
those already laid: it may be moved, stretched and bent along its length (a parabola), and its light
may differ (a parabola in the logarithm of light). One smooth surface through all of it then says
how far every pixel lies from its place: rotation, mild perspective and a gentle curve in one. The
least squares step is that of Lucas and Kanade (1981), on profiles in place of pictures.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.stripes.cloth_photo_light import Light, logarithm

__all__ = ["Straightening", "level_columns", "straighten", "strips_of", "warp_growth"]

Array = NDArray[np.float64]

_STRIP_PX = 26
_TURNS = ((9.0, 3), (4.0, 3), (1.8, 2))  # smoothing in pixels, and steps taken with it
_END_TURNS = ((1.5, 3), (1.0, 2))
_ENDS_SEEN = 0.3
_LIKE = 0.5  # likeness, as a part of the best strips', above which a strip shows the stripes
_SOME_LIKE = 0.2  # correlation above which the next strip begins where this one came to lie


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Straightening:
    """How far the wefts of each strip lie below their place in the middle of the picture.

    Attributes
    ----------
    shift : ndarray of shape (strips, 3)
        Parabola along the height, y in [-1, 1]: pixels downward.
    like : ndarray of shape (strips,)
        How well a strip agrees with the stripes in the middle, at most 1.
    surface : ndarray of shape (9,)
        The smooth surface through all shifts.
    skew_degrees : float
        Slope of the wefts in the middle of the picture.
    agreement : float
        Correlation of the strips with the profile of all, in the median.
    """

    shift: Array
    like: Array
    surface: Array
    skew_degrees: float
    agreement: float


def strips_of(light: Light, degrees: float) -> Array:
    """Cut a picture into strips, each averaged across along the tilt; shape (strips, height, 3)."""
    height, width = light.shape[:2]
    count = max(5, width // _STRIP_PX)
    edges = np.linspace(0, width, count + 1).astype(int)
    strips = np.empty((count, height, 3))
    rows = np.arange(height)[:, None]
    for number, (start, stop) in enumerate(itertools.pairwise(edges)):
        columns = np.arange(start, stop)
        down = np.round((columns - (start + stop - 1) / 2) * np.tan(np.deg2rad(degrees)))
        picked = np.clip(rows + down[None, :].astype(int), 0, height - 1)
        strips[number] = light[picked, columns[None, :]].mean(axis=1)
    return strips


def _smooth(profiles: Array, sigma: float) -> Array:
    from scipy import ndimage

    return np.asarray(ndimage.gaussian_filter1d(profiles, sigma, axis=-2, mode="nearest"))


def _basis(height: int) -> Array:
    y = np.linspace(-1, 1, height)
    return np.stack([np.ones(height), y, y**2], axis=1)


def _lay(
    strip: Array, known: Array, shift: Array, steps: int, usable: Array
) -> tuple[Array, float]:
    """Lay one strip against a known profile: refined shift, and their correlation."""
    height = len(strip)
    basis = _basis(height)
    rows = np.arange(height, dtype=float)
    slope = np.gradient(known, axis=0)
    like = 0.0
    for step_number in range(steps + 1):
        at = rows + basis @ shift
        inside = (at >= 1) & (at <= height - 2) & (usable > 0)
        if inside.sum() < height // 4:
            return shift, 0.0
        moved = np.stack([np.interp(at, rows, strip[:, c]) for c in range(3)], axis=1)
        difference = known - moved
        ground = basis[inside]
        fitted = np.linalg.lstsq(ground, difference[inside].mean(axis=1), rcond=None)[0]
        rest = difference - (basis @ fitted)[:, None]
        if step_number == steps:
            like = _likeness(known[inside], (known - rest)[inside])
            break
        spread = 1.4826 * np.median(np.abs(rest[inside])) + 1e-6
        weight = inside[:, None] / (1 + (rest / (3 * spread)) ** 2)
        columns = slope[:, :, None] * basis[:, None, :]
        flat = (columns * weight[..., None]).reshape(-1, 3)
        left = flat.T @ columns.reshape(-1, 3)
        right = flat.T @ rest.ravel()
        ridge = np.diag([1e-9, 1e-3, 3e-3]) * (left[0, 0] + 1e-9)
        step = np.linalg.solve(left + ridge, right)
        shift = shift + np.clip(step, -6, 6)
    return shift, like


def _likeness(known: Array, seen: Array) -> float:
    """Correlation of two profiles over all channels, each less its slow changes."""
    a, b = (_quick(profile) for profile in (known, seen))
    scale = np.sqrt((a**2).sum() * (b**2).sum())
    return float((a * b).sum() / scale) if scale > 0 else 0.0


def _quick(profile: Array) -> Array:
    from scipy import ndimage

    size = max(25, len(profile) // 4)
    return np.asarray(profile - ndimage.uniform_filter1d(profile, size, axis=0, mode="nearest"))


def straighten(
    light: Light, degrees: float, turns: tuple[tuple[float, int], ...] = _TURNS
) -> Straightening:
    """Find where the wefts lie, strip by strip from the middle outward.

    Parameters
    ----------
    light : ndarray of shape (height, width, 3)
        Linear light; stripes about level.
    degrees : float
        Their angle as found so far.
    turns : tuple of (float, int)
        Smoothing in pixels, and steps taken with it, coarse to fine.
    """
    strips = np.asarray(logarithm(strips_of(light, degrees).astype(np.float32)), dtype=float)
    count, _height = strips.shape[:2]
    slope = np.tan(np.deg2rad(degrees)) * light.shape[1] / count
    middle = count // 2
    shift = np.zeros((count, 3))
    shift[:, 0] = (np.arange(count) - middle) * slope
    like = np.zeros(count)
    like[middle] = 1.0
    known = _seed(strips, shift, middle)
    for sigma, steps in turns:
        smooth = _smooth(strips, sigma)
        fresh = sigma == turns[0][0]
        for way in (1, -1):
            _walk(smooth, _smooth(known, sigma), shift, like, middle, way, steps, slope, fresh)
        agreement = float(np.median(like))
        like[middle] = like[np.arange(count) != middle].max()
        like /= np.quantile(like, 0.75)
        surface = _surface(shift, like)
        shift = _on_surface(surface, count)
        known = _together(strips, shift, like)
    skew = np.rad2deg(np.arctan(surface[0] * 2 / light.shape[1]))
    return Straightening(
        shift=shift, like=like, surface=surface, skew_degrees=float(skew), agreement=agreement
    )


def warp_growth(light: Light, skew_degrees: float) -> float | None:
    """How the ends spread or close up along the warp, where they can be followed.

    Parameters
    ----------
    light : ndarray of shape (height, width, 3)
        Linear light; stripes about level.
    skew_degrees : float
        Slope of the wefts.

    Returns
    -------
    float or None
        Logarithm of the spacing of the ends at the last row as a part of that at the first; None
        where the ends cannot be seen.
    """
    turned = np.ascontiguousarray(light.transpose(1, 0, 2))
    found = straighten(turned, -skew_degrees, _END_TURNS)
    if found.agreement < _ENDS_SEEN:
        return None
    return float(4 * found.surface[1] / light.shape[1])


def _seed(strips: Array, shift: Array, middle: int) -> Array:
    near = slice(max(0, middle - 2), middle + 3)
    return _together(strips[near], shift[near], np.ones(near.stop - near.start))


def _walk(
    strips: Array,
    known: Array,
    shift: Array,
    like: Array,
    middle: int,
    way: int,
    steps: int,
    slope: float,
    fresh: bool,
) -> None:
    """Lay the strips on one side of the middle, each beginning where its neighbour came to lie."""
    before = shift[middle].copy()
    trend = np.array([slope * way, 0.0, 0.0])
    usable = np.ones(strips.shape[1])
    number = middle + way
    while 0 <= number < len(strips):
        start = before + trend if fresh else shift[number]
        laid, alike = _lay(strips[number], known, start, steps, usable)
        like[number] = alike
        if alike > _SOME_LIKE:
            trend = 0.7 * trend + 0.3 * (laid - before)
            shift[number] = laid
            before = laid
        else:
            before = before + trend
            shift[number] = before
        number += way


def _surface(shift: Array, like: Array) -> Array:
    """Fit the smooth surface: powers of x (from 1) by powers of y, strips weighted by likeness."""
    count = len(shift)
    x = _across(count)
    weight = np.where(like > _LIKE, like, 0.0)
    surface = np.zeros((3, 3))
    powers = np.stack([x, x**2, x**3], axis=1)
    for along in range(3):
        target = shift[:, along]
        kept = weight.copy()
        for _ in range(6):
            left = powers.T @ (powers * kept[:, None])
            ridge = np.diag([1e-9, 1e-3, 3e-3]) * (left[0, 0] + 1e-9)
            fitted = np.linalg.solve(left + ridge, powers.T @ (kept * target))
            rest = np.abs(target - powers @ fitted)
            spread = 1.4826 * np.median(rest[weight > 0]) + 0.05
            kept = weight / (1 + (rest / (2 * spread)) ** 2)
        surface[:, along] = fitted
    return surface.ravel()


def _across(count: int) -> Array:
    """Places of the strips, -1 to 1, the middle one exactly 0."""
    return (np.arange(count) - count // 2) / (count / 2)


def _on_surface(surface: Array, count: int) -> Array:
    x = _across(count)
    return np.asarray(np.stack([x, x**2, x**3], axis=1) @ surface.reshape(3, 3))


def _together(strips: Array, shift: Array, like: Array) -> Array:
    """Median of all strips that show the stripes, each less its own light."""
    level = level_columns(strips, shift)
    kept = level[like > _LIKE] if (like > _LIKE).any() else level
    with np.errstate(all="ignore"):
        own = np.nanmean(kept, axis=(1, 2), keepdims=True)
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        middle = np.nanmedian(kept - own, axis=0)
    return _filled(middle + np.nanmean(own))


def _filled(profile: Array) -> Array:
    """Rows that no strip shows take the nearest that one does."""
    good = np.isfinite(profile).all(axis=1)
    rows = np.arange(len(profile))
    return np.stack([np.interp(rows, rows[good], profile[good, c]) for c in range(3)], axis=1)


def level_columns(strips: Array, shift: Array) -> Array:
    """Move strips to their place; NaN where the picture ends; shape as `strips`."""
    count, height = strips.shape[:2]
    basis = _basis(height)
    rows = np.arange(height, dtype=float)
    level = np.empty_like(strips)
    for number in range(count):
        at = rows + basis @ shift[number]
        outside = (at < 0) | (at > height - 1)
        for channel in range(3):
            column = np.interp(at, rows, strips[number, :, channel])
            column[outside] = np.nan
            level[number, :, channel] = column
    return level
