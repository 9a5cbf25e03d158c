"""The sequence of stripes in a profile: cuts, yarns and widths, each telling on the others."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_light import DARKEST
from palette.stripes.reading_light import light_from_slopes, light_from_stripes
from palette.stripes.reading_segments import cut, edges_between, pick_period, running_mean
from palette.stripes.reading_yarns import same_yarns

__all__ = ["Sequence", "find_sequence"]

Array = NDArray[np.float64]

_PRICE = 16.0
_TURNS = 3
_FLOOR = np.array([0.8, 0.45, 0.45])  # noise of one pick in CIELAB that is always allowed for
_THREAD_SEEN = 0.15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sequence:
    """Stripes in one profile, in rows of the picture.

    Attributes
    ----------
    edges : ndarray of shape (stripes + 1,)
        Where stripes begin, to a part of a row.
    yarns : tuple of int
        Yarn of each stripe, numbered in order of first appearance.
    labs : ndarray of shape (stripes, 3)
        CIELAB of each stripe, the light evened out to its brightest.
    yarn_labs : ndarray of shape (yarns, 3)
        CIELAB of each yarn.
    noise_lab : ndarray of shape (3,)
        Noise of the colour of one pick.
    rows_per_pick : float
        0 where the thread cannot be seen.
    field : ndarray of shape (height,)
        Logarithm of the light along the cloth.
    limit : float
        Distance above which two colours count as two yarns.
    """

    edges: Array
    yarns: tuple[int, ...]
    labs: Array
    yarn_labs: Array
    noise_lab: Array
    rows_per_pick: float
    field: Array
    limit: float


def find_sequence(rows: Array) -> Sequence:
    """Cut a profile into stripes and say which are the same yarn.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light along the warp; the light across evened out.
    """
    period, strength = pick_period(rows)
    seen = strength > _THREAD_SEEN
    width = period if seen else 2.0
    smooth = np.log(running_mean(np.exp(rows), width))
    field = light_from_slopes(smooth, max(2, round(width)))
    blind = max(1, int(np.ceil(width / 2)))
    price = _PRICE
    for turn in range(_TURNS):
        lab = _lab(smooth - field[:, None])
        noise = _noise(lab, max(2, round(width)))
        cuts = cut(lab / noise, max(width, 2.0), price, blind)
        cuts = _without_ramps(lab, noise, cuts, width, blind)
        labs = _colours(lab, cuts, blind)
        apart = list(range(len(cuts) - 1))
        if len(cuts) > 2:
            field = light_from_stripes(smooth, cuts, apart, blind)
            labs = _colours(_lab(smooth - field[:, None]), cuts, blind)
        yarns, limit = same_yarns(labs, np.diff(cuts).astype(float))
        if turn and len(cuts) > 2:
            field = light_from_stripes(smooth, cuts, yarns, blind)
    lab = _lab(smooth - field[:, None])
    labs = _colours(lab, cuts, blind)
    yarns, limit = same_yarns(labs, np.diff(cuts).astype(float))
    cuts, yarns = _joined(cuts, yarns)
    labs = _colours(lab, cuts, blind)
    light = np.maximum(np.exp(smooth - field[:, None]) - DARKEST, 0)
    yarn_labs = _by_yarn(labs, np.diff(cuts).astype(float), yarns)
    seen_light = _colours(light, cuts, blind)
    edges = edges_between(light, cuts, seen_light, width + 2)
    return Sequence(
        edges=edges,
        yarns=tuple(yarns),
        labs=labs,
        yarn_labs=yarn_labs,
        noise_lab=noise,
        rows_per_pick=period if seen else 0.0,
        field=field,
        limit=limit,
    )


def _lab(logarithms: Array) -> Array:
    return linear_srgb_to_lab(np.maximum(np.exp(logarithms) - DARKEST, 0))


def _noise(lab: Array, lag: int) -> Array:
    """Noise of one pick, from the calmer part of the changes from pick to pick."""
    change = np.abs(lab[lag:] - lab[:-lag])
    return np.maximum(np.quantile(change, 0.3, axis=0) / 0.545, _FLOOR)


def _colours(profile: Array, cuts: list[int], blind: int) -> Array:
    """Median colour of each stripe away from its edges."""
    colours = []
    for start, stop in zip(cuts[:-1], cuts[1:], strict=True):
        trim = min(blind, max(0, (stop - start - 1) // 2))
        colours.append(np.median(profile[start + trim : stop - trim], axis=0))
    return np.array(colours)


def _without_ramps(lab: Array, noise: Array, cuts: list[int], width: float, blind: int) -> list[int]:
    """Drop thin stripes that are only the passage from one colour to the next."""
    kept = list(cuts)
    number = 1
    while number < len(kept) - 2:
        start, stop = kept[number], kept[number + 1]
        colours = _colours(lab, kept[number - 1 : number + 3], blind)
        way = (colours[2] - colours[0]) / noise
        here = (colours[1] - colours[0]) / noise
        size = float(way @ way)
        part = float(here @ way) / size if size > 0 else 0.0
        beside = float(np.linalg.norm(here - part * way))
        thin = stop - start < 1.5 * width + 1
        if thin and 0.08 < part < 0.92 and beside < 0.12 * np.sqrt(size) + 1.5 and size > 9:
            kept[number : number + 2] = [round(start + (1 - part) * 0 + (stop - start) * (1 - part))]
        else:
            number += 1
    return kept


def _joined(cuts: list[int], yarns: list[int]) -> tuple[list[int], list[int]]:
    """Join neighbours of the same yarn."""
    starts = [k for k in range(len(yarns)) if k == 0 or yarns[k] != yarns[k - 1]]
    return [cuts[k] for k in starts] + [cuts[-1]], [yarns[k] for k in starts]


def _by_yarn(labs: Array, widths: Array, yarns: list[int]) -> Array:
    """Colour of each yarn: mean over its stripes, wide ones counting more."""
    owner = np.array(yarns)
    return np.array(
        [
            np.average(labs[owner == yarn], axis=0, weights=widths[owner == yarn])
            for yarn in range(owner.max() + 1)
        ]
    )
