"""Whole steps for stripes in which those that were equally wide stay equally wide."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Sequence

import numpy as np
from numpy.typing import NDArray

from palette.stripes.apportion import exact_parts, largest_remainder

__all__ = ["equal_widths"]

_NOISE = 9  # decimals: a part nearer than this to a whole step is one


def equal_widths(
    widths: Sequence[float],
    units: int,
    *,
    least: Sequence[int],
    kinds: Sequence[Hashable] | None = None,
) -> tuple[int, ...]:
    """Whole parts of `units` in proportion to widths: equal widths get equal parts.

    Every group of equal stripes is rounded up or down as one, the groups chosen so that the
    parts sum to `units` with the least error. Stripes of one width are one group, whatever
    their colour; where that does not come out, those that are of one kind too. What still does
    not come out is given a step at a time where it shows least: to the first and the last
    stripe, then to the widest, in mirrored pairs where the cloth reads the same from both ends.

    Parameters
    ----------
    widths : sequence of float
        More than 0.
    units : int
        What the parts sum to.
    least : sequence of int
        Fewest steps of each stripe; equal stripes have the same.
    kinds : sequence, optional
        What stripes must share to be one of a kind, such as the colour; None: the width alone.

    Returns
    -------
    tuple of int

    Raises
    ------
    WeavingError
        The leasts come to more than `units`.

    Examples
    --------
    >>> equal_widths((3, 6, 2, 6, 3), 24, least=[1] * 5)
    (4, 7, 2, 7, 4)
    >>> equal_widths((9, 3, 9, 3, 9), 40, least=[1] * 5)
    (11, 4, 10, 4, 11)
    """
    exact = [round(part, _NOISE) for part in exact_parts(list(widths), units, least=list(least))]
    names = [None] * len(exact) if kinds is None else list(kinds)
    keys = list(zip(widths, least, names, strict=True))
    best: tuple[list[int], int] | None = None
    for groups in (_groups([key[:2] for key in keys]), _groups(keys)):
        found = _rounded(exact, groups, units)
        if found is not None and (best is None or abs(found[1]) < abs(best[1])):
            best = found
        if best is not None and best[1] == 0:
            break
    if best is None:
        return largest_remainder(exact, units)
    steps, left = best
    _spread(steps, left, exact, least, mirrored=keys == keys[::-1])
    return tuple(steps)


def _groups(keys: Sequence[Hashable]) -> list[list[int]]:
    """Places that have the same key, in order of first appearance."""
    groups: dict[Hashable, list[int]] = defaultdict(list)
    for place, key in enumerate(keys):
        groups[key].append(place)
    return list(groups.values())


def _rounded(
    exact: Sequence[float], groups: Sequence[Sequence[int]], units: int
) -> tuple[list[int], int] | None:
    """Round whole groups; give the steps and what they lack of `units`.

    Groups of one size that have most to gain are rounded up first, so only how many of each size
    has to be found: the fewest errors for every sum that can be reached.
    """
    steps = [math.floor(part) for part in exact]
    short = units - sum(steps)
    by_size: dict[int, list[Sequence[int]]] = defaultdict(list)
    for group in groups:
        if exact[group[0]] > steps[group[0]]:
            by_size[len(group)].append(group)
    reach = np.full(short + max(by_size, default=0) + 1, np.inf)
    reach[0] = 0.0
    taken: list[tuple[int, NDArray[np.int64]]] = []
    for size, same in by_size.items():
        same.sort(key=lambda group: (-(exact[group[0]] % 1), group[0]))
        reach, counts = _with_size(reach, size, [exact[group[0]] % 1 for group in same])
        taken.append((size, counts))
    sums = np.flatnonzero(np.isfinite(reach))
    total = int(sums[np.lexsort((reach[sums], np.abs(sums - short)))[0]])
    left = short - total
    for size, counts in reversed(taken):
        count = int(counts[total])
        for group in by_size[size][:count]:
            for place in group:
                steps[place] += 1
        total -= count * size
    return steps, left


def _with_size(
    reach: NDArray[np.float64], size: int, remainders: Sequence[float]
) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Best error of every sum once groups of one size may be rounded up, and how many are."""
    best, counts = reach.copy(), np.zeros(len(reach), dtype=np.int64)
    gained = 0.0
    for count, remainder in enumerate(remainders, start=1):
        gained += size * ((1 - remainder) ** 2 - remainder**2)
        moved = count * size
        if moved >= len(reach):
            break
        tried = reach[:-moved] + gained
        better = tried < best[moved:] - 1e-12
        best[moved:][better] = tried[better]
        counts[moved:][better] = count
    return best, counts


def _spread(
    steps: list[int], left: int, exact: Sequence[float], least: Sequence[int], *, mirrored: bool
) -> None:
    """Give what is left, one step for each stripe, where it shows least."""
    count, sign = len(steps), 1 if left > 0 else -1
    places = sorted(
        range(count), key=lambda place: (min(place, count - 1 - place) > 0, -exact[place], place)
    )
    pairs = [place for place in places if place <= count - 1 - place] if mirrored else places
    while left:
        before = left
        if mirrored and count % 2 and left % 2:
            steps[count // 2] += sign
            left -= sign
        for place in pairs:
            both = {place, count - 1 - place} if mirrored else {place}
            if abs(left) < len(both) or any(
                steps[each] + sign < max(least[each], 1) for each in both
            ):
                continue
            for each in both:
                steps[each] += sign
            left -= sign * len(both)
        if left == before:
            steps[places[0]] += left
            left = 0
