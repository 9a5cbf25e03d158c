"""Straightening: the slope of the wefts, and how the ends spread along the warp."""

import numpy as np
import pytest

from palette.stripes.cloth_photo_straighten import straighten, warp_growth

HEIGHT, WIDTH = 420, 520


def _cloth(growth, degrees=0.0, ends=0.12):
    """Light of level stripes and of ends that spread by `growth` from the first row to the last."""
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH].astype(float)
    along = y - np.tan(np.deg2rad(degrees)) * (x - WIDTH / 2)
    size = np.exp(growth * (y / HEIGHT - 0.5))
    across = (x - WIDTH / 2) / size
    rng = np.random.default_rng(3)
    bands = rng.uniform(0.1, 0.6, (60, 3))[np.clip(along // 14 + 10, 0, 59).astype(int)]
    shade = rng.normal(0, 1, 400)[np.clip(across // 3 + 200, 0, 399).astype(int)]
    grain = rng.normal(0, 0.02, (HEIGHT, WIDTH, 1))
    return (bands * (1 + ends * shade)[..., None] + grain).clip(0.01, 1)


@pytest.mark.parametrize("growth", [-0.06, 0.0, 0.05])
def test_growth_is_that_of_the_ends(growth):
    assert warp_growth(_cloth(growth), 0.0) == pytest.approx(growth, abs=0.006)


def test_growth_is_not_told_where_no_ends_are_seen():
    assert warp_growth(_cloth(0.05, ends=0.0), 0.0) is None


@pytest.mark.parametrize("degrees", [-3.0, 2.0])
def test_slope_of_the_wefts(degrees):
    found = straighten(_cloth(0.0, degrees), round(degrees))
    assert found.skew_degrees == pytest.approx(degrees, abs=0.1)
