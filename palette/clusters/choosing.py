"""From counted colours to the places of the swatches: masses, accents, and how many."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from palette.clusters.accents import Accent, find_accents
from palette.clusters.cleaning import Cleaned, clean_groups, polished, thinned
from palette.clusters.grouping import nearest
from palette.clusters.heavy import heavy_places
from palette.clusters.how_many import MOST, how_many
from palette.clusters.missed import missed_places

__all__ = ["Choice", "Map", "choose"]

_ROUND_ACCENT = 6.0
_MOST_FARTHER = 1.06  # how much farther the mean colour may lie from a palette for its accents
_TOLD, _MISSED = 0.02, 10.0  # a scattered colour is told of from this part and distance

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Map:
    """Where the boxes of one photograph lie.

    Attributes
    ----------
    where : ndarray of shape (rows, columns), int32
        Box of every point, counted from the first of the photograph; -1 where nothing counts.
    first, last : int
        The photograph's boxes are the rows from `first` up to, but not with, `last`.
    """

    where: NDArray[np.int32]
    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choice:
    """Places of the swatches in the even space.

    Attributes
    ----------
    centres : ndarray of shape (n, 3)
        The locked ones first, in their order.
    accents : ndarray of shape (n,), bool
        Which of them are accents.
    why : str
        Why there are so many, where that was to be chosen.
    scattered : tuple of (place, part of the picture)
        Colours unlike any swatch that got none because they are strewn too thinly.
    """

    centres: Points
    accents: NDArray[np.bool_]
    why: str = ""
    scattered: tuple[tuple[Points, float], ...] = ()


def choose(
    points: Points,
    weights: Points,
    maps: list[Map],
    count: int | None,
    *,
    locked: Points | None = None,
    accents: bool = True,
) -> Choice:
    """Choose the swatches of counted colours.

    Parameters
    ----------
    points : ndarray of shape (n, 3)
        In a space where a distance of 1 is about one CIEDE2000.
    weights : ndarray of shape (n,)
        They sum to 1.
    maps : list of Map
        One for each photograph.
    count : int or None
        Swatches altogether, locked ones and accents among them; None: as many as the picture
        has colours, and its accents on top.
    locked : ndarray of shape (m, 3), optional
        Swatches that there must be.
    accents : bool
        Whether to look for accents.

    Returns
    -------
    Choice
    """
    held = np.empty((0, 3)) if locked is None else locked
    unasked = count is None
    count, most, why = _numbers(points, weights, count, len(held))
    free = count - len(held)
    if free < 1:
        return Choice(centres=held, accents=np.zeros(len(held), dtype=bool), why=why)
    fixed = held if len(held) else None
    bulk = np.concatenate([heavy_places(points, weights), held])
    found = _accents(points, weights, maps, bulk, most if accents else 0)
    if why and found:
        free += len(found)
        why += "; accents are counted on top"
    places = np.array([accent.centre for accent in found]).reshape(-1, 3)
    rest = _beside(points, places)
    masses = Cleaned(centres=np.empty((0, 3)))
    groups = free - (len(found) if unasked else min(len(found), 1))
    if groups > 0 and rest.any():
        masses = clean_groups(points[rest], weights[rest], groups, fixed=fixed)
    if len(found) > 1 and not unasked:
        places, centres = _afforded(points, weights, free, places, masses.centres, held)
        masses = replace(masses, centres=centres)
    if unasked and rest.any():
        more = missed_places(
            points[rest], weights[rest], np.concatenate([held, masses.centres]), MOST
        )
        masses = replace(masses, centres=np.concatenate([masses.centres, more]))
        why += _told_of(more)
    centres = np.concatenate([held, masses.centres, places])
    flags = np.zeros(len(centres), dtype=bool)
    flags[len(centres) - len(places) :] = True
    lost = tuple(
        (place, part)
        for place, part in masses.scattered
        if part >= _TOLD and nearest(place[None], centres)[1][0] >= _MISSED
    )
    return Choice(centres=centres, accents=flags, why=why, scattered=lost)


def _told_of(more: Points) -> str:
    if not len(more):
        return ""
    return (
        f"; {len(more)} smaller but unlike any of these {'is' if len(more) == 1 else 'are'} added"
    )


def _beside(points: Points, places: Points) -> NDArray[np.bool_]:
    """Points that belong to none of the accents: the masses are made of these."""
    if not len(places):
        return np.ones(len(points), dtype=bool)
    return nearest(points, places)[1] > _ROUND_ACCENT


def _afforded(
    points: Points, weights: Points, free: int, places: Points, masses: Points, held: Points
) -> tuple[Points, Points]:
    """Accents that there is room for, and the masses beside them.

    Each takes the place of a mass, the one that is missed least, and the others stay about as
    they are. The first is worth that in any picture; further ones only as long as the whole
    picture stays near its palette.
    """
    chosen = places[:0], masses
    plain = np.concatenate([held, masses]) if len(held) + len(masses) else places[:1]
    most = float(weights @ nearest(points, plain)[1]) * _MOST_FARTHER
    for count in range(1, min(len(places), free) + 1):
        beside = np.concatenate([held, places[:count]])
        fewer = masses
        if len(masses) > free - count:
            fewer = thinned(points, weights, masses, free - count, beside)
        mean = float(weights @ nearest(points, np.concatenate([beside, fewer]))[1])
        if count > 1 and mean > most:
            break
        chosen = places[:count], fewer
    few, fewer = chosen
    return few, polished(points, weights, fewer, np.concatenate([held, few]))


def _numbers(points: Points, weights: Points, count: int | None, held: int) -> tuple[int, int, str]:
    """How many swatches there are to be, how many of them may be accents, and why."""
    if count is None:
        chosen, why = how_many(points, weights)
        return max(chosen, held), 3, why
    return count, min((count + 1) // 3, count - held) if count > 1 else 0, ""


def _accents(
    points: Points,
    weights: Points,
    maps: list[Map],
    taken: Points,
    most: int,
) -> list[Accent]:
    """Accents of every photograph, far from the bulk of all colours and from each other."""
    if not most:
        return []
    if not len(taken):
        return []
    found: list[Accent] = []
    for photo in maps:
        rows = slice(photo.first, photo.last)
        part = weights[rows] / weights[rows].sum()
        more = find_accents(points[rows], part, photo.where, taken, most=most - len(found))
        found += more
        taken = np.concatenate([taken, *(accent.centre[None] for accent in more)])
    return found
