import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.correction import (
    coefficients,
    logit_difference,
    logit_shift,
    logit_slope,
    nearness,
    shift_channels,
)
from palette.cloth.mixing_law import channels_to_lab

inside = st.floats(0.01, 0.99)


@given(inside, inside)
def test_a_shift_is_what_the_difference_says(first, second):
    one, other = np.array([[first] * 3]), np.array([[second] * 3])
    assert shift_channels(one, logit_difference(one, other)) == pytest.approx(other)


@given(st.floats(-0.5, 1.5), st.floats(-3, 3))
def test_no_reflectance_leaves_black_and_white_further_behind(value, shift):
    moved = shift_channels(np.array([value]), np.array([shift]))[0]
    assert min(value, 0) - 0.05 <= moved <= max(value, 1) + 0.05
    assert shift_channels(np.array([value]), np.array([0.0]))[0] == pytest.approx(value)


@given(inside)
def test_the_slope_is_that_of_lightness(value):
    grey, step = np.array([[value] * 3]), 1e-5
    moved = shift_channels(grey, np.full((1, 3), step))
    rise = (channels_to_lab(moved) - channels_to_lab(grey))[0, 0] / step
    # CIE 15:2018, 8.2.1: the cube root above 216/24389, which every value here is.
    assert logit_slope(grey)[0, 0] == pytest.approx(rise, rel=1e-3)


def test_nearness_falls_from_one():
    yarn = np.array([[50.0, 0.0, 0.0]])
    places = np.array([[50.0, 0.0, 0.0], [50.0, 22.0, 0.0], [50.0, 500.0, 0.0]])
    near = nearness(places, yarn, 22.0)[:, 0]
    assert near == pytest.approx([1, np.exp(-0.5), 0])


def test_shifts_of_shares_in_between_lie_on_a_smooth_curve():
    fitted, count = coefficients(), 41
    warp, weft = (np.tile(fitted.yarns_lab[number], (count, 1)) for number in (0, 11))
    shift = logit_shift(warp, weft, np.linspace(0, 1, count), fitted)
    # Pairs of yarns enter as squares of the shares: third differences vanish.
    assert np.diff(shift, n=3, axis=0) == pytest.approx(0, abs=1e-9)
