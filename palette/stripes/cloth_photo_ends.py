"""Where a cloth begins and ends along its warp: ground, shadow and fringe told from stripes.

The whole picture is cut into pieces first. A piece beyond the end of the cloth goes on to both
sides unchanged, where a stripe stops at the selvedge; a fringe stops there too, but is broken up
into bundles where a stripe is even from side to side.
"""

from __future__ import annotations

import itertools
import warnings
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.stripes.cloth_photo_outline import Outline, beside

__all__ = ["Pieces", "find_ends", "pieces_of"]

Array = NDArray[np.float64]

_TINT, _LIGHT = 0.06, 0.2  # logarithm of light: what still counts as the same ground
_SHADOW = -1.0  # darkest that a shadow makes its ground
_SHADOW_PART = 0.035  # of the height: widest shadow
_UNEVEN, _LEAST_UNEVEN = 1.5, 0.018
_LONE_UNEVEN, _LONE_PICKS = 0.12, 4  # what a fringe must be where no selvedge shows
_NEARLY = 0.6  # part of the bound that is enough where a piece is nearly like the ground
_MOST = 0.42  # of the height that may lie beyond one end
_THIN = 2.5  # picks under which a piece says little by itself
_RIM_PICKS = 6.0  # widest uneven rim of a stripe


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Pieces of a picture along the warp, and what each looks like.

    Attributes
    ----------
    cuts : ndarray of shape (pieces + 1,), int
    tint : ndarray of shape (pieces,)
        Largest difference in tint between inside and outside of a selvedge, of the two the one
        where they are more alike; NaN where no selvedge is in the picture.
    light : ndarray of shape (pieces,)
        Difference in light at the same selvedge.
    uneven : ndarray of shape (pieces,)
        How unlike the parts from side to side are, as standard deviations of the logarithm.
    """

    cuts: NDArray[np.int64]
    tint: Array
    light: Array
    uneven: Array


def pieces_of(cells: Array, outline: Outline, cuts: list[int], pick_cells: float = 1.0) -> Pieces:
    """Look at every piece.

    Parameters
    ----------
    cells : ndarray of shape (cells, height, 3)
        Logarithm of light, evened out; NaN beyond the picture.
    outline : Outline
    cuts : list of int
        Rows at which pieces begin, and the height.
    pick_cells : float
        Cells as wide as a pick is high. What is finer, single ends, does not make a piece uneven.
    """
    sides = [beside(cells, outline, side) for side in ("left", "right")]
    tints, lights, uneven = [], [], []
    for start, stop in itertools.pairwise(cuts):
        trim = min(2, (stop - start - 1) // 3)
        rows = slice(start + trim, stop - trim)
        looks = []
        for side in sides:
            if side is None:
                continue
            with warnings.catch_warnings():
                warnings.simplefilter("ignore", RuntimeWarning)
                change = np.nanmedian(side[0][rows] - side[1][rows], axis=0)
            if np.isfinite(change).all():
                tint = float(np.abs(change - change.mean()).max())
                looks.append((max(tint, abs(float(change.mean())) / 3), tint, float(change.mean())))
        # a stripe stops at both selvedges; a joint of boards may lie under one of them
        _, tint, light = min(looks, default=(np.nan, np.nan, np.nan))
        tints.append(tint)
        lights.append(light)
        uneven.append(
            _unevenness(cells[:, rows], outline, (start + stop) / 2 / cells.shape[1], pick_cells)
        )
    return Pieces(
        cuts=np.array(cuts),
        tint=np.array(tints),
        light=np.array(lights),
        uneven=np.array(uneven),
    )


def _unevenness(part: Array, outline: Outline, middle: float, pick_cells: float) -> float:
    """Spread from side to side of the mean over a piece, slow changes left out."""
    from scipy import ndimage

    left, right = 2.0, len(part) - 2.0
    for side in ("left", "right"):
        place = outline.at(side, 1001)
        if place is not None and side == "left":
            left = place[int(1000 * middle)] + 3
        elif place is not None:
            right = place[int(1000 * middle)] - 3
    inside = part[max(0, int(left)) : max(int(right), int(left) + 4)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        mean = np.nanmean(inside, axis=1)
    mean = mean[np.isfinite(mean).all(axis=1)]
    if len(mean) < 12:
        return 0.0
    even = ndimage.gaussian_filter1d(mean, 1.2 * pick_cells, axis=0, mode="nearest")
    quick = even - ndimage.gaussian_filter1d(even, 9, axis=0, mode="nearest")
    return float(np.sqrt((quick**2).mean(axis=0).sum() / 3))


def find_ends(pieces: Pieces, period: float) -> tuple[int | None, int | None]:
    """Rows at which the cloth begins and ends.

    Parameters
    ----------
    pieces : Pieces
    period : float
        Rows of a pick.

    Returns
    -------
    tuple of 2 (int or None)
        None where the cloth runs out of the picture.

    Examples
    --------
    >>> two = Pieces(cuts=np.array([0, 20, 90, 100]), tint=np.array([0.0, 0.4, 0.0]),
    ...     light=np.zeros(3), uneven=np.zeros(3))
    >>> find_ends(two, 4.0)
    (20, 90)
    """
    kinds = _kinds(pieces, period)
    height = int(pieces.cuts[-1])
    count = len(kinds)
    first = _walk(kinds, pieces, range(count), height)
    last = _walk(kinds, pieces, range(count - 1, -1, -1), height)
    top = None if first is None else int(pieces.cuts[first + 1])
    bottom = None if last is None else int(pieces.cuts[last])
    if top is not None and bottom is not None and bottom - top < 0.1 * height:
        return None, None
    return top, bottom


def _kinds(pieces: Pieces, period: float) -> list[str]:
    """Say what every piece looks like by itself: ground, shadow, fringe, frayed, thin, cloth."""
    widths = np.diff(pieces.cuts)
    height = pieces.cuts[-1]
    middles = (pieces.cuts[:-1] + pieces.cuts[1:]) / 2 / height
    picks = np.maximum(widths / max(period, 2.0), 0.5)
    central = (middles > 0.25) & (middles < 0.75) & (picks >= 1)
    sides = bool(np.isfinite(pieces.tint).any())
    bounds = [_bound(pieces.uneven[central], picks[central], own, sides) for own in picks]
    first, last = float(pieces.light[0]), float(pieces.light[-1])
    found: list[str] = []
    for k, width in enumerate(widths):
        lamp = first if middles[k] < 0.5 else last
        lamp = lamp if abs(lamp) < 2 * _LIGHT else 0.0
        light = pieces.light[k] - lamp
        outermost = k in (0, len(widths) - 1) and pieces.tint[k] < 2 * _TINT
        if outermost and abs(pieces.light[k]) < 2 * _LIGHT:
            found.append("ground")
            continue
        alike = bool(pieces.tint[k] < _TINT)
        nearly = bool(pieces.tint[k] < 2 * _TINT and abs(light) < _LIGHT)
        if alike and abs(light) < _LIGHT:
            found.append("ground")
        elif pieces.uneven[k] > bounds[k] * (_NEARLY if nearly else 1):
            found.append("fringe" if picks[k] >= _THIN else "frayed")
        elif alike and _SHADOW < light < 0 and width < _SHADOW_PART * height:
            found.append("shadow")
        elif width < _THIN * max(period, 2.0):
            found.append("thin")
        else:
            found.append("cloth")
    return [_rim(found, pieces, picks, k) for k in range(len(found))]


def _rim(kinds: list[str], pieces: Pieces, picks: Array, number: int) -> str:
    """Take an uneven narrow piece that looks like a stripe for one: a fringe shows the ground."""
    if kinds[number] not in ("fringe", "frayed") or picks[number] >= _RIM_PICKS:
        return kinds[number]
    stripes = np.array([kind == "cloth" for kind in kinds])
    tint = np.abs(pieces.tint - pieces.tint[number]) < _TINT
    light = np.abs(pieces.light - pieces.light[number]) < _LIGHT / 2
    return "cloth" if (stripes & tint & light).any() else kinds[number]


def _bound(uneven: Array, picks: Array, own: float, sides: bool) -> float:
    """Unevenness above which a piece of this many picks is no stripe.

    The weave itself is uneven in narrow pieces; pieces in the middle of the cloth that are about
    as wide, or wider, say how much.
    """
    if not len(picks):
        return _LEAST_UNEVEN
    if not sides:
        return _LONE_UNEVEN if own >= _LONE_PICKS else np.inf
    alike = picks >= min(0.6 * own, float(np.sort(picks)[-3:].min()))
    return max(_UNEVEN * float(uneven[alike].max()), _LEAST_UNEVEN)


def _walk(kinds: list[str], pieces: Pieces, order: range, height: int) -> int | None:
    """Last piece, from one end inward, that lies beyond the cloth: ground, shadow, fringe."""
    last, fringed = None, False
    for number in order:
        near = pieces.cuts[number + 1] if order.step > 0 else height - pieces.cuts[number]
        kind = kinds[number]
        if kind == "cloth" or near > _MOST * height or (fringed and kind == "ground"):
            break
        if kind in ("ground", "fringe") or (kind == "frayed" and last == number - order.step):
            last = number
        fringed = fringed or kind == "fringe"
    if last is None:
        return None
    following = last + order.step
    if 0 <= following < len(kinds) and kinds[following] == "shadow" and not fringed:
        return following
    return last
