"""Selvedges as lines, also where a coarse weave is seen."""

import numpy as np
import pytest

from palette.stripes.cloth_photo_outline import Outline, beside, find_outline, narrowing


def _cells(left, right, height=600, count=120, weave=0.0, seed=5):
    rng = np.random.default_rng(seed)
    rows = np.repeat(rng.uniform(-2, 0, (height // 20, 3)), 20, axis=0)
    ground = np.array([-0.2, -0.3, -0.5])
    number = np.arange(count)[:, None]
    inside = (number >= np.linspace(*left, height)) & (number < np.linspace(*right, height))
    twill = weave * np.sign(np.sin((np.arange(height)[None] / 5 + number / 1.5) * np.pi / 2))
    cells = np.where(inside[..., None], rows[None] + twill[..., None], ground)
    return cells + rng.normal(0, 0.02, cells.shape), rows


@pytest.mark.parametrize("weave", [0.0, 0.4])
def test_slanting_selvedges_are_found(weave):
    cells, rows = _cells((20, 26), (98, 103), weave=weave)
    found = find_outline(cells, rows, 24, 96, 20.0)
    assert found.left == pytest.approx((20, 26), abs=1)
    assert found.right == pytest.approx((98, 103), abs=1)


def test_cloth_that_runs_out_of_the_picture_has_none():
    cells, rows = _cells((0, 0), (120, 120))
    found = find_outline(cells, rows, 0, 120, 20.0)
    assert (found.left, found.right) == (None, None)
    assert narrowing(found) is None
    assert beside(cells, found, "left") is None


def test_narrowing_and_both_sides():
    outline = Outline(left=(20.0, 26.0), right=(100.0, 98.0))
    assert narrowing(outline) == pytest.approx(np.log(72 / 80))
    cells, rows = _cells((20, 26), (100, 98))
    inside, outside = beside(cells, outline, "right")
    assert inside == pytest.approx(rows, abs=0.1)
    assert outside == pytest.approx(np.broadcast_to([-0.2, -0.3, -0.5], (600, 3)), abs=0.1)
