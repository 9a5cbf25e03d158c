"""Colours of some mass that are near no swatch."""

import numpy as np
import pytest

from palette.clusters.missed import missed, missed_places

CHANCE = np.random.default_rng(3)
GREEN, RED, BLUE = np.array([[40.0, -20, 20], [45, 40, 20], [35, 5, -40]])


def picture(red: float, blue: float = 0.0) -> tuple[np.ndarray, np.ndarray]:
    """Colours and weights of a green picture with so much red and blue."""
    points = np.concatenate([c + CHANCE.normal(0, 1, (100, 3)) for c in (GREEN, RED, BLUE)])
    return points, np.repeat([1 - red - blue, red, blue], 100) / 100


@pytest.mark.parametrize(("part", "found"), [(0.010, False), (0.020, True), (0.2, True)])
def test_what_has_enough_of_the_picture_is_missed(part, found) -> None:
    points, weights = picture(part)
    place = missed(points, weights, GREEN[None], 0.015)
    assert (place is not None) == found
    if place is not None:
        assert np.linalg.norm(place - RED) < 1


def test_what_is_near_a_swatch_is_not_missed() -> None:
    points, weights = picture(0.3)
    assert missed(points, weights, np.stack([GREEN, RED + 2.0]), 0.015) is None


def test_the_heavier_comes_first() -> None:
    points, weights = picture(0.1, 0.2)
    first, second = missed_places(points, weights, GREEN[None], 8)
    assert np.linalg.norm(first - BLUE) < 1
    assert np.linalg.norm(second - RED) < 1


def test_no_more_than_there_may_be() -> None:
    points, weights = picture(0.1, 0.2)
    assert len(missed_places(points, weights, GREEN[None], 2)) == 1
    assert len(missed_places(points, weights, GREEN[None], 1)) == 0


def test_what_is_strewn_too_thinly_is_not_missed() -> None:
    # A fifth of the picture, but next to none of it within CIEDE2000 4 of any one place.
    spread = np.stack(np.meshgrid(*[np.linspace(-60, 60, 8)] * 3), axis=-1).reshape(-1, 3)
    points = np.concatenate([GREEN[None], spread + np.array([50.0, 0, 0])])
    weights = np.concatenate([[0.8], np.full(len(spread), 0.2 / len(spread))])
    assert missed(points, weights, GREEN[None], 0.015) is None
