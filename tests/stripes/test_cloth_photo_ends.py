"""Ends of a cloth: ground, shadow and fringe told from stripes."""

import numpy as np
import pytest

from palette.stripes.cloth_photo_ends import Pieces, find_ends, pieces_of
from palette.stripes.cloth_photo_outline import Outline

CLOTH, GROUND, FRINGE, SHADOW = (
    (0.4, -0.6, 0.01),
    (0.01, 0.02, 0.01),
    (0.2, -0.3, 0.3),
    (
        0.01,
        -0.5,
        0.01,
    ),
)
PERIOD = 5.0


def _pieces(*kinds, widths=None):
    looks = np.array(kinds)
    widths = widths or [60] * len(kinds)
    cuts = np.concatenate([[0], np.cumsum(widths)])
    return Pieces(cuts=cuts, tint=looks[:, 0], light=looks[:, 1], uneven=looks[:, 2])


@pytest.mark.parametrize(
    ("kinds", "ends"),
    [
        ([CLOTH] * 8, (None, None)),
        ([GROUND, *[CLOTH] * 8, GROUND], (60, 540)),
        ([GROUND, FRINGE, *[CLOTH] * 8, FRINGE, GROUND], (120, 600)),
        ([GROUND, *[CLOTH] * 8], (60, None)),
        ([GROUND, CLOTH, GROUND, *[CLOTH] * 6, GROUND], (60, 540)),  # a stripe like the ground
        ([GROUND, FRINGE, GROUND, *[CLOTH] * 8, GROUND], (120, 660)),  # the first one like it
    ],
)
def test_ends(kinds, ends):
    assert find_ends(_pieces(*kinds), PERIOD) == ends


def test_shadow_of_the_cloth_is_no_stripe():
    kinds = [GROUND, SHADOW, *[CLOTH] * 8, GROUND]
    widths = [60, 12, *[60] * 8, 60]
    assert find_ends(_pieces(*kinds, widths=widths), PERIOD) == (72, 552)


def test_uneven_rim_of_a_stripe_is_no_fringe():
    rim = (CLOTH[0] + 0.03, CLOTH[1], FRINGE[2])
    widths = [60, 20, *[60] * 8, 60]
    assert find_ends(_pieces(GROUND, rim, *[CLOTH] * 8, GROUND, widths=widths), PERIOD) == (60, 560)
    bundles = FRINGE  # the ground shows through
    found = find_ends(_pieces(GROUND, bundles, *[CLOTH] * 8, GROUND, widths=widths), PERIOD)
    assert found == (80, 560)


def test_pieces_are_compared_across_the_selvedges():
    cells = np.zeros((60, 90, 3))
    cells[10:50, 20:70] = [-1.0, -0.5, -0.2]
    outline = Outline(left=(10.0, 10.0), right=(50.0, 50.0))
    pieces = pieces_of(cells, outline, [0, 20, 70, 90])
    assert pieces.tint == pytest.approx([0, 0.4333, 0], abs=0.01)
    assert pieces.light == pytest.approx([0, -0.5667, 0], abs=0.01)


def test_bundles_of_a_fringe_are_uneven():
    cells = np.zeros((80, 60, 3))
    cells[:, :30] += np.where(np.arange(80) % 8 < 4, 0.3, -0.3)[:, None, None]
    pieces = pieces_of(cells, Outline(left=None, right=None), [0, 30, 60])
    assert pieces.uneven[0] > 0.1
    assert pieces.uneven[1] == pytest.approx(0, abs=1e-9)
