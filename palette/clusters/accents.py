"""Accents: small colours, in one patch or in strewn blobs, far from everything else."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import gather, nearest
from palette.clusters.typical import typical

__all__ = ["Accent", "find_accents", "heavy_places"]

FAR = 9.0
"""An accent is at least this far from every other swatch, in the even space."""

SMALLEST_PATCH = 0.001
"""Least part of the picture that one joined patch must cover."""

SMALLEST_STREWN = 0.003
"""Least part of the picture that several blobs of one colour must cover together."""

_LARGEST = 0.03  # a colour with this much of the picture round about it is a mass, no accent
_HEAVY_BALL, _COVER = 5.0, 6.0
_BLOB, _BLOB_POINTS = 0.0001, 12  # of several blobs, the least that each must cover
_IN_BLOBS = 0.3  # least part of a colour that lies in its blobs; speckle has next to none there
_ALIKE = 9.0  # how far colours of one patch may lie from its typical colour
_WIDTH = 4.0
_TRIES, _MOST_LOOKED_AT = 12, 8
_ONES = np.ones(3)
_CORE, _BALL, _SHELL = 4.0, 9.0, 15.0  # radii about a colour, for what stands apart
_MOST_SHELL = 0.45
_LEAST_PEAK, _LEAST_CHROMA = 1.0, 8.0

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Accent:
    """One small colour: where it lies in the even space, and what part its patch covers."""

    centre: Points
    part: float


def find_accents(
    points: Points, weights: Points, where: NDArray[np.int32], others: Points, *, most: int
) -> list[Accent]:
    """Find small colours, in patches or blobs, that are far from all other swatches.

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
        The most telling first: distance from everything else, times vividness, times the
        root of the area, for a flower is seen by its colour before its size.

    Notes
    -----
    A joined piece of one colour counts, with its edge, where a 3 x 3 square fits into it
    somewhere (opening by reconstruction, Serra 1982, Vincent 1993). One piece of 0.1 % of the
    picture is a patch; smaller ones, each more than a few points, are blobs, and those of one
    colour are an accent where they cover 0.3 % together and hold a good part of the colour:
    flowers strewn over a bank do, speckle does not. The colour must also stand apart: the dark
    and the bright end of a leaf are far from its swatch, but joined to it by everything between.
    """
    counting = int(np.count_nonzero(where >= 0))
    far = nearest(points, others)[1]
    tally = _tally(far > FAR, where)
    found: list[Accent] = []
    looked_at = 0
    for _ in range(_TRIES if most else 0):
        if looked_at == _MOST_LOOKED_AT or tally.sum() < SMALLEST_PATCH * counting:
            break
        mode = _densest(points, far, tally)
        tally[((points - mode) ** 2) @ _ONES < _ALIKE**2] = 0
        if not _apart(points, weights, mode):
            continue
        looked_at += 1
        patch = _patch(points, mode, where, counting)
        if patch is not None:
            inside = np.bincount(where[patch], minlength=len(points)).astype(float)
            centre = typical(points, inside, mode, width=_WIDTH)
            if _apart(points, weights, centre):
                found.append(Accent(centre=centre, part=float(patch.sum()) / counting))
    return _most_telling(found, others, most)


def _most_telling(found: list[Accent], others: Points, most: int) -> list[Accent]:
    """Choose accents one by one, each far from everything chosen before."""
    chosen: list[Accent] = []
    while found and len(chosen) < most:
        taken = np.concatenate([others, *(accent.centre[None] for accent in chosen)])
        places = np.array([accent.centre for accent in found])
        far = nearest(places, taken)[1]
        vivid = np.sqrt((places**2) @ _ONES)
        worth = far * vivid * np.sqrt([accent.part for accent in found])
        best = int(np.where(far >= FAR, worth, 0).argmax())
        if far[best] < FAR:
            break
        chosen.append(found.pop(best))
    return chosen


def heavy_places(points: Points, weights: Points) -> Points:
    """Places that stand for the bulk of a picture's colours.

    Every colour with at least 3 % of the picture close about it is within 6 of one of them.
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
    boxes, mass = gather(points, weights, 4.5)
    small = boxes.astype(np.float32)
    size = (small**2).sum(axis=1)
    square = small @ (-2 * small.T)
    square += size
    square += size[:, None]
    about = (square < _HEAVY_BALL**2).astype(np.float32) @ mass.astype(np.float32)
    places: list[int] = []
    open_ = about >= _LARGEST
    while open_.any():
        heaviest = int(np.where(open_, about, 0).argmax())
        places.append(heaviest)
        open_ &= square[heaviest] > _COVER**2
    return boxes[places]


def _tally(wanted: NDArray[np.bool_], where: NDArray[np.int32]) -> Points:
    """How many points of the map each wanted box holds, speckle not counted."""
    mask = _opened(np.append(wanted, False)[where])
    return np.bincount(where[mask], minlength=len(wanted)).astype(float)


def _apart(points: Points, weights: Points, mode: Points) -> bool:
    """Whether a small colour stands apart: little round about it, or a peak of its own.

    The tails of shading run on from colour to colour; a beetle or a petal does not. The peaks
    of near-blacks and near-whites do not count, for there shading itself piles up.
    """
    far = np.sqrt(((points - mode) ** 2) @ _ONES)
    core, ball, shell = (float(weights[far < radius].sum()) for radius in (_CORE, _BALL, _SHELL))
    if ball >= _LARGEST:
        return False
    peak = core >= _LEAST_PEAK * (ball - core) and np.hypot(mode[1], mode[2]) >= _LEAST_CHROMA
    return shell - ball <= _MOST_SHELL * ball or bool(peak)


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
    """Pieces of one colour, where they are one patch or blobs enough."""
    from scipy.ndimage import label

    alike = np.append(((points - mode) ** 2) @ _ONES < _ALIKE**2, False)[where]
    pieces, count = label(alike, structure=np.ones((3, 3), dtype=int))
    sizes = np.bincount(pieces.ravel(), minlength=count + 1)
    sizes[0] = 0
    cored = np.bincount(pieces[_shrunk(alike)], minlength=count + 1) > 0
    blobs = cored & (sizes >= max(_BLOB * counting, _BLOB_POINTS))
    whole = cored & (sizes >= max(SMALLEST_PATCH * counting, 1))
    strewn = sizes[blobs].sum() >= max(SMALLEST_STREWN * counting, _IN_BLOBS * sizes.sum())
    if not (whole.any() or strewn):
        return None
    return np.asarray((blobs | whole)[pieces])
