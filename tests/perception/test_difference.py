import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.perception.difference import (
    NEUTRAL_CHROMA,
    chroma,
    ciede2000,
    hue_degrees,
    is_neutral,
)
from palette.perception.spaces import srgb8_to_lab

DATA = Path(__file__).parents[1] / "data" / "ciede2000_sharma_2005.csv"
LAB = st.tuples(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100))


def published_pairs() -> list[list[float]]:
    lines = [line for line in DATA.read_text().splitlines() if not line.startswith("#")]
    return [[float(cell) for cell in row] for row in list(csv.reader(lines))[1:]]


def test_all_34_published_pairs_at_four_decimals() -> None:
    pairs = np.array(published_pairs())
    assert len(pairs) == 34
    found = ciede2000(pairs[:, :3], pairs[:, 3:6])
    assert [f"{value:.4f}" for value in found] == [f"{value:.4f}" for value in pairs[:, 6]]


def test_the_published_pairs_hold_the_other_way_round() -> None:
    pairs = np.array(published_pairs())
    np.testing.assert_allclose(
        ciede2000(pairs[:, 3:6], pairs[:, :3]), pairs[:, 6], atol=5.1e-5, rtol=0
    )


def test_the_global_scale_of_colour_science_changes_nothing() -> None:
    import colour

    with colour.domain_range_scale("1"):
        found = ciede2000([50, 2.6772, -79.7751], [50, 0, -82.7485])
    assert round(float(found), 4) == 2.0425


def test_textiles_halves_a_pure_lightness_difference() -> None:
    plain = ciede2000([50, 0, 0], [60, 0, 0])
    assert float(ciede2000([50, 0, 0], [60, 0, 0], textiles=True)) == pytest.approx(plain / 2)


def test_shapes_broadcast() -> None:
    few, many = np.zeros((1, 4, 3)), np.full((5, 1, 3), 10.0)
    assert ciede2000(few, many).shape == (5, 4)


@given(LAB, LAB)
def test_a_difference_is_symmetric_and_never_negative(one, other) -> None:
    there, back = float(ciede2000(one, other)), float(ciede2000(other, one))
    assert there >= 0
    assert there == pytest.approx(back, abs=1e-9)


def test_every_8_bit_grey_is_neutral_and_a_pale_leaf_is_not() -> None:
    greys = np.repeat(np.arange(256)[:, None], 3, axis=1)
    assert is_neutral(srgb8_to_lab(greys)).all()
    assert not is_neutral(srgb8_to_lab([200, 206, 190]))
    assert float(chroma([50, NEUTRAL_CHROMA, 0])) == NEUTRAL_CHROMA


def test_hue_runs_from_red_through_yellow() -> None:
    assert hue_degrees([[50, 10, 0], [50, 0, 10], [50, -10, 0]]).tolist() == [0, 90, 180]
