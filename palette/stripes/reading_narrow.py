"""Stripes of a pick or two: what lens, thread and file have smeared, explained by the known yarns.

A stripe narrower than the smear never shows its own colour. Where the cutting has found only
strange colours between two wide stripes, every short sequence of yarns known from elsewhere in the
cloth is smeared in the same way and laid against the picture; the one that fits best is taken.
"""

from __future__ import annotations

from itertools import combinations, pairwise, product

import numpy as np
from numpy.typing import NDArray

__all__ = ["explain_narrow", "smear_of"]

Array = NDArray[np.float64]

_MOST = 2  # stripes tried between two anchors
_REACH = 26.0  # rows between anchors above which nothing is tried
_PRICE = 6.0
_STRANGE = 14.0  # price of a colour that no wide stripe has
_SIGMAS = np.array([0.7, 1.0, 1.4, 1.9, 2.5, 3.2])


def _step(distance: Array) -> Array:
    """Step smeared by a bell: from 0 to 1 at distance 0, in units of its width."""
    from scipy import special

    return np.asarray(special.ndtr(distance))


def _smeared(rows: Array, edges: Array, colours: Array, sigma: Array) -> Array:
    """Profile of stripes with these edges; shape (rows, 3), or with edges stacked in front."""
    at = rows[:, None] - edges[..., None, :]
    steps = np.diff(colours, axis=0)
    parts = [_step(at / sigma[c]) @ steps[:, c] + colours[0, c] for c in range(3)]
    return np.stack(parts, axis=-1)


def smear_of(lab: Array, cuts: list[int], labs: Array, wide: float) -> Array:
    """Width of the bell that smears edges, in rows: lightness, and twice the colour's.

    Taken from edges between wide stripes; a JPEG often smears colour more than lightness.
    """
    best: list[list[float]] = [[], []]
    for k in range(1, len(cuts) - 1):
        if min(cuts[k] - cuts[k - 1], cuts[k + 1] - cuts[k]) < wide:
            continue
        reach = int(wide / 2) + 1
        rows = np.arange(max(cuts[k] - reach, 0), min(cuts[k] + reach, len(lab)))
        for kind, channels in enumerate(([0], [1, 2])):
            pair = labs[k - 1 : k + 1][:, channels]
            if np.linalg.norm(pair[1] - pair[0]) < 8:
                continue
            costs = []
            for sigma in _SIGMAS:
                moves = cuts[k] - 0.5 + np.arange(-2, 2.1, 0.25)
                part = _step((rows[None, :] - moves[:, None]) / sigma)[..., None]
                model = pair[0] + part * (pair[1] - pair[0])
                off = ((lab[rows][:, channels] - model) ** 2).sum(axis=(1, 2))
                costs.append(float(off.min()))
            best[kind].append(float(_SIGMAS[int(np.argmin(costs))]))
    lightness = float(np.median(best[0])) if best[0] else 1.4
    colour = float(np.median(best[1])) if best[1] else 1.4 * lightness
    return np.array([lightness, colour, colour])


def explain_narrow(
    lab: Array, noise: Array, cuts: list[int], yarns: list[int], labs: Array, per_pick: float
) -> tuple[list[int], list[int]]:
    """Replace strange narrow stripes by sequences of known yarns where those explain the picture.

    Parameters
    ----------
    lab : ndarray of shape (height, 3)
        CIELAB row by row, the light evened out.
    noise : ndarray of shape (3,)
    cuts, yarns : lists of int
        Stripes as found.
    labs : ndarray of shape (stripes, 3)
    per_pick : float
        Rows of a pick (or of the least that can be seen).
    """
    widths = np.diff(cuts).astype(float)
    wide = max(3.2 * per_pick, 8.0)
    known = sorted({yarn for yarn, width in zip(yarns, widths, strict=True) if width >= wide})
    if not known or len(known) == len(set(yarns)):
        return cuts, yarns
    owner = np.array(yarns)
    colour = {yarn: np.median(labs[(owner == yarn) & (widths >= wide)], axis=0) for yarn in known}
    sigma = smear_of(lab, cuts, labs, wide)
    new_cuts, new_yarns = [0], [yarns[0]]
    k = 1
    while k < len(yarns):
        group = _group(k, yarns, widths, colour, wide)
        if group is None:
            new_cuts.append(cuts[k])
            new_yarns.append(yarns[k])
            k += 1
            continue
        inner, edges = _best(lab, noise, cuts, yarns, labs, colour, sigma, (k, group), per_pick)
        new_yarns += [*inner, yarns[group]]
        new_cuts += [round(edge) for edge in edges]
        k = group + 1
    return [*new_cuts, cuts[-1]], new_yarns


def _group(
    k: int, yarns: list[int], widths: Array, colour: dict[int, Array], wide: float
) -> int | None:
    """Stripe that ends a run of narrow stripes with a strange colour among them, or None."""
    if yarns[k - 1] not in colour or (yarns[k] in colour and widths[k] >= 0.6 * wide):
        return None
    stop, strange, rows = k, False, 0.0
    while stop < len(yarns) - 1 and (yarns[stop] not in colour or widths[stop] < 0.4 * wide):
        strange |= yarns[stop] not in colour
        rows += widths[stop]
        stop += 1
    if not strange or yarns[stop] not in colour or rows > _REACH or stop == k:
        return None
    return stop


def _best(
    lab: Array,
    noise: Array,
    cuts: list[int],
    yarns: list[int],
    labs: Array,
    colour: dict[int, Array],
    sigma: Array,
    run: tuple[int, int],
    per_pick: float,
) -> tuple[list[int], list[float]]:
    """Yarns between two anchors and the edges before each and after the last."""
    k, stop = run
    low, high = cuts[k], cuts[stop]
    margin = int(np.ceil(2 * sigma.max())) + 1
    rows = np.arange(max(low - margin, 0), min(high + margin, len(lab)), dtype=float)
    seen = lab[rows.astype(int)]
    ends = (colour[yarns[k - 1]], colour[yarns[stop]])
    scale = noise * 1.3
    own = np.vstack([ends[0], labs[k:stop], ends[1]])
    model = _smeared(rows, np.array(cuts[k : stop + 1]) - 0.5, own, sigma * 0.6)
    strangers = sum(yarn not in colour for yarn in yarns[k:stop])
    cost = float((((seen - model) / scale) ** 2).sum()) / per_pick
    best = (cost + _PRICE * (stop - k) + _STRANGE * strangers, yarns[k:stop], cuts[k : stop + 1])
    grid = np.arange(low - 2, high + 2.1, 0.5 if high - low < 12 else 1.0)
    for count in range(_MOST + 1):
        if count == 0 and yarns[k - 1] == yarns[stop]:
            continue
        places = np.array(list(combinations(grid, count + 1)))
        least = 1.2 * per_pick if per_pick > 2.5 else 2.0
        if count:
            places = places[(np.diff(places, axis=1) >= least).all(axis=1)]
        for inner in product(colour, repeat=count):
            chain = [yarns[k - 1], *inner, yarns[stop]]
            if not len(places) or any(a == b for a, b in pairwise(chain)):
                continue
            colours = np.array([ends[0], *(colour[yarn] for yarn in inner), ends[1]])
            off = (seen - _smeared(rows, places, colours, sigma)) / scale
            costs = (off**2).sum(axis=(1, 2)) / per_pick + _PRICE * count
            lowest = int(costs.argmin())
            if costs[lowest] < best[0]:
                best = (float(costs[lowest]), list(inner), (places[lowest] + 0.5).tolist())
    return list(best[1]), [float(edge) for edge in best[2]]
