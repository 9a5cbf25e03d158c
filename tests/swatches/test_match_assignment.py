"""Pairs that cost least, where a row may stay alone."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from palette.swatches.match_assignment import best_pairs, nearest_pairs

SIZES = st.tuples(st.integers(1, 4), st.integers(1, 4))


@given(
    SIZES.flatmap(lambda size: arrays(float, size, elements=st.integers(0, 20))),
    st.integers(1, 15),
)
def test_no_pairing_costs_less(differences: np.ndarray, alone: int) -> None:
    rows, columns = differences.shape
    reach = np.array([alone if j % 2 == 0 else alone / 2 for j in range(columns)])

    def cost(order) -> float:
        return sum(
            alone if j is None else differences[i, j] if differences[i, j] <= reach[j] else np.inf
            for i, j in enumerate(order)
        )

    choices = [*range(columns), *[None] * rows]
    best = min(map(cost, set(itertools.permutations(choices, rows))))
    found = best_pairs(differences, reach, alone=float(alone))
    assert cost([found.get(i) for i in range(rows)]) == pytest.approx(best)


@given(SIZES.flatmap(lambda size: arrays(float, size, elements=st.integers(0, 20))))
def test_what_nothing_comes_near_changes_no_pair(differences: np.ndarray) -> None:
    """One more row that is far from everything leaves the other pairs as they were."""
    reach = np.full(differences.shape[1], 10.0)
    more = np.vstack([differences, np.full(differences.shape[1], 50.0)])
    assert best_pairs(more, reach, alone=10.0) == best_pairs(differences, reach, alone=10.0)


def test_a_pair_just_within_reach_is_better_than_none() -> None:
    assert best_pairs(np.array([[10.0]]), np.array([10.0]), alone=10.0) == {0: 0}


def test_the_nearest_within_reach_is_taken_again_and_again() -> None:
    apart = np.array([[4.0, 3.0], [6.0, 2.0], [11.0, 6.0]])
    assert nearest_pairs(apart, np.array([10.0, 1.0])) == {0: 0, 1: 0}
