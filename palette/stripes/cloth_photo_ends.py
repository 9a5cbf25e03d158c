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

_TINT, _LIGHT = 0.11, 0.28  # logarithm of light: what still counts as the same ground
_SHADOW = -1.0  # darkest that a shadow makes its ground
_SHADOW_PART = 0.035  # of the height: widest shadow
_UNEVEN, _LEAST_UNEVEN = 1.5, 0.07
_MOST = 0.42  # of the height that may lie beyond one end
_THIN = 2.5  # picks under which a piece says little by itself


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Pieces of a picture along the warp, and what each looks like.

    Attributes
    ----------
    cuts : ndarray of shape (pieces + 1,), int
    tint : ndarray of shape (pieces,)
        Largest difference in tint between inside and outside of the selvedges; NaN where no
        selvedge is in the picture.
    light : ndarray of shape (pieces,)
        Difference in light, the larger of the two sides, with its sign.
    uneven : ndarray of shape (pieces,)
        How unlike the parts from side to side are, as standard deviations of the logarithm.
    """

    cuts: NDArray[np.int64]
    tint: Array
    light: Array
    uneven: Array


def pieces_of(cells: Array, outline: Outline, cuts: list[int]) -> Pieces:
    """Look at every piece.

    Parameters
    ----------
    cells : ndarray of shape (cells, height, 3)
        Logarithm of light, evened out; NaN beyond the picture.
    outline : Outline
    cuts : list of int
        Rows at which pieces begin, and the height.
    """
    sides = [beside(cells, outline, side) for side in ("left", "right")]
    tints, lights, uneven = [], [], []
    for start, stop in itertools.pairwise(cuts):
        trim = min(2, (stop - start - 1) // 3)
        rows = slice(start + trim, stop - trim)
        own_tint, own_light = [], []
        for side in sides:
            if side is None:
                continue
            with warnings.catch_warnings():
                warnings.simplefilter("ignore", RuntimeWarning)
                change = np.nanmedian(side[0][rows] - side[1][rows], axis=0)
            if np.isfinite(change).all():
                own_light.append(float(change.mean()))
                own_tint.append(float(np.abs(change - change.mean()).max()))
        tints.append(max(own_tint, default=np.nan))
        lights.append(max(own_light, key=abs, default=np.nan))
        uneven.append(_unevenness(cells[:, rows], outline, (start + stop) / 2, cells.shape[1]))
    return Pieces(
        cuts=np.array(cuts),
        tint=np.array(tints),
        light=np.array(lights),
        uneven=np.array(uneven),
    )


def _unevenness(part: Array, outline: Outline, middle: float, height: int) -> float:
    """Spread from side to side of the mean over a piece, slow changes left out."""
    from scipy import ndimage

    left, right = 2.0, len(part) - 2.0
    for side in ("left", "right"):
        place = outline.at(side, height)
        if place is not None and side == "left":
            left = place[int(middle)] + 3
        elif place is not None:
            right = place[int(middle)] - 3
    inside = part[max(0, int(left)) : max(int(right), int(left) + 4)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        mean = np.nanmean(inside, axis=1)
    mean = mean[np.isfinite(mean).all(axis=1)]
    if len(mean) < 12:
        return 0.0
    quick = mean - ndimage.gaussian_filter1d(mean, 9, axis=0, mode="nearest")
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
    beyond = _beyond(pieces, period)
    height = int(pieces.cuts[-1])
    count = len(beyond)
    first = _walk(beyond, pieces, range(count), height)
    last = _walk(beyond, pieces, range(count - 1, -1, -1), height)
    top = None if first is None else int(pieces.cuts[first + 1])
    bottom = None if last is None else int(pieces.cuts[last])
    if top is not None and bottom is not None and bottom - top < 0.1 * height:
        return None, None
    return top, bottom


def _beyond(pieces: Pieces, period: float) -> list[bool | None]:
    """For every piece whether it lies beyond the cloth; None where it says little by itself."""
    widths = np.diff(pieces.cuts)
    height = pieces.cuts[-1]
    middles = (pieces.cuts[:-1] + pieces.cuts[1:]) / 2 / height
    picks = np.maximum(widths / max(period, 2.0), 0.5)
    central = (middles > 0.25) & (middles < 0.75) & (picks >= 1)
    bounds = [_bound(pieces.uneven[central], picks[central], own) for own in picks]
    found: list[bool | None] = []
    for width, tint, light, uneven, bound in zip(
        widths, pieces.tint, pieces.light, pieces.uneven, bounds, strict=True
    ):
        same = bool(tint < _TINT and abs(light) < _LIGHT)
        shadow = bool(tint < _TINT and _SHADOW < light < 0 and width < _SHADOW_PART * height)
        if same or uneven > bound:
            found.append(True)
        elif shadow or width < _THIN * max(period, 2.0):
            found.append(None)
        else:
            found.append(False)
    return found


def _bound(uneven: Array, picks: Array, own: float) -> float:
    """Unevenness above which a piece of this many picks is no stripe.

    The weave itself is uneven in narrow pieces; pieces in the middle of the cloth that are about
    as wide, or wider, say how much.
    """
    if not len(picks):
        return _LEAST_UNEVEN
    alike = picks >= min(0.6 * own, float(np.sort(picks)[-3:].min()))
    return max(_UNEVEN * float(uneven[alike].max()), _LEAST_UNEVEN)


def _walk(
    beyond: list[bool | None], pieces: Pieces, order: range, height: int
) -> int | None:
    """Last piece, from one end inward, that lies beyond the cloth."""
    last = None
    for number in order:
        near = pieces.cuts[number + 1] if order.step > 0 else height - pieces.cuts[number]
        if beyond[number] is False or near > _MOST * height:
            break
        if beyond[number]:
            last = number
    if last is None:
        return None
    following = last + order.step
    is_shadow = (
        0 <= following < len(beyond)
        and beyond[following] is None
        and pieces.tint[following] < _TINT
        and pieces.light[following] < 0
    )
    return following if is_shadow else last
