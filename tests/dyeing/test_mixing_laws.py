"""Mixing laws against worked blends."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.mixing_law import mixing_function
from palette.dyeing.mixing_laws import (
    absorption,
    absorption_reflectance,
    blend_reflectance,
    friele_function,
    friele_reflectance,
)

DATA = Path(__file__).parents[1] / "data" / "blend_worked_examples.csv"
ROWS = [
    row
    for row in csv.reader(DATA.read_text(encoding="utf-8").splitlines())
    if not row[0].startswith("#")
]
LAWS = ["stearns-noechel", "friele", "kubelka-munk", "light"]
FUNCTIONS = {
    "stearns-noechel": lambda r, c: mixing_function(r, constant=c),
    "friele": lambda r, c: friele_function(r, constant=c),
    "kubelka-munk": lambda r, c: absorption(r),
}
R = st.floats(0.02, 0.98)


def half_a_digit(printed: str) -> float:
    # 0.51 and not 0.5: the first mix is 0.1330450 exactly, printed after two roundings as 0.13305.
    return 0.51 * 10 ** -len(printed.partition(".")[2])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]} {row[1]} {row[2]}")
def test_worked_blends_to_the_printed_digits(row: list[str]) -> None:
    law, constant, share, first, second, f_first, f_second, mix = row
    m = float(constant) if constant else None
    parts = [float(first), float(second)]
    shares = [float(share), 1 - float(share)]
    mixed = float(blend_reflectance(parts, shares, law=law, constant=m))
    assert mixed == pytest.approx(float(mix), abs=half_a_digit(mix))
    for reflectance, printed in zip(parts, (f_first, f_second), strict=True):
        if printed:
            value = float(FUNCTIONS[law](reflectance, m))
            assert value == pytest.approx(float(printed), abs=half_a_digit(printed))


@pytest.mark.parametrize(("reflectance", "ratio"), [(0.5, 0.25), (0.25, 1.125), (0.1, 4.05)])
def test_absorption_of_published_reflectances(reflectance: float, ratio: float) -> None:
    # Kubelka and Munk's definition, exact arithmetic.
    assert float(absorption(reflectance)) == pytest.approx(ratio)


@pytest.mark.parametrize(("ratio", "reflectance"), [(1.0, 0.267949), (2.0, 0.171573)])
def test_absorption_undone(ratio: float, reflectance: float) -> None:
    # 2 - sqrt(3) and 3 - sqrt(8): exact arithmetic.
    assert float(absorption_reflectance(ratio)) == pytest.approx(reflectance, abs=5e-7)


@given(R)
def test_functions_and_their_inverses(reflectance: float) -> None:
    assert float(absorption_reflectance(absorption(reflectance))) == pytest.approx(reflectance)
    assert float(friele_reflectance(friele_function(reflectance))) == pytest.approx(
        reflectance, rel=1e-5
    )


@given(st.sampled_from(LAWS), R, R, st.floats(0, 1))
def test_every_mix_lies_between_its_parts(law, first: float, second: float, share: float) -> None:
    mixed = float(blend_reflectance([first, second], [share, 1 - share], law=law))
    assert min(first, second) - 1e-6 <= mixed <= max(first, second) + 1e-6
    turned = float(blend_reflectance([second, first], [1 - share, share], law=law))
    assert mixed == pytest.approx(turned)


@given(st.sampled_from(LAWS), R)
def test_a_part_mixed_with_itself_stays(law, reflectance: float) -> None:
    spectrum = np.full((2, 5), reflectance)
    assert blend_reflectance(spectrum, [0.3, 0.7], law=law) == pytest.approx(spectrum[0], rel=1e-6)
