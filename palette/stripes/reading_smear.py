"""How lens, file and thread smear the edges between stripes, and what lies under the smear.

A photograph shows the cloth through a bell (lens, file, threads that wander) and, once the thread
is smoothed out, through a window one pick wide. Both are known or can be measured, so the picture
of any sequence of stripes can be foretold, and colours of narrow stripes can be unmixed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab

__all__ = ["Smear", "foretold", "measured_smear", "unmixed"]

Array = NDArray[np.float64]

_SIGMAS = np.array([0.5, 0.7, 0.9, 1.1, 1.4, 1.7, 2.1, 2.6, 3.2, 4.0])
_USUAL = 1.2
_MOST_EDGES = 30
_CLEAR = 8.0  # CIELAB between stripes whose edge tells the smear


@dataclass(frozen=True, slots=True, kw_only=True)
class Smear:
    """Width of the window and of the bell, in rows.

    Attributes
    ----------
    window : float
        Rows that were averaged: one pick.
    bell : float
        Standard deviation of the bell for lightness.
    colour_bell : float
        The same for the two colour axes of CIELAB; a file often keeps colour more coarsely.
    """

    window: float
    bell: float = _USUAL
    colour_bell: float = _USUAL

    @property
    def reach(self) -> float:
        """Rows beyond which an edge is not felt."""
        return self.window / 2 + 2.2 * max(self.bell, self.colour_bell)


def _passed(distance: Array, window: float, bell: float) -> Array:
    """Step from 0 to 1 at distance 0, seen through window and bell."""
    from scipy import special

    def integral(z: Array) -> Array:
        bell_curve = np.exp(-(z**2) / 2) / np.sqrt(2 * np.pi)
        return np.asarray(z * special.ndtr(z) + bell_curve)

    upper, lower = (distance + window / 2) / bell, (distance - window / 2) / bell
    return (integral(upper) - integral(lower)) * (bell / window)


def foretold(rows: Array, edges: Array, colours: Array, smear: Smear) -> Array:
    """Picture of stripes as it would be seen.

    Parameters
    ----------
    rows : ndarray of shape (rows,)
        Places of the rows' middles.
    edges : ndarray of shape (..., stripes - 1)
        Edges between the stripes; several sets of them may be stacked in front.
    colours : ndarray of shape (stripes, 3)
        Linear sRGB of the stripes.
    smear : Smear

    Returns
    -------
    ndarray of shape (..., rows, 3)
        CIELAB.
    """
    distance = rows[:, None] - edges[..., None, :]
    steps = np.diff(colours, axis=0)
    light = _passed(distance, smear.window, smear.bell) @ steps + colours[0]
    lab = linear_srgb_to_lab(np.maximum(light, 0))
    if abs(smear.colour_bell - smear.bell) > 0.05:
        light = _passed(distance, smear.window, smear.colour_bell) @ steps + colours[0]
        lab[..., 1:] = linear_srgb_to_lab(np.maximum(light, 0))[..., 1:]
    return lab


def measured_smear(lab: Array, edges: Array, colours: Array, window: float) -> Smear:
    """Smear of the edges between wide stripes: the bell under which they are foretold best.

    Parameters
    ----------
    lab : ndarray of shape (height, 3)
    edges : ndarray of shape (stripes + 1,)
    colours : ndarray of shape (stripes, 3)
        Linear sRGB.
    window : float
    """
    widths = np.diff(edges)
    reach = window / 2 + 5.0
    labs = linear_srgb_to_lab(colours)
    inner = [k for k in range(1, len(widths)) if min(widths[k - 1], widths[k]) > window / 2 + reach]
    inner = [k for k in inner if np.linalg.norm(labs[k] - labs[k - 1]) > _CLEAR]
    inner.sort(key=lambda k: -float(np.linalg.norm(labs[k] - labs[k - 1])))
    costs: list[list[list[float]]] = [[], []]
    for k in inner[:_MOST_EDGES]:
        low, high = max(0, int(edges[k] - reach)), min(len(lab), int(edges[k] + reach) + 1)
        rows: Array = np.arange(low, high, dtype=np.float64) + 0.5
        places = (edges[k] + np.arange(-1.5, 1.51, 0.25))[:, None]
        own: list[list[float]] = [[], []]
        for sigma in _SIGMAS:
            smear = Smear(window=window, bell=float(sigma), colour_bell=float(sigma))
            off = (foretold(rows, places, colours[k - 1 : k + 1], smear) - lab[low:high]) ** 2
            own[0].append(float(off[..., 0].sum(axis=1).min()))
            own[1].append(float(off[..., 1:].sum(axis=(1, 2)).min()))
        for kind in (0, 1):
            step = (labs[k] - labs[k - 1])[:1] if kind == 0 else (labs[k] - labs[k - 1])[1:]
            if np.linalg.norm(step) > _CLEAR:
                costs[kind].append([cost / float(step @ step) for cost in own[kind]])
    bell = _lowest(costs[0]) or _lowest(costs[1]) or _USUAL
    return Smear(window=window, bell=bell, colour_bell=_lowest(costs[1]) or bell)


def _lowest(costs: list[list[float]]) -> float | None:
    """Bell of the lowest cost in the median of all edges."""
    if not costs:
        return None
    best = [_SIGMAS[int(np.argmin(own))] for own in costs]
    return float(np.median(best))


def unmixed(light: Array, edges: Array, smear: Smear) -> tuple[Array, Array]:
    """Colours of the stripes under the smear, by least squares over all rows at once.

    Parameters
    ----------
    light : ndarray of shape (height, 3)
        Linear sRGB, evened out and smoothed over a pick.
    edges : ndarray of shape (stripes + 1,)
    smear : Smear

    Returns
    -------
    colours : ndarray of shape (stripes, 3)
        Linear sRGB.
    spread : ndarray of shape (stripes,)
        Variance of each, where that of the mean of one pick is 1.
    """
    rows = np.arange(len(light)) + 0.5
    passed = _passed(rows[:, None] - edges[None, 1:-1], smear.window, smear.bell)
    ones, none = np.ones((len(rows), 1)), np.zeros((len(rows), 1))
    parts = np.hstack([ones, passed]) - np.hstack([passed, none])
    weight = 1 / (light.mean(axis=1) + 0.02) ** (4 / 3)  # about even in lightness
    scaled = parts * weight[:, None]
    inner = parts.T @ parts
    colours = np.linalg.solve(parts.T @ scaled + 1e-9 * np.eye(len(inner)), scaled.T @ light)
    spread = np.diag(np.linalg.inv(inner + 1e-6 * np.eye(len(inner)))) * max(smear.window, 1.0)
    return np.maximum(colours, 0), spread
