"""The sequence of stripes in a profile: cuts, yarns and widths, each telling on the others."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_light import DARKEST
from palette.stripes.reading_apart import told_apart
from palette.stripes.reading_explain import explained
from palette.stripes.reading_light import light_from_slopes, light_from_stripes
from palette.stripes.reading_segments import cut, edges_between, running_mean
from palette.stripes.reading_settle import Explanation, Seen
from palette.stripes.reading_smear import measured_smear, unmixed
from palette.stripes.reading_threads import Threads
from palette.stripes.reading_yarns import same_yarns

__all__ = ["Sequence", "find_sequence"]

Array = NDArray[np.float64]

_PRICE = 16.0
_TURNS = 3
_ROUNDS = 2
_SLIVER, _MIXED = 1.0, 2.6  # picks under which the last of a cloth is no stripe
_GROUND_LIKE = 2.0  # CIELAB to what the cloth lies on, under which it is none either
_LEAST_ROWS = 3.0  # rows in place of a pick where picks cannot be told
_FLOOR = np.array([0.8, 0.45, 0.45])  # noise of one pick in CIELAB that is always allowed for
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
    field : ndarray of shape (rows,)
        Logarithm of the light along the cloth.
    first_row : int
        Row of the profile at which `field`, `seen` and `explanation` begin.
    seen : Seen
        What was explained.
    explanation : Explanation
        The stripes as they explain it, with what lies beyond the cloth.
    first_stripe : int
        Number in the explanation of the first stripe of the cloth.
    """

    edges: Array
    yarns: tuple[int, ...]
    labs: Array
    yarn_labs: Array
    noise_lab: Array
    rows_per_pick: float
    field: Array
    first_row: int
    seen: Seen
    explanation: Explanation
    first_stripe: int

    def colours_of(self, smooth: Array) -> Array:
        """CIELAB of each stripe in another whole profile (logarithm of light)."""
        cuts = np.rint(self.edges - self.first_row).astype(int).tolist()
        blind = max(1, int(np.ceil(max(self.rows_per_pick, 2.0) / 2)))
        own = smooth[self.first_row : self.first_row + len(self.field)]
        return _colours(_lab(own - self.field[:, None]), cuts, blind)


def find_sequence(
    rows: Array, threads: Threads, ends: tuple[int | None, int | None] = (None, None)
) -> Sequence:
    """Cut a profile into stripes and say which are the same yarn.

    Parameters
    ----------
    rows : ndarray of shape (height, 3)
        Logarithm of light along the warp; the light across evened out.
    threads : Threads
        Spacing of the picks.
    ends : tuple of 2 (int or None)
        Rows at which the cloth begins and ends where what it lies on is in the picture.
    """
    width = threads.window
    blind = max(1, int(np.ceil(width / 2)))
    margin = 2 * blind + 4 + round(width)
    top = 0 if ends[0] is None else max(0, ends[0] - margin)
    bottom = len(rows) if ends[1] is None else min(len(rows), ends[1] + margin)
    inner = (None if ends[0] is None else ends[0] - top, None if ends[1] is None else ends[1] - top)
    smooth = np.log(running_mean(np.exp(rows), width))[top:bottom]
    core = smooth[inner[0] : inner[1]]
    field = _continued(light_from_slopes(core, max(2, round(width))), inner, len(smooth))
    thin = max(1.5 * width, 2 * blind + 1.5, 4.5)
    for turn in range(_TURNS):
        lab = _lab(smooth - field[:, None])
        noise = _noise(lab[inner[0] : inner[1]], max(2, round(width)))
        cuts = cut(lab / noise, max(width, 2.0), _PRICE, blind)
        cuts = _without_ramps(_light(smooth - field[:, None]), cuts, thin, blind)
        cuts = _one_ground(cuts, inner)
        if len(cuts) <= 2:
            break
        field = light_from_stripes(smooth, cuts, _grounded(range(len(cuts) - 1), inner), blind)
        labs = _colours(_lab(smooth - field[:, None]), cuts, blind)
        yarns, _ = same_yarns(labs, np.diff(cuts).astype(float))
        if turn:
            field = light_from_stripes(smooth, cuts, _grounded(yarns, inner), blind)
    light = _light(smooth - field[:, None])
    edges = edges_between(light, cuts, _colours(light, cuts, blind), width + 2)
    seen = (inner[0] is not None, inner[1] is not None)
    now, ready = _explained(light, edges, noise, max(width, 2.0), blind, seen)
    keep = _shown(now, max(threads.window, _LEAST_ROWS))
    kept = now.yarns[keep]
    return Sequence(
        edges=now.edges[keep.start : keep.stop + 1] + top,
        yarns=tuple(_numbered(kept)),
        labs=linear_srgb_to_lab(now.colours[keep]),
        yarn_labs=linear_srgb_to_lab(
            np.array([now.yarn_light[yarn] for yarn in dict.fromkeys(kept)])
        ),
        noise_lab=noise,
        rows_per_pick=threads.counted,
        field=field,
        first_row=top,
        seen=ready,
        explanation=now,
        first_stripe=keep.start,
    )


def _shown(now: Explanation, pick: float) -> slice:
    """Stripes of the cloth: without the ground, and slivers at its ends.

    A sliver that the picture cuts off, and one beside the ground in a colour that the cloth has
    nowhere else: there stripe and ground mix, or the cloth casts its shadow. Nor is it a stripe
    if its colour is that of the ground.
    """
    first, last = int(now.yarns[0] < 0), len(now.yarns) - int(now.yarns[-1] < 0)
    if last - first <= 3:
        return slice(first, last)
    widths = np.diff(now.edges) / pick
    lost = []
    labs = linear_srgb_to_lab(now.colours)
    for stripe, grounded in ((first, first > 0), (last - 1, last < len(widths))):
        once = now.yarns.count(now.yarns[stripe]) == 1
        beyond = labs[first - 1 if stripe == first else last % len(labs)]
        if grounded and once and np.linalg.norm(labs[stripe] - beyond) < _GROUND_LIKE:
            lost.append(True)
            continue
        bound = (_MIXED if once else 0.0) if grounded else _SLIVER
        lost.append(bool(widths[stripe] < bound))
        if lost[-1] and grounded:  # the true end lies within it
            middle = (now.edges[stripe] + now.edges[stripe + 1]) / 2
            now.edges[stripe + 1 if stripe == first else stripe] = middle
    return slice(first + int(lost[0]), last - int(lost[1]))


def _continued(field: Array, inner: tuple[int | None, int | None], height: int) -> Array:
    """Light of the cloth, its ends kept on beyond it."""
    start = inner[0] or 0
    return np.pad(field, (start, height - start - len(field)), mode="edge")


def _one_ground(cuts: list[int], inner: tuple[int | None, int | None]) -> list[int]:
    """Make what lies beyond an end one piece; cuts close to the end are the end."""
    start, stop = inner
    kept = list(cuts)
    if start is not None:
        near = min((c for c in kept[1:-1]), key=lambda c: abs(c - start), default=start)
        end = near if abs(near - start) < 0.7 * start else start
        kept = [0, end, *(c for c in kept if c > end)]
    if stop is not None:
        near = min((c for c in kept[1:-1]), key=lambda c: abs(c - stop), default=stop)
        end = near if abs(near - stop) < 0.7 * (kept[-1] - stop) else stop
        kept = [*(c for c in kept if c < end), end, kept[-1]]
    return kept


def _grounded(yarns: Iterable[int], inner: tuple[int | None, int | None]) -> list[int]:
    """Yarns with the ground at either end marked -1."""
    marked = list(yarns)
    if inner[0] is not None:
        marked[0] = -1
    if inner[1] is not None:
        marked[-1] = -1
    return marked


def _explained(
    light: Array,
    edges: Array,
    noise: Array,
    window: float,
    blind: int,
    grounds: tuple[bool, bool],
) -> tuple[Explanation, Seen]:
    """Unmix the colours, tell the yarns apart and find the sequence that explains them best."""
    lab = linear_srgb_to_lab(light)
    for _ in range(_ROUNDS):
        cuts = np.rint(edges).astype(int).tolist()
        smear = measured_smear(lab, edges, _colours(light, cuts, blind), window)
        colours, spread = unmixed(light, edges, smear)
        now = told_apart(colours, spread, edges, noise, grounds)
        seen = Seen.of(lab, noise, smear)
        now = explained(seen, now)
        edges = now.edges
    return now, seen


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
