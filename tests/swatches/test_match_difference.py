"""Ranking colours that are far away."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skimage.color import deltaE_ciede94

from palette.perception.difference import ciede2000
from palette.swatches.match_difference import ranking_difference

LAB = st.tuples(st.floats(5, 95), st.floats(-90, 90), st.floats(-90, 90))


@given(LAB, LAB)
def test_never_less_than_ciede2000_and_the_same_both_ways(first, second) -> None:
    rank = float(ranking_difference(first, second))
    assert rank >= float(ciede2000(first, second)) - 1e-9
    assert rank == pytest.approx(float(ranking_difference(second, first)))


@given(LAB, st.tuples(*[st.floats(-2, 2)] * 3))
def test_small_differences_are_ciede2000(first, step) -> None:
    second = np.array(first) + np.array(step)
    small = float(ciede2000(first, second))
    if small <= 5:
        assert float(ranking_difference(first, second)) == pytest.approx(small)


def test_large_differences_are_cie94_where_that_is_larger() -> None:
    # scikit-image's CIE94 takes the chroma of the standard; equal chromas give the same.
    first, second = np.array([56.0, 60.0, -30.0]), np.array([48.0, -30.0, 60.0])
    assert float(ranking_difference(first, second)) == pytest.approx(
        max(float(deltaE_ciede94(first, second)), float(ciede2000(first, second)))
    )


def test_a_greenish_grey_is_not_nearer_to_magenta_than_a_neutral_one() -> None:
    magenta = [56.3, 88.1, -18.8]
    greenish, neutral = ranking_difference([[50.4, -3.7, -1.3], [49.0, 0.0, 0.0]], magenta)
    assert ciede2000([50.4, -3.7, -1.3], magenta) < 16
    assert greenish > neutral > 25
