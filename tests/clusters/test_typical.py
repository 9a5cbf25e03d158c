"""Climbing to where colours are densest, against scikit-learn's mean shift."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.clusters.typical import typical

GENERATOR = np.random.default_rng(12)


@pytest.mark.parametrize("width", [2.0, 5.0])
def test_the_densest_place_is_that_of_a_kernel_estimate(width) -> None:
    # The peak on a fine grid of a Gaussian kernel density estimate by scipy.
    from scipy.stats import gaussian_kde

    along = np.concatenate([GENERATOR.normal(0, 3, 400), GENERATOR.normal(14, 2, 120)])
    points = np.stack([along, np.zeros(520), np.zeros(520)], axis=1)
    grid = np.linspace(-8, 20, 5601)
    estimate = gaussian_kde(along, bw_method=width / along.std(ddof=1))(grid)
    peak = grid[np.where(grid < 8, estimate, 0).argmax()]
    found = typical(points, np.ones(520), np.array([3.0, 0, 0]), width=width, turns=400)
    assert found[0] == pytest.approx(peak, abs=0.1)


def test_what_lies_within_five_widths_still_pulls() -> None:
    # At three widths the weight is exp(-4.5), about a ninetieth.
    points = np.array([[0.0, 0, 0], [15.0, 0, 0]])
    place = typical(points, np.array([1.0, 30.0]), np.array([0.0, 0, 0]), turns=1)
    pull = 30 * np.exp(-4.5)
    assert place[0] == pytest.approx(15 * pull / (1 + pull), rel=1e-9)


@given(st.floats(-20, 20), st.floats(0.1, 10))
def test_one_colour_is_its_own_place_whatever_its_weight(value, weight) -> None:
    point = np.array([[value, 0.0, 0.0]])
    assert typical(point, np.array([weight]), point[0] + 3).tolist() == pytest.approx(
        point[0].tolist()
    )


def test_far_from_everything_it_stays() -> None:
    start = np.array([900.0, 0, 0])
    assert typical(np.zeros((1, 3)), np.ones(1), start).tolist() == start.tolist()
