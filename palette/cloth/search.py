"""The dyeable colour that brings a cloth nearest to a wanted one."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from palette.perception.difference import ciede2000
from palette.perception.spaces import linear_srgb_to_lab, srgb_to_linear

__all__ = ["DARKEST", "LIGHTEST", "nearest_yarn"]

Array = NDArray[np.float64]

DARKEST, LIGHTEST = 16.0, 94.0
"""Lightness that yarn can be dyed to: the darkest black measured, and bleached white."""

_STEPS = 13
_STARTS = 6
_HALVINGS = 14
_AROUND = np.stack(np.meshgrid(*[(-1.0, 0.0, 1.0)] * 3, indexing="ij"), axis=-1).reshape(-1, 3)


def nearest_yarn(
    woven: Callable[[Array], Array], wanted_lab: tuple[float, float, float]
) -> tuple[Array, Array, float]:
    """Search the dyeable colours for the yarn whose cloth is nearest to the wanted colour.

    Dyeable means inside sRGB, with a lightness from 16 to 94. The search walks a grid of
    sRGB codes and narrows it around the best few, so it needs no derivative and no start, and
    gives the same answer every time.

    Parameters
    ----------
    woven : callable
        Cloth colours (n, 3) of yarn colours (n, 3), CIELAB both.
    wanted_lab : tuple of 3 float

    Returns
    -------
    yarn_lab, cloth_lab : ndarray of shape (3,)
    difference : float
        CIEDE2000 of the cloth and the wanted colour.
    """
    codes = np.linspace(0, 1, _STEPS)
    grid = np.stack(np.meshgrid(codes, codes, codes, indexing="ij"), axis=-1).reshape(-1, 3)
    misses = _misses(grid, woven, wanted_lab)
    best = grid[np.argsort(misses, kind="stable")[:_STARTS]]
    step = 0.5 / (_STEPS - 1)
    for _ in range(_HALVINGS):
        for _ in range(2):
            around = np.clip(best[:, np.newaxis] + step * _AROUND, 0, 1)
            flat = _misses(around.reshape(-1, 3), woven, wanted_lab).reshape(len(best), -1)
            best = around[np.arange(len(best)), flat.argmin(axis=1)]
        step /= 2
    misses = _misses(best, woven, wanted_lab)
    yarn = linear_srgb_to_lab(srgb_to_linear(best[misses.argmin()]))
    return yarn, woven(yarn[np.newaxis])[0], float(misses.min())


def _misses(
    srgb: Array, woven: Callable[[Array], Array], wanted_lab: tuple[float, float, float]
) -> Array:
    yarns = linear_srgb_to_lab(srgb_to_linear(srgb))
    beyond = np.maximum(0, DARKEST - yarns[:, 0]) + np.maximum(0, yarns[:, 0] - LIGHTEST)
    return np.asarray(ciede2000(woven(yarns), wanted_lab) + 10 * beyond, dtype=np.float64)
