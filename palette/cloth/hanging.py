"""A finished cloth against a wall: its fringes, its edge and its shadow."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["WALL", "hang"]

Array = NDArray[np.float64]

WALL = (0.70, 0.685, 0.655)
"""Linear sRGB of the wall: a warm light grey, on which a natural fringe still shows."""

BUNDLE_CM = 0.8
"""Width of warp that is twisted into one fringe, a common size."""


def hang(
    surface: Array,
    ends_light: Array,
    fringe_px: int,
    pixels_per_cm: float,
    chance: np.random.Generator,
) -> Array:
    """Put a cloth on the wall.

    Parameters
    ----------
    surface : ndarray of shape (h, w, 3)
        Light from the cloth.
    ends_light : ndarray of shape (ends, 3)
        Light from the ends, left to right.
    fringe_px : int
        Length of the fringes, 0 for none.
    pixels_per_cm : float
    chance : numpy.random.Generator

    Returns
    -------
    ndarray of shape (H, W, 3)
        Linear sRGB, with a margin all round.
    """
    height, width = surface.shape[:2]
    margin = max(4, round(0.06 * width), round(1.5 * pixels_per_cm))
    top = margin + fringe_px
    picture = np.empty((height + 2 * top, width + 2 * margin, 3))
    picture[:] = WALL
    picture *= _shadow(picture.shape[0], picture.shape[1], top, margin, pixels_per_cm)
    picture[top : top + height, margin : margin + width] = surface * _edges(width)
    if fringe_px:
        above = slice(margin, top)
        below = slice(top + height, top + height + fringe_px)
        for rows, upward in ((above, True), (below, False)):
            strand, cover = _fringe(fringe_px, width, ends_light, pixels_per_cm, chance)
            if upward:
                strand, cover = strand[::-1], cover[::-1]
            area = picture[rows, margin : margin + width]
            picture[rows, margin : margin + width] = area * (1 - cover) + strand * cover
    return picture


def _shadow(height: int, width: int, top: int, margin: int, pixels_per_cm: float) -> Array:
    """Soft shadow of the cloth on the wall, light from the upper left, (h, w, 1)."""
    offset, soft = 0.35 * pixels_per_cm, 0.55 * pixels_per_cm

    def inside(size: int, edge: int) -> Array:
        place = np.arange(size) + 0.5 - offset
        rise = 1 / (1 + np.exp(-(place - edge) / soft))
        return np.asarray(rise / (1 + np.exp((place - (size - edge)) / soft)))

    depth = np.outer(inside(height, top), inside(width, margin))
    return np.asarray(1 - 0.42 * depth)[..., np.newaxis]


def _edges(width: int) -> Array:
    """Selvedges turn away a little: the outermost columns are darker, (1, w, 1)."""
    near = np.minimum(np.arange(width), np.arange(width)[::-1]) + 0.5
    return np.asarray(1 - 0.22 * np.exp(-near / 1.2))[np.newaxis, :, np.newaxis]


def _fringe(
    length: int, width: int, ends_light: Array, pixels_per_cm: float, chance: np.random.Generator
) -> tuple[Array, Array]:
    """Twisted bundles of warp below an edge: light (n, w, 3) and cover (n, w, 1)."""
    bundles = max(1, round(width / (BUNDLE_CM * pixels_per_cm)))
    pitch = width / bundles
    down = (np.arange(length) + 0.5) / length
    column = np.arange(width) + 0.5
    bundle = np.minimum((column / pitch).astype(np.intp), bundles - 1)
    sway = chance.normal(0, 0.10, bundles) * pitch
    bend = chance.normal(0, 0.06, bundles) * pitch
    ends_at = 1 - 0.06 * np.abs(chance.standard_normal(bundles))
    centre = (bundle + 0.5) * pitch
    d = down[:, np.newaxis]
    axis = centre + sway[bundle] * d**1.5 + bend[bundle] * np.sin(2 * np.pi * d)
    half = pitch * (0.47 - 0.17 * np.minimum(1, d / 0.12))
    across = (column - axis) / half
    edge = np.clip((1 - np.abs(across)) * half + 0.5, 0, 1)
    cover = edge * np.clip((ends_at[bundle] - d) * length / 2, 0, 1)
    round_light = 0.48 + 0.55 * np.sqrt(np.clip(1 - across**2, 0, 1)) - 0.10 * across
    turn = 2 * np.pi * (d * length / (1.1 * pitch) + 0.35 * across)
    twist = 1 + 0.13 * np.sin(turn + bundle)
    end = np.minimum((column / width * len(ends_light)).astype(np.intp), len(ends_light) - 1)
    light = ends_light[end] * (round_light * twist)[..., np.newaxis]
    return light, cover[..., np.newaxis]
