import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.clusters.hues import hue_distance
from palette.perception.even import lab_to_even
from palette.perception.spaces import linear_srgb_to_lab

LEAF = np.array([[0.10, 0.22, 0.03]])  # linear light of a matt green


def of(light: np.ndarray) -> np.ndarray:
    return lab_to_even(linear_srgb_to_lab(light))


@given(st.floats(0.25, 3.0), st.floats(0, 0.4))
def test_shade_and_sheen_of_a_leaf_are_near_its_hue(shade, sheen) -> None:
    shaded = LEAF * shade + sheen  # dichromatic: body colour dimmed, light of the lamp added
    assert hue_distance(of(shaded), of(LEAF))[0] < 5


def test_a_beetle_is_not_however_it_is_lit() -> None:
    beetle = np.array([[0.5, 0.04, 0.02]])
    for shade in (0.3, 1.0, 1.6):
        assert hue_distance(of(beetle * shade), of(LEAF))[0] > 15


def test_greys_are_of_any_hue() -> None:
    greys = of(np.array([[0.0, 0, 0], [0.2, 0.2, 0.2], [1, 1, 1]]))
    assert hue_distance(greys, of(LEAF)) == pytest.approx([0, 0, 0], abs=0.3)


def test_any_colour_is_another_hue_beside_grey_alone() -> None:
    grey, leaf = of(np.array([[0.2, 0.2, 0.2]])), of(LEAF)
    assert hue_distance(leaf, grey)[0] == pytest.approx(float(np.hypot(*leaf[0, 1:])), abs=0.5)


def test_without_others_all_is_far() -> None:
    assert np.isinf(hue_distance(of(LEAF), np.empty((0, 3)))).all()
