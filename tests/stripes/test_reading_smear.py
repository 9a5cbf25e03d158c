"""Smear: what is foretold against a picture blurred another way, and colours under the blur."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import ndimage

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.reading_segments import running_mean
from palette.stripes.reading_smear import Smear, foretold, measured_smear, unmixed

COLOURS = np.array([[0.1, 0.05, 0.3], [0.6, 0.5, 0.2], [0.2, 0.4, 0.1], [0.7, 0.7, 0.6]])
WIDTHS = [40, 12, 30, 38]
EDGES = np.concatenate([[0], np.cumsum(WIDTHS)]).astype(float)


def _picture(window, bell):
    light = ndimage.gaussian_filter1d(
        np.repeat(COLOURS, WIDTHS, axis=0), bell, axis=0, mode="nearest"
    )
    return running_mean(light, window)


@pytest.mark.parametrize(("window", "bell"), [(2.0, 0.9), (4.0, 1.4), (7.0, 2.6)])
def test_foretold_is_what_a_blurred_picture_shows(window, bell):
    smear = Smear(window=window, bell=bell, colour_bell=bell)
    rows = np.arange(120) + 0.5
    shown = linear_srgb_to_lab(_picture(window, bell))
    assert foretold(rows, EDGES[1:-1], COLOURS, smear) == pytest.approx(
        shown, abs=1.2
    )  # rows are sampled


@given(st.floats(1.5, 9.0), st.floats(0.5, 4.0))
def test_far_from_every_edge_a_stripe_shows_its_own_colour(window, bell):
    smear = Smear(window=window, bell=bell, colour_bell=bell)
    far = foretold(np.array([-500.0, 900.0]), EDGES[1:-1], COLOURS, smear)
    assert far == pytest.approx(linear_srgb_to_lab(COLOURS[[0, -1]]), abs=1e-6)


@pytest.mark.parametrize("bell", [0.9, 1.4, 2.1])
def test_bell_is_measured_at_the_edges(bell):
    lab = linear_srgb_to_lab(_picture(4.0, bell))
    assert measured_smear(lab, EDGES, COLOURS, 4.0).bell == pytest.approx(bell, rel=0.2)


def test_narrow_stripe_is_unmixed():
    widths = [40, 4, 40]
    light = np.repeat(COLOURS[:3], widths, axis=0)
    blurred = running_mean(ndimage.gaussian_filter1d(light, 1.4, axis=0, mode="nearest"), 4.0)
    edges = np.array([0.0, 40, 44, 84])
    colours, spread = unmixed(blurred, edges, Smear(window=4.0, bell=1.4, colour_bell=1.4))
    assert np.abs(blurred - COLOURS[1]).max(axis=1).min() > 0.05  # it never shows its own colour
    assert colours == pytest.approx(COLOURS[:3], abs=0.02)
    assert spread[1] > spread[0]
