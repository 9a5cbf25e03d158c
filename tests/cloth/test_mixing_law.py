import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.mixing_law import (
    channels_to_lab,
    lab_to_channels,
    mix_lab,
    mixing_function,
    reflectance,
)
from palette.perception.spaces import lab_to_linear_srgb, linear_to_srgb, srgb8_to_lab

TABLE = Path(__file__).parents[1] / "data" / "stearns_noechel_blends.csv"
LINES = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
BLENDS = list(csv.DictReader(LINES))


@pytest.mark.parametrize("row", BLENDS, ids=lambda row: f"M={row['constant']} {row['share']}")
def test_blends_of_the_published_law(row):
    constant, share = float(row["constant"]), float(row["share"])
    functions = mixing_function([float(row["first"]), float(row["second"])], constant=constant)
    for printed, value in zip(
        (row["first_function"], row["second_function"]), functions, strict=True
    ):
        if printed:
            assert value == pytest.approx(float(printed), abs=6e-7)
    mixed = reflectance(share * functions[0] + (1 - share) * functions[1], constant=constant)
    # Printed to five digits; half a digit either way, and the one tie between two of them.
    assert mixed == pytest.approx(float(row["mix"]), abs=6e-6)


@given(st.floats(0, 1), st.floats(0.0, 0.3))
def test_the_law_undone_is_the_reflectance(value, constant):
    there = mixing_function(value, constant=constant)
    assert reflectance(there, constant=constant) == pytest.approx(value, abs=1e-9)


def test_without_a_constant_it_is_the_average_of_light():
    # IEC 61966-2-1: half the light of black and white is code 187.5, not 127.5.
    grey = mix_lab([0.0, 0.0, 0.0], [100.0, 0.0, 0.0], constant=0.0)
    codes = 255 * linear_to_srgb(lab_to_linear_srgb(grey))
    assert codes == pytest.approx([187.5] * 3, abs=0.05)
    # Exact arithmetic from the same standard, to the digit shown.
    pair = srgb8_to_lab([[87, 108, 67], [214, 126, 44]])
    codes = 255 * linear_to_srgb(lab_to_linear_srgb(mix_lab(pair[0], pair[1], constant=0.0)))
    assert codes == pytest.approx([166.5, 117.4, 56.8], abs=0.06)


def test_channels_come_back_as_the_colour():
    labs = np.array([[50.0, 40.0, -30.0], [90.0, -5.0, 80.0], [100.0, 0.0, 0.0]])
    assert channels_to_lab(lab_to_channels(labs)) == pytest.approx(labs, abs=1e-6)
