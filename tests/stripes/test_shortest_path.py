import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.stripes.shortest_path import EXACT_UP_TO, path_length, shortest_path

COORDINATES = st.integers(-100, 100)
POINTS = st.tuples(COORDINATES, COORDINATES, COORDINATES)


@settings(max_examples=50)
@given(st.lists(POINTS, min_size=1, max_size=6))
def test_no_other_path_is_shorter(points: list[tuple[int, int, int]]) -> None:
    best = min(path_length(points, way) for way in itertools.permutations(range(len(points))))
    path = shortest_path(points)
    assert sorted(path) == list(range(len(points)))
    assert path_length(points, path) == pytest.approx(best)


def test_exact_with_twelve_colours() -> None:
    # points on a line, shuffled: the path must go straight along it
    order = np.random.Generator(np.random.PCG64(5)).permutation(EXACT_UP_TO)
    points = [(float(i), 2.0 * i, -1.0 * i) for i in order]
    walked = [int(order[i]) for i in shortest_path(points)]
    assert walked in (sorted(walked), sorted(walked, reverse=True))


@settings(max_examples=10, deadline=None)
@given(st.lists(POINTS, min_size=13, max_size=16, unique=True))
def test_beyond_twelve_it_beats_every_greedy_path(points: list[tuple[int, int, int]]) -> None:
    path = shortest_path(points)
    assert sorted(path) == list(range(len(points)))
    assert path == shortest_path(points)
    for start in range(len(points)):
        greedy = [start]
        while len(greedy) < len(points):
            left = set(range(len(points))) - set(greedy)
            greedy.append(min(left, key=lambda i: path_length(points, (greedy[-1], i))))
        assert path_length(points, path) <= path_length(points, greedy) + 1e-6
