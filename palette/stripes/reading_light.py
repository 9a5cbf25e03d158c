"""The light along a cloth, told apart from the colours of its stripes.

A lamp that falls off changes the light within every stripe; a yarn does not. So the slope inside
the stripes gives the light, and stripes of the same yarn far apart give it once more.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["light_from_slopes", "light_from_stripes"]

Array = NDArray[np.float64]

_DEGREE = 3
_TURNS = 12


def _powers(height: int) -> Array:
    y = np.linspace(-1, 1, height)
    return np.stack([y**power for power in range(1, _DEGREE + 1)], axis=1)


def light_from_slopes(rows: Array, lag: int) -> Array:
    """First guess: the change over a few rows wherever no stripe ends there.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light, the thread smoothed out.
    lag : int
        Rows over which the change is taken.

    Returns
    -------
    ndarray of shape (height,)
        Logarithm of the light, 0 where it is brightest.
    """
    height = len(rows)
    powers = _powers(height)
    change = rows[lag:] - rows[:-lag]
    target = change.mean(axis=1)
    tint = np.abs(change - target[:, None]).max(axis=1)
    design = powers[lag:] - powers[:-lag]
    quiet = tint < 3 * np.median(tint) + 1e-4
    weight = quiet.astype(float)
    fitted = np.zeros(_DEGREE)
    for _ in range(_TURNS):
        left = design.T @ (design * weight[:, None])
        left += np.diag([1e-9, 0.02, 0.05]) * np.trace(left)
        fitted = np.linalg.solve(left + 1e-12 * np.eye(_DEGREE), design.T @ (weight * target))
        off = np.abs(target - design @ fitted)
        spread = np.median(off[quiet]) + 1e-4
        weight = quiet / (1 + (off / (2 * spread)) ** 2) ** 2
    field = powers @ fitted
    return np.asarray(field - field.max())


def light_from_stripes(rows: Array, cuts: list[int], yarns: list[int], blind: int) -> Array:
    """Light along the cloth by least squares: one colour for every yarn, one smooth light for all.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light.
    cuts : list of int
        Rows at which stripes begin, and the height.
    yarns : list of int
        Yarn of each stripe; -1 leaves a stripe out.
    blind : int
        Rows beside a cut that do not count.
    """
    height = len(rows)
    powers = _powers(height)
    light = rows.mean(axis=1)
    targets, designs, owners = [], [], []
    for start, stop, yarn in zip(cuts[:-1], cuts[1:], yarns, strict=True):
        trim = min(blind, max(0, (stop - start - 1) // 2))
        inside = np.arange(start + trim, stop - trim)
        if yarn >= 0 and len(inside):
            targets.append(light[inside])
            designs.append(powers[inside])
            owners.append(np.full(len(inside), yarn))
    target, design, owner = np.concatenate(targets), np.concatenate(designs), np.concatenate(owners)
    _, owner = np.unique(owner, return_inverse=True)
    weight = np.ones(len(target))
    fitted = np.zeros(_DEGREE)
    for _ in range(6):
        sums = np.bincount(owner, weights=weight) + 1e-12
        mean = np.bincount(owner, weights=weight * target) / sums
        centre = np.stack(
            [np.bincount(owner, weights=weight * design[:, k]) / sums for k in range(_DEGREE)],
            axis=1,
        )
        own, rest = design - centre[owner], target - mean[owner]
        left = own.T @ (own * weight[:, None]) + 1e-3 * len(target) * np.diag([0.01, 0.3, 1.0])
        fitted = np.linalg.solve(left, own.T @ (weight * rest))
        off = np.abs(rest - own @ fitted)
        weight = 1 / (1 + (off / (3 * np.median(off) + 1e-6)) ** 2)
    field = powers @ fitted
    return np.asarray(field - field.max())
