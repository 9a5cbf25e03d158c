"""Accents: small joined patches whose colour is far from everything else."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import gather, nearest
from palette.clusters.typical import typical

__all__ = ["Accent", "find_accents", "heavy_places"]

FAR = 13.0
"""An accent is at least this far from every other swatch, in the even space."""

SMALLEST_PATCH = 0.001
"""Least part of the picture that a joined patch must cover."""

_HEAVY = 0.03  # a colour with this much of the picture round about it is none of the accents
_COVER = 6.0
_PIECE = 0.0002  # of several pieces, the least that each must cover
_ALIKE = 9.0  # how far colours of one patch may lie from its typical colour
_WIDTH = 4.0
_TRIES = 8
_ONES = np.ones(3)
_CORE, _BALL, _SHELL = 4.0, 9.0, 15.0  # radii about a colour, for what stands apart
_MOST_SHELL = 0.9
_LEAST_PEAK = 1.0

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Accent:
    """One small colour: where it lies in the even space, and what part its patch covers."""

    centre: Points
    part: float


def find_accents(
    points: Points, weights: Points, where: NDArray[np.int32], others: Points, *, most: int
) -> list[Accent]:
    """Find joined patches of colours that are far from all other swatches.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        Colours of the boxes, in a space where a distance of 1 is about one CIEDE2000.
    weights : ndarray of shape (n,)
        Part of the picture in each box.
    where : ndarray of shape (rows, columns), int
        Box of each point of the picture; -1 where nothing counts.
    others : ndarray of shape (m, 3)
        The swatches that there are anyway.
    most : int
        How many accents there may be.

    Returns
    -------
    list of Accent
        The most telling first: area times distance.

    Notes
    -----
    What is far from the other swatches is opened by a 3 x 3 square first (Serra 1982), which
    takes out speckle, then split by colour, and each colour must have one joined patch of
    0.1 % of the picture, or three pieces that together cover twice that. It must also stand
    apart in colour: the dark and the bright end of a leaf are far from its swatch, but joined
    to it by everything between.
    """
    counting = int(np.count_nonzero(where >= 0))
    least = SMALLEST_PATCH * counting
    far = nearest(points, others)[1]
    tally = _tally(far > FAR, where)
    found: list[Accent] = []
    for _ in range(_TRIES):
        if len(found) == most or tally.sum() < least:
            break
        mode = _densest(points, far, tally)
        patch = _patch(points, mode, where, counting) if _apart(points, weights, mode) else None
        if patch is not None:
            inside = np.bincount(where[patch], minlength=len(points)).astype(float)
            mode = typical(points, inside, mode, width=_WIDTH)
        distance = np.sqrt(((points - mode) ** 2) @ _ONES)
        if patch is not None and nearest(mode[None], _with(others, found))[1][0] >= FAR:
            found.append(Accent(centre=mode, part=float(patch.sum()) / counting))
            far = np.minimum(far, distance)
            tally[far <= FAR] = 0
        tally[distance < _ALIKE] = 0
    return found


def heavy_places(points: Points, weights: Points) -> Points:
    """Places that stand for the bulk of a picture's colours.

    Every colour with at least 3 % of the picture round about it is within 6 of one of them.
    They follow from the picture alone and not from a grouping of it, so that what counts as an
    accent does not change when the groups do.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
    weights : ndarray of shape (n,)
        They sum to 1.

    Returns
    -------
    ndarray of shape (m, 3)

    Examples
    --------
    >>> heavy_places(np.array([[0.0, 0, 0], [50, 0, 0]]), np.array([0.99, 0.01])).tolist()
    [[0.0, 0.0, 0.0]]
    """
    boxes, mass = gather(points, weights, 6.0)
    size = (boxes**2) @ _ONES
    square = size[:, None] + size[None] - 2 * boxes @ boxes.T
    about = (square < _BALL**2).astype(np.float32) @ mass.astype(np.float32)
    places: list[int] = []
    open_ = about >= _HEAVY
    while open_.any():
        heaviest = int(np.where(open_, about, 0).argmax())
        places.append(heaviest)
        open_ &= square[heaviest] > _COVER**2
    return boxes[places]


def _with(others: Points, found: list[Accent]) -> Points:
    return np.concatenate([others, *(accent.centre[None] for accent in found)])


def _tally(wanted: NDArray[np.bool_], where: NDArray[np.int32]) -> Points:
    """How many points of the map each wanted box holds, speckle not counted."""
    mask = _opened(np.append(wanted, False)[where])
    return np.bincount(where[mask], minlength=len(wanted)).astype(float)


def _apart(points: Points, weights: Points, mode: Points) -> bool:
    """Whether a colour stands apart: little round about it, or a peak of its own.

    The tails of shading run on from colour to colour; a beetle or a petal does not.
    """
    far = np.sqrt(((points - mode) ** 2) @ _ONES)
    core, ball, shell = (float(weights[far < radius].sum()) for radius in (_CORE, _BALL, _SHELL))
    return shell - ball <= _MOST_SHELL * ball or core >= _LEAST_PEAK * (ball - core)


def _densest(points: Points, far: Points, tally: Points) -> Points:
    """Colour, among the far ones that are no speckle, with the most area times distance."""
    rows = np.flatnonzero(tally)
    boxes, mass = gather(points[rows], tally[rows] * far[rows], 4.0)
    return typical(points[rows], tally[rows], boxes[mass.argmax()], width=_WIDTH)


def _opened(mask: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Morphological opening by a 3 x 3 square (Serra 1982), beyond the edge counting as out."""
    return _spread(_shrunk(mask))


def _shrunk(mask: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Erosion by a 3 x 3 square, rows first, then columns."""
    rows, both = np.zeros_like(mask), np.zeros_like(mask)
    rows[1:-1] = mask[:-2] & mask[1:-1] & mask[2:]
    both[:, 1:-1] = rows[:, :-2] & rows[:, 1:-1] & rows[:, 2:]
    return both


def _spread(mask: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Dilation by a 3 x 3 square, rows first, then columns."""
    rows = mask.copy()
    rows[1:] |= mask[:-1]
    rows[:-1] |= mask[1:]
    both = rows.copy()
    both[:, 1:] |= rows[:, :-1]
    both[:, :-1] |= rows[:, 1:]
    return both


def _patch(
    points: Points, mode: Points, where: NDArray[np.int32], counting: int
) -> NDArray[np.bool_] | None:
    """Pieces of one colour, where they are large enough to be a patch."""
    from scipy.ndimage import label

    alike = np.append(((points - mode) ** 2) @ _ONES < _ALIKE**2, False)
    pieces, count = label(_opened(alike[where]), structure=np.ones((3, 3), dtype=int))
    sizes = np.bincount(pieces.ravel(), minlength=count + 1)
    sizes[0] = 0
    large = sizes >= max(_PIECE * counting, 1)
    whole = sizes.max() >= SMALLEST_PATCH * counting
    several = large.sum() >= 3 and sizes[large].sum() >= 2 * SMALLEST_PATCH * counting
    if not (whole or several):
        return None
    return np.asarray(large[pieces])
