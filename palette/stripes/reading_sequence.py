"""The sequence of stripes in a profile: cuts, yarns and widths, each telling on the others."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_light import DARKEST
from palette.stripes.reading_explain import Explanation, Seen, explained, joined
from palette.stripes.reading_light import light_from_slopes, light_from_stripes
from palette.stripes.reading_segments import cut, edges_between, pick_period, running_mean
from palette.stripes.reading_smear import measured_smear, unmixed
from palette.stripes.reading_yarns import same_yarns, yarn_distance

__all__ = ["Sequence", "find_sequence"]

Array = NDArray[np.float64]

_PRICE = 16.0
_TURNS = 3
_ROUNDS = 2
_CLEAR = 0.45  # variance, in units of a pick's, up to which a stripe's own colour is clear
_FLOOR = np.array([0.8, 0.45, 0.45])  # noise of one pick in CIELAB that is always allowed for
_THREAD_SEEN = 0.15
_PASSAGE = 2.0  # CIELAB: a passage lies between its neighbours in every channel, within this


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

    def colours_of(self, smooth: Array) -> Array:
        """CIELAB of each stripe in another profile of the same rows (logarithm of light)."""
        cuts = np.rint(self.edges).astype(int).tolist()
        blind = max(1, int(np.ceil(max(self.rows_per_pick, 2.0) / 2)))
        return _colours(_lab(smooth - self.field[:, None]), cuts, blind)


def find_sequence(rows: Array, ends_seen: tuple[bool, bool] = (False, False)) -> Sequence:
    """Cut a profile into stripes and say which are the same yarn.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light along the warp; the light across evened out.
    ends_seen : tuple of 2 bool
        Whether the profile begins and ends where the cloth does. A sliver there in a colour of
        its own is the edge of what the cloth lies on.
    """
    period, strength = pick_period(rows)
    seen = strength > _THREAD_SEEN
    width = period if seen else 2.0
    smooth = np.log(running_mean(np.exp(rows), width))
    field = light_from_slopes(smooth, max(2, round(width)))
    blind = max(1, int(np.ceil(width / 2)))
    thin = max(1.5 * width, 2 * blind + 1.5, 4.5)
    for turn in range(_TURNS):
        lab = _lab(smooth - field[:, None])
        noise = _noise(lab, max(2, round(width)))
        cuts = cut(lab / noise, max(width, 2.0), _PRICE, blind)
        cuts = _without_ramps(_light(smooth - field[:, None]), cuts, thin, blind)
        labs = _colours(lab, cuts, blind)
        apart = list(range(len(cuts) - 1))
        if len(cuts) > 2:
            field = light_from_stripes(smooth, cuts, apart, blind)
            labs = _colours(_lab(smooth - field[:, None]), cuts, blind)
        yarns, limit = same_yarns(labs, np.diff(cuts).astype(float))
        if turn and len(cuts) > 2:
            field = light_from_stripes(smooth, cuts, yarns, blind)
    flat = smooth - field[:, None]
    cuts, yarns, limit = _settled(flat, cuts, thin, blind)
    light = _light(flat)
    edges = edges_between(light, cuts, _colours(light, cuts, blind), width + 2)
    now = _explained(light, edges, noise, max(width, 2.0), blind)
    keep = _without_slivers(now.edges, now.yarns, width if seen else 2.5, ends_seen)
    kept = list(now.yarns[keep])
    labs = linear_srgb_to_lab(now.colours[keep])
    edges = now.edges[keep.start : keep.stop + 1]
    yarns = _numbered(kept)
    return Sequence(
        edges=edges,
        yarns=tuple(yarns),
        labs=labs,
        yarn_labs=linear_srgb_to_lab(
            np.array([now.yarn_light[yarn] for yarn in dict.fromkeys(kept)])
        ),
        noise_lab=noise,
        rows_per_pick=period if seen else 0.0,
        field=field,
        limit=limit,
    )


def _explained(
    light: Array, edges: Array, noise: Array, window: float, blind: int
) -> Explanation:
    """Unmix the colours, tell the yarns apart and find the sequence that explains them best."""
    lab = linear_srgb_to_lab(light)
    for _ in range(_ROUNDS):
        cuts = np.rint(edges).astype(int).tolist()
        smear = measured_smear(lab, edges, _colours(light, cuts, blind), window)
        colours, spread = unmixed(light, edges, smear)
        now = _told_apart(colours, spread, edges, noise)
        now = explained(Seen.of(lab, noise, smear), now)
        edges = now.edges
    return now


def _told_apart(colours: Array, spread: Array, edges: Array, noise: Array) -> Explanation:
    """Yarns of the stripes: clear stripes first, then those that lens and file have smeared."""
    labs = linear_srgb_to_lab(colours)
    weights = 1 / (spread + 0.05)
    clear = np.flatnonzero(spread <= max(_CLEAR, float(np.quantile(spread, 0.3))))
    found, limit = same_yarns(labs[clear], weights[clear])
    owner = np.full(len(labs), -1)
    owner[clear] = found
    means = _by_yarn(labs[clear], weights[clear], found)
    strange = []
    for k in np.flatnonzero(owner < 0):
        apart = yarn_distance(np.vstack([labs[k], means]))[0, 1:]
        allowed = max(limit, 3 * float(np.linalg.norm(noise)) * np.sqrt(spread[k]))
        if apart.min() < allowed:
            owner[k] = int(apart.argmin())
        else:
            strange.append(k)
    if strange:
        more, _ = same_yarns(labs[strange], weights[strange], limit)
        owner[strange] = np.array(more) + len(means)
    yarns = owner.tolist()
    yarn_light = {
        yarn: np.average(colours[owner == yarn], axis=0, weights=weights[owner == yarn])
        for yarn in sorted(set(yarns))
    }
    own = (1 / (1 + 3 * spread))[:, None]
    typical = np.array([yarn_light[yarn] for yarn in yarns])
    start = Explanation(
        edges=edges, yarns=yarns, colours=own * colours + (1 - own) * typical,
        yarn_light=yarn_light,
    )
    return joined(start)


def _settled(
    flat: Array, cuts: list[int], thin: float, blind: int
) -> tuple[list[int], list[int], float]:
    """Drop passages and join neighbours of one yarn until nothing changes."""
    light, lab = _light(flat), _lab(flat)
    while True:
        before = len(cuts)
        cuts = _without_ramps(light, cuts, thin, blind)
        labs = _colours(lab, cuts, blind)
        yarns, limit = same_yarns(labs, np.diff(cuts).astype(float))
        cuts, yarns = _joined(cuts, yarns)
        if len(cuts) == before:
            return cuts, yarns, limit


def _without_slivers(
    edges: Array, yarns: list[int], pick: float, ends_seen: tuple[bool, bool]
) -> slice:
    """Stripes that are left when a sliver of the ground is taken from either end.

    A sliver is narrower than a pick and a bit, or a little wider in a colour of its own.
    """
    first, last = 0, len(yarns)
    inner = set(yarns[1:-1])
    slim, thin = 1.35 * pick, max(1.5 * pick, 9.0)
    if len(yarns) > 3:
        widths = np.diff(edges)
        first = int(ends_seen[0] and widths[0] < (slim if yarns[0] in inner else thin))
        last -= int(ends_seen[1] and widths[-1] < (slim if yarns[-1] in inner else thin))
    return slice(first, last)


def _numbered(yarns: list[int]) -> list[int]:
    """Numbers in order of first appearance."""
    order = {yarn: rank for rank, yarn in enumerate(dict.fromkeys(yarns))}
    return [order[yarn] for yarn in yarns]


def _light(logarithms: Array) -> Array:
    return np.maximum(np.exp(logarithms) - DARKEST, 0)


def _lab(logarithms: Array) -> Array:
    return linear_srgb_to_lab(_light(logarithms))


def _noise(lab: Array, lag: int) -> Array:
    """Noise of one pick, from the calmer part of the changes from pick to pick."""
    change = np.abs(lab[lag:] - lab[:-lag])
    return np.asarray(np.maximum(np.quantile(change, 0.3, axis=0) / 0.545, _FLOOR))


def _colours(profile: Array, cuts: list[int], blind: int) -> Array:
    """Median colour of each stripe away from its edges."""
    colours = []
    for start, stop in itertools.pairwise(cuts):
        trim = min(blind, max(0, (stop - start - 1) // 2))
        inside = profile[start + trim : max(stop - trim, start + trim + 1)]
        colours.append(np.median(inside, axis=0))
    return np.array(colours)


def _without_ramps(light: Array, cuts: list[int], thin: float, blind: int) -> list[int]:
    """Drop thin stripes that are only the passage from one colour to the next.

    Parameters
    ----------
    light : ndarray of shape (height, 3)
        Light (not its logarithm): a lens mixes light.
    cuts : list of int
    thin : float
        Rows under which a stripe may be a passage.
    blind : int
        Rows beside a cut that do not count.
    """
    kept = list(cuts)
    number = 1
    while number < len(kept) - 2:
        start, stop = kept[number], kept[number + 1]
        before, here, after = _colours(light, kept[number - 1 : number + 3], blind)
        way = after - before
        part = float(np.clip((here - before) @ way / (float(way @ way) + 1e-12), 0, 1))
        labs = linear_srgb_to_lab(np.stack([before, here, after]))
        low, high = np.minimum(labs[0], labs[2]), np.maximum(labs[0], labs[2])
        between = ((labs[1] > low - _PASSAGE) & (labs[1] < high + _PASSAGE)).all()
        if stop - start < thin and between:
            kept[number : number + 2] = [round(stop - (stop - start) * part)]
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
