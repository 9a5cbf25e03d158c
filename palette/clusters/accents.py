"""Accents: small colours, in one patch or in strewn blobs, far from everything else."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.clusters.grouping import boxes_of, nearest
from palette.clusters.heavy import HEAVY
from palette.clusters.hues import hue_distance
from palette.clusters.patches import SMALLEST_PATCH, Ground, ground_of
from palette.clusters.typical import typical

__all__ = ["Accent", "find_accents"]

FAR = 9.0
"""An accent is at least this far from every other swatch, in the even space."""

OTHER_HUE = 15.0
"""What is this far from all hues of the bulk is another thing, however it shades off."""

_SAME_HUE = 6.0
_MASS = 0.05  # a hue of its own with more of the picture than this is a mass among the others
_ALIKE, _SHADED = 9.0, 25.0  # how far colours of one patch lie from its typical colour, at most
_WIDTH, _BOX = 4.0, 4.0
_MOST_LOOKED_AT, _TRIES = 6, 10
_CORE, _BALL, _SHELL = 4.0, 9.0, 15.0  # radii about a colour, for what stands apart
_MOST_SHELL = 0.45
_LEAST_PEAK, _LEAST_CHROMA = 1.0, 8.0
_LONELY, _PURITY = 2.0, 2.0  # what standing alone and what purity count for
_ONES = np.ones(3)

Points = NDArray[np.float64]
Rows = NDArray[np.intp]


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
        The most telling first.

    Notes
    -----
    Two kinds are looked for. First, hues that light and shade cannot make of any colour of the
    bulk (see `hue_distance`): a beetle on a leaf, with its sheen and its dark side. Then colours
    of any hue that stand apart from all others: white flowers, a black button. For these the
    dark and the bright end of a leaf must be told off, which are as far from its swatch, but
    joined to it by everything between.

    How telling an accent is: its distance from everything else, in colour and in hue, up to
    three times as much where it stands alone, times its lightness and purity, times the fourth
    root of its area. For a flower is seen by its brightness and its colour before its size.
    """
    if not most:
        return []
    ground = ground_of(where, len(points))
    boxes = boxes_of(points, _BOX)
    found, others, spent = _other_hues(points, boxes, ground, others)
    taken = np.concatenate([others, *(accent.centre[None] for accent in found)])
    far = np.where(spent, 0, nearest(points, taken)[1])
    found += _standing_apart(points, weights, boxes, ground, far)
    return _most_telling(points, weights, found, others, most)


def _other_hues(
    points: Points, boxes: Rows, ground: Ground, others: Points
) -> tuple[list[Accent], Points, NDArray[np.bool_]]:
    """Patches of other hues; the others with those too large for an accent; the boxes of both."""
    found: list[Accent] = []
    spent = np.zeros(len(points), dtype=bool)
    hue, far = hue_distance(points, others), nearest(points, others)[1]
    tally = ground.tally((hue > OTHER_HUE) & (far > FAR))
    for _ in range(_MOST_LOOKED_AT):
        if tally.sum() < SMALLEST_PATCH * ground.counting:
            break
        mode = _densest(points, boxes, hue, tally)
        alike = _alike(points, mode, hue)
        tally[alike] = 0
        inside = ground.patch(alike)
        if inside is None:
            continue
        spent |= alike
        centre = _typical_inside(points, inside, mode)
        part = float(inside.sum()) / ground.counting
        if part > _MASS:
            others = np.concatenate([others, centre[None]])
            hue = hue_distance(points, others)
            tally[hue <= OTHER_HUE] = 0
        elif hue_distance(centre[None], others)[0] > OTHER_HUE:
            found.append(Accent(centre=centre, part=part))
    return found, others, spent


def _typical_inside(points: Points, inside: Points, mode: Points) -> Points:
    """Typical colour of a patch, from how many of its points each box holds."""
    rows = np.flatnonzero(inside)
    return typical(points[rows], inside[rows], mode, width=_WIDTH)


def _alike(points: Points, mode: Points, hue: Points) -> NDArray[np.bool_]:
    """Colours near one of another hue, and those that light and shade make of it."""
    square = ((points - mode) ** 2) @ _ONES
    shaded = (square < _SHADED**2) & (hue > OTHER_HUE)
    shaded &= hue_distance(points, mode[None]) < _SAME_HUE
    return np.asarray(shaded | (square < _ALIKE**2))


def _standing_apart(
    points: Points, weights: Points, boxes: Rows, ground: Ground, far: Points
) -> list[Accent]:
    """Patches of colours with little round about them, whatever their hue."""
    found: list[Accent] = []
    tally = ground.tally(far > FAR)
    looked_at = 0
    for _ in range(_TRIES):
        if looked_at == _MOST_LOOKED_AT or tally.sum() < SMALLEST_PATCH * ground.counting:
            break
        mode = _densest(points, boxes, far, tally)
        alike = ((points - mode) ** 2) @ _ONES < _ALIKE**2
        tally[alike] = 0
        if not _apart(points, weights, mode):
            continue
        looked_at += 1
        inside = ground.patch(alike)
        if inside is not None:
            centre = _typical_inside(points, inside, mode)
            if _apart(points, weights, centre):
                found.append(Accent(centre=centre, part=float(inside.sum()) / ground.counting))
    return found


def _most_telling(
    points: Points, weights: Points, found: list[Accent], others: Points, most: int
) -> list[Accent]:
    """Choose accents one by one, each far from everything chosen before."""
    chosen: list[Accent] = []
    alone = [_alone(points, weights, accent.centre) for accent in found]
    while found and len(chosen) < most:
        taken = np.concatenate([others, *(accent.centre[None] for accent in chosen)])
        places = np.array([accent.centre for accent in found])
        far = nearest(places, taken)[1]
        worth = (far + hue_distance(places, taken)) * (1 + _LONELY * np.array(alone))
        worth *= np.array([accent.part for accent in found]) ** 0.25
        worth *= places[:, 0] + _PURITY * np.hypot(places[:, 1], places[:, 2])
        best = int(np.where(far >= FAR, worth, 0).argmax())
        if far[best] < FAR:
            break
        chosen.append(found.pop(best))
        alone.pop(best)
    return chosen


def _about(points: Points, weights: Points, place: Points) -> tuple[float, float, float]:
    """Part of the picture in the core, in the ball and in the shell about a colour."""
    square = ((points - place) ** 2) @ _ONES
    core, ball, all_ = (weights[square < radius**2].sum() for radius in (_CORE, _BALL, _SHELL))
    return float(core), float(ball), float(all_ - ball)


def _apart(points: Points, weights: Points, place: Points) -> bool:
    """Whether a small colour stands apart: little round about it, or a peak of its own.

    The tails of shading run on from colour to colour; a beetle or a petal does not. The peaks
    of near-blacks and near-whites do not count, for there shading itself piles up.
    """
    core, ball, shell = _about(points, weights, place)
    if ball >= HEAVY:
        return False
    peak = core >= _LEAST_PEAK * (ball - core) and np.hypot(place[1], place[2]) >= _LEAST_CHROMA
    return shell <= _MOST_SHELL * ball or bool(peak)


def _alone(points: Points, weights: Points, place: Points) -> float:
    """1 for a colour with nothing round about it, 0 for one among many."""
    _, ball, shell = _about(points, weights, place)
    return max(0.0, 1 - shell / (_MOST_SHELL * ball)) if ball > 0 else 0.0


def _densest(points: Points, boxes: Rows, far: Points, tally: Points) -> Points:
    """Colour, among those that are tallied, with the most area times distance."""
    rows = np.flatnonzero(tally)
    worth = tally[rows] * far[rows]
    mine = boxes[rows] == np.bincount(boxes[rows], weights=worth).argmax()
    start = (worth[mine] @ points[rows[mine]]) / worth[mine].sum()
    return typical(points[rows], tally[rows], start, width=_WIDTH, turns=3)
