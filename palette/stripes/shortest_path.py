"""The shortest path through a handful of points, each visited once."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    FloatArray = npt.NDArray[np.float64]

__all__ = ["EXACT_UP_TO", "path_length", "shortest_path"]

EXACT_UP_TO = 12


def path_length(points: Sequence[Sequence[float]], path: Sequence[int]) -> float:
    """Sum of the Euclidean distances along a path.

    Examples
    --------
    >>> path_length(((0, 0, 0), (3, 4, 0), (3, 4, 2)), (0, 1, 2))
    7.0
    """
    return math.fsum(math.dist(points[a], points[b]) for a, b in pairwise(path))


def shortest_path(points: Sequence[Sequence[float]]) -> tuple[int, ...]:
    """Visit every point once with the least Euclidean length in all.

    Exact for up to 12 points; beyond that the nearest neighbour from every start, improved
    until no reversed stretch and no moved point shortens it.

    Parameters
    ----------
    points : sequence of points
        CIELAB, for colours.

    Returns
    -------
    tuple of int
        Indices of the points, each once; the same input gives the same path.

    References
    ----------
    .. [1] M. Held and R. M. Karp, "A dynamic programming approach to sequencing problems",
       J. SIAM 10 (1962) 196-210.
    .. [2] G. A. Croes, "A method for solving traveling-salesman problems", Operations
       Research 6 (1958) 791-812.

    Examples
    --------
    >>> shortest_path(((90, 0, 0), (20, 0, 0), (60, 0, 0)))
    (0, 2, 1)
    """
    return _shortest(tuple(tuple(map(float, point)) for point in points))


@lru_cache(maxsize=32)
def _shortest(points: tuple[tuple[float, ...], ...]) -> tuple[int, ...]:
    """Keep the last few paths: one palette is arranged again and again."""
    import numpy as np

    count = len(points)
    if count <= 2:
        return tuple(range(count))
    array = np.asarray(points, dtype=np.float64)
    distances = np.sqrt(((array[:, None] - array[None]) ** 2).sum(axis=-1))
    path = _held_karp(distances) if count <= EXACT_UP_TO else _improved(distances)
    return path if path[0] < path[-1] else path[::-1]


def _held_karp(distances: FloatArray) -> tuple[int, ...]:
    """Exact path: the best way through every subset, ending at every member."""
    import numpy as np

    count = len(distances)
    best = np.full((1 << count, count), np.inf)
    before = np.zeros((1 << count, count), dtype=np.int8)
    best[1 << np.arange(count), np.arange(count)] = 0.0
    bits = 1 << np.arange(count)
    for subset in range(1, 1 << count):
        members = np.flatnonzero(subset & bits)
        if len(members) == 1:
            continue
        ways = best[subset ^ bits[members]] + distances[members]
        ways[np.arange(len(members)), members] = np.inf
        before[subset, members] = ways.argmin(axis=1)
        best[subset, members] = ways.min(axis=1)
    subset = (1 << count) - 1
    path = [int(best[subset].argmin())]
    while len(path) < count:
        last = path[-1]
        path.append(int(before[subset, last]))
        subset ^= 1 << last
    return tuple(path)


def _improved(distances: FloatArray) -> tuple[int, ...]:
    """Best of the greedy paths from every start, each improved to a local optimum."""
    table: list[list[float]] = distances.tolist()
    paths = [_shortened(_greedy(table, start), table) for start in range(len(table))]
    lengths = [round(_length(path, table), 9) for path in paths]
    return tuple(paths[lengths.index(min(lengths))])


def _length(path: Sequence[int], table: list[list[float]]) -> float:
    return sum(table[a][b] for a, b in pairwise(path))


def _greedy(table: list[list[float]], start: int) -> list[int]:
    path, left = [start], set(range(len(table))) - {start}
    while left:
        row = table[path[-1]]
        path.append(min(left, key=lambda i: (row[i], i)))
        left.remove(path[-1])
    return path


def _candidates(path: list[int]) -> Iterator[list[int]]:
    """Reverse every stretch, and move every point to every place."""
    count = len(path)
    for i in range(count):
        for j in range(i + 1, count):
            yield path[:i] + path[i : j + 1][::-1] + path[j + 1 :]
    for i in range(count):
        rest = path[:i] + path[i + 1 :]
        for j in range(count):
            yield [*rest[:j], path[i], *rest[j:]]


def _shortened(path: list[int], table: list[list[float]]) -> list[int]:
    """Reverse stretches and move points for as long as that shortens the path."""
    length = _length(path, table)
    while True:
        best = min(_candidates(path), key=lambda way: _length(way, table))
        if _length(best, table) > length - 1e-9:
            return path
        path, length = best, _length(best, table)
