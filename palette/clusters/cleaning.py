"""Groups whose swatches stand where the picture really has colour."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.clusters.closeness import CLEAN_SHARE, CLOSE, close_parts
from palette.clusters.grouping import gather, group, nearest
from palette.clusters.missed import missed
from palette.clusters.typical import typical
from palette.perception.even import local_scale

__all__ = ["Cleaned", "clean_groups", "polished", "thinned"]

_ALIKE = 2.5  # two swatches nearer than this would be one yarn
_ROUNDS = 5
_TRIED = 64
_LOOKED_AT = 4
_PEAK = 2.5
_GAIN = 0.9
_MISSED_SHARE, _MISSED_TURNS = 0.015, 4
_MOST_ASIDE = 0.2  # part of the picture that may be left without a swatch of its own

_ONES = np.ones(3)

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cleaned:
    """Typical colours of groups, and what found no swatch.

    Attributes
    ----------
    centres : ndarray of shape (n, 3)
    scattered : tuple of (place, part of the picture)
        Groups so strewn that no one place of theirs has enough of the picture close by.
    """

    centres: Points
    scattered: tuple[tuple[Points, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Settled:
    """Typical colours of groups, and how much of the picture lies close to each."""

    centres: Points
    close: Points
    owner: NDArray[np.intp]


def clean_groups(
    points: Points,
    weights: Points,
    count: int,
    *,
    start: Points | None = None,
    fixed: Points | None = None,
) -> Cleaned:
    """Typical colours of groups, each where the picture really has colour.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where a distance of 1 is about one CIEDE2000.
    weights : ndarray of shape (n,)
        They sum to 1 or less.
    count : int
    start : ndarray of shape (count, 3), optional
        Centres of groups found before.
    fixed : ndarray of shape (m, 3), optional
        Swatches that there are anyway.

    Returns
    -------
    Cleaned
        With at most `count` centres; fewer where the picture has fewer colours that differ.

    Notes
    -----
    A group whose typical place has less than `CLEAN_SHARE` close by moves to the nearest
    place of its own that has. Where there is none, its points are set aside and another group
    is looked for among the rest. Only where that would leave out a fifth of the picture do the
    best of the strewn groups come back.
    """
    centres = start
    if centres is None:
        centres = group(points, weights, count, fixed=fixed)
    here, mass = points, weights
    chosen = centres[:0]
    held = chosen if fixed is None else fixed
    scattered: list[tuple[float, Points, float]] = []
    for _ in range(_ROUNDS):
        settled = _settled((here, mass), (points, weights), centres, held)
        clean = settled.close >= CLEAN_SHARE
        chosen = np.concatenate([chosen, settled.centres[clean]])
        held = np.concatenate([held, settled.centres[clean]])
        parts = np.bincount(settled.owner, weights=mass, minlength=len(centres))
        scattered += [
            (float(settled.close[row]), settled.centres[row], float(parts[row]))
            for row in np.flatnonzero(~clean)
        ]
        stays = ~np.isin(settled.owner, np.flatnonzero(~clean))
        here, mass = here[stays], mass[stays]
        if len(chosen) >= count or mass.sum() < weights.sum() - _MOST_ASIDE:
            break
        begin = _with_more(here, mass, centres[:0], count - len(chosen), held)
        if not len(begin):
            break
        centres = group(here, mass, len(begin), start=begin, fixed=held)
    if scattered:
        chosen = polished(points, weights, chosen, fixed)
    scattered.sort(key=lambda pair: -pair[0])
    lost = weights.sum() - mass.sum()  # where most of a picture is strewn, it must do as it is
    short = max(0, count - len(chosen)) if lost > _MOST_ASIDE or not len(chosen) else 0
    missing = [place for _, place, _ in scattered[:short]]
    chosen = np.concatenate([chosen, np.array(missing).reshape(-1, 3)])
    chosen = thinned(points, weights, chosen, count, fixed)
    return Cleaned(
        centres=_with_missed(points, weights, chosen, count, fixed),
        scattered=tuple((place, part) for _, place, part in scattered[short:]),
    )


def polished(points: Points, weights: Points, chosen: Points, fixed: Points | None) -> Points:
    """Clean centres once more in view of all points, if they stay clean by it."""
    if not len(chosen):
        return chosen
    held = chosen[:0] if fixed is None else fixed
    owner, _ = nearest(points, np.concatenate([chosen, held]))
    moved = []
    for index, centre in enumerate(chosen):
        mine = owner == index
        moved.append(typical(points[mine], weights[mine], centre) if mine.any() else centre)
    again = np.array(moved)
    stays = close_parts(points, weights, again) >= CLEAN_SHARE
    return np.where(stays[:, None], again, chosen)


def _with_more(
    points: Points, weights: Points, centres: Points, count: int, fixed: Points | None
) -> Points:
    """Centres with new ones added where most of the picture lies far from all of them."""
    boxes, mass = gather(points, weights, 4.0)
    held = centres[:0] if fixed is None else fixed
    while len(centres) < count:
        everything = np.concatenate([centres, held])
        worth = mass * nearest(boxes, everything)[1] ** 2 if len(everything) else mass
        if not worth.max(initial=0) > 0:
            break
        centres = np.concatenate([centres, boxes[worth.argmax()][None]])
    return centres


def _settled(
    group_of: tuple[Points, Points],
    picture: tuple[Points, Points],
    centres: Points,
    fixed: Points,
) -> Settled:
    """Every centre moved to where its group is typical, and clean if it can be."""
    points, weights = group_of
    owner, _ = nearest(points, np.concatenate([centres, fixed]))
    members = [owner == index for index in range(len(centres))]
    places = np.array(
        [
            typical(points[mine], weights[mine], centre) if mine.any() else centre
            for centre, mine in zip(centres, members, strict=True)
        ]
    ).reshape(-1, 3)
    close = close_parts(*picture, places)
    for index in np.flatnonzero(close < CLEAN_SHARE):
        if members[index].any():
            mine = (points[members[index]], weights[members[index]])
            places[index], close[index] = _cleaner(mine, picture, places[index], close[index])
    return Settled(centres=places, close=close, owner=owner)


def _cleaner(
    mine: tuple[Points, Points], picture: tuple[Points, Points], place: Points, part: float
) -> tuple[Points, float]:
    """Nearest place of a group with enough close by, or the best there is."""
    points, weights = picture
    tried, mass = gather(*mine, 2.0)
    tried = tried[np.argsort(-mass, kind="stable")[:_TRIED]]
    scales = local_scale(tried)
    scale = scales.mean(axis=0)
    here, there = tried * scale, points * scale
    middle = here.mean(axis=0)
    reach = np.sqrt((((here - middle) ** 2) @ _ONES).max()) + CLOSE
    about = ((there - middle) ** 2) @ _ONES <= reach**2
    there, mass = there[about], weights[about]
    square = there @ (-2 * here.T) + (here**2) @ _ONES
    square += ((there**2) @ _ONES)[:, None]
    rough = mass @ (square < CLOSE**2).astype(float)
    order = np.argsort(((tried - place) ** 2) @ _ONES, kind="stable")
    likely = order[rough[order] >= CLEAN_SHARE][:_LOOKED_AT]
    likely = np.append(likely, rough.argmax())
    parts = close_parts(points[about], mass, tried[likely], scales[likely])
    enough = np.flatnonzero(parts >= CLEAN_SHARE)
    best = enough[0] if len(enough) else parts.argmax()
    if parts[best] <= part:
        return place, part
    peak = typical(*mine, tried[likely[best]], width=_PEAK)  # boxes lie by chance, peaks do not
    there = float(close_parts(*picture, peak[None])[0])
    better = there >= min(CLEAN_SHARE, float(parts[best]))
    return (peak, there) if better else (tried[likely[best]], float(parts[best]))


def thinned(
    points: Points, weights: Points, centres: Points, count: int, fixed: Points | None
) -> Points:
    """Leave out what repeats another swatch, then what would be missed least."""
    held = centres[:0] if fixed is None else fixed
    while len(centres):
        everything = np.concatenate([centres, held])
        apart = np.sqrt(((centres[:, None] - everything[None]) ** 2).sum(axis=2))
        np.fill_diagonal(apart, np.inf)
        twins = apart.min(axis=1, initial=np.inf) < _ALIKE
        if not twins.any() and len(centres) <= count:
            break
        rows = np.flatnonzero(twins) if twins.any() else np.arange(len(centres))
        losses = _losses(points, weights, everything)[rows]
        centres = np.delete(centres, rows[losses.argmin()], axis=0)
    return centres


def _with_missed(
    points: Points, weights: Points, centres: Points, count: int, fixed: Points | None
) -> Points:
    """Give a swatch to a colour of some mass that has none near, in place of the least missed.

    Only where the picture is nearer to its palette by it: else two colours that are missed
    alike would take turns, and noise decide which of them stays.
    """
    held = centres[:0] if fixed is None else fixed
    cost = _cost(points, weights, centres, held)
    for _ in range(_MISSED_TURNS):
        place = missed(points, weights, np.concatenate([centres, held]), _MISSED_SHARE)
        if place is None:
            break
        more = thinned(points, weights, np.concatenate([centres, place[None]]), count, fixed)
        cheaper = _cost(points, weights, more, held)
        if not cheaper < cost * _GAIN:
            break
        centres, cost = more, cheaper
    return centres


def _cost(points: Points, weights: Points, centres: Points, held: Points) -> float:
    """Sum of squared distances from the picture to its palette."""
    everything = np.concatenate([centres, held])
    return float(weights @ nearest(points, everything)[1] ** 2) if len(everything) else np.inf


def _losses(points: Points, weights: Points, centres: Points) -> Points:
    """How much the sum of squared distances to the nearest centre grows without each of them.

    Squared, because a colour that is unlike all others is missed more than half of a shade.
    """
    if len(centres) == 1:
        return np.array([np.inf])
    square = points @ (-2 * centres.T) + (centres**2) @ _ONES
    owner = square.argmin(axis=1)
    first, second = np.partition(square, 1, axis=1)[:, :2].T
    growth = weights * (second - first)
    return np.bincount(owner, weights=growth, minlength=len(centres)).astype(np.float64)
