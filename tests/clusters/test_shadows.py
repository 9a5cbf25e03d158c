import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from palette.clusters.shadows import folded, lit_places
from palette.perception.spaces import lab_to_xyz, xyz_to_lab

LAB = st.tuples(st.floats(30, 90), st.floats(-40, 40), st.floats(-40, 40))


@given(LAB, st.floats(0.2, 1))
def test_less_light_on_the_same_leaf_changes_only_lightness(lab, part) -> None:
    shade = xyz_to_lab(lab_to_xyz(lab) * part)
    if shade[0] < 20 or (lab_to_xyz(lab) * part).min() < 0.02:
        return  # under the straight part of the curve nothing is promised
    sun, dark = folded(np.array([lab, shade]))
    np.testing.assert_allclose(sun[1:], dark[1:], atol=1e-6)


def test_white_and_black_still_part() -> None:
    white, black = folded(np.array([[95.0, 0, 0], [10, 0, 0]]))
    assert white[0] - black[0] > 15


def test_the_lit_half_by_weight() -> None:
    labs = np.array([[70.0, -30, 40], [50, -25, 30], [20, -10, 15]])
    [place] = lit_places(labs, np.array([0.5, 0.2, 0.3]), np.zeros(3, dtype=int), 1)
    np.testing.assert_allclose(place, labs[0])


def test_an_empty_group_has_no_place() -> None:
    assert np.isnan(lit_places(np.zeros((1, 3)), np.ones(1), np.zeros(1, dtype=int), 2)[1]).all()


def test_next_to_black_no_colour_is_made_of_noise() -> None:
    # One code of blue in black, (0, 0, 1), is no blue yarn in the shade.
    black, noise = folded(np.array([[0.0, 0, 0], [0.3, 1.5, -5.0]]))
    assert np.linalg.norm(noise - black) < 15
