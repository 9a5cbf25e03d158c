"""How much of a picture lies close to a colour, against CIEDE2000 itself."""

import numpy as np
import pytest

from palette.clusters.closeness import CLEAN_SHARE, CLOSE, close_parts
from palette.perception.difference import ciede2000
from palette.perception.even import even_to_lab, lab_to_even, local_scale
from palette.perception.spaces import srgb8_to_lab

CHANCE = np.random.default_rng(11)


def cloud(code: tuple[int, int, int], spread: float) -> np.ndarray:
    """Colours round about one, in the even space."""
    return lab_to_even(srgb8_to_lab(code)) + CHANCE.normal(0, spread, (4000, 3))


@pytest.mark.parametrize("code", [(93, 115, 58), (220, 60, 40), (40, 60, 150), (230, 225, 215)])
@pytest.mark.parametrize("spread", [2.0, 4.0, 8.0])
def test_with_scales_it_is_the_part_within_ciede2000_4(code, spread) -> None:
    points = cloud(code, spread)
    place = points[:1]
    labs = even_to_lab(points)
    truth = (ciede2000(labs, labs[0]) < CLOSE).mean()
    weights = np.full(len(points), 1 / len(points))
    [part] = close_parts(points, weights, place, local_scale(place))
    # In blue CIEDE2000 turns with the hue, which no scale along the axes can follow.
    assert part == pytest.approx(truth, abs=0.02 if code != (40, 60, 150) else 0.08)


@pytest.mark.parametrize("spread", [4.0, 12.0, 25.0])
def test_without_scales_the_answer_to_whether_it_is_clean_is_the_same(spread) -> None:
    points = cloud((93, 115, 58), spread)
    weights = np.full(len(points), 1 / len(points))
    places = points[:200]
    exact = close_parts(points, weights, places, local_scale(places)) >= CLEAN_SHARE
    quick = close_parts(points, weights, places) >= CLEAN_SHARE
    assert (exact != quick).mean() <= 0.01


def test_half_a_per_cent_is_clean_and_a_little_less_is_not() -> None:
    points = np.array([[20.0, 0, 0], [60, 0, 0], [90, 0, 0]])
    parts = close_parts(points, np.array([0.99, 0.0053, 0.0047]), points)
    assert (parts >= CLEAN_SHARE).tolist() == [True, True, False]
