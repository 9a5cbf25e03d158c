import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.stripes.lengths import (
    finished_length_mm,
    picks_for_length,
    shortest_finished_mm,
)

LENGTHS = st.floats(1, 20_000)
DENSITIES = st.floats(1, 40)
SHARES = st.floats(0, 0.9)


def test_scarf_of_180_cm_at_20_per_inch() -> None:
    # own arithmetic: 180 cm / 0.9 = 200 cm on the loom, 200 / 2.54 x 20 = 1574.8 picks
    assert picks_for_length(1800, 20 / 2.54, shrinkage_length=0.1) == 1575
    assert picks_for_length(1800, 20 / 2.54, shrinkage_length=0.1, step=2) == 1574


def test_half_a_step_goes_up() -> None:
    assert picks_for_length(25, 8, step=8) == 24
    assert picks_for_length(35, 8, step=8) == 32  # 28 picks are 3.5 steps


@given(LENGTHS, DENSITIES, SHARES, st.integers(1, 16))
def test_picks_are_the_nearest_multiple_of_the_step(
    length: float, density: float, shrinkage: float, step: int
) -> None:
    picks = picks_for_length(length, density, shrinkage_length=shrinkage, step=step)
    exact = length / (1 - shrinkage) * density / 10
    assert picks % step == 0
    assert abs(picks - exact) <= step / 2 * (1 + 1e-9) + 1e-6


@given(st.integers(1, 100_000), DENSITIES, SHARES)
def test_shortest_length_holds_its_picks(picks: int, density: float, shrinkage: float) -> None:
    length = shortest_finished_mm(picks, density, shrinkage)
    assert length >= finished_length_mm(picks, density, shrinkage) - 1e-6
    assert picks_for_length(length, density, shrinkage_length=shrinkage) >= picks


@pytest.mark.parametrize("length", [0, -1, math.nan, math.inf])
def test_length_must_be_positive(length: float) -> None:
    with pytest.raises(InputError, match="finished length: must be more than 0, and finite; got"):
        picks_for_length(length, 8)


def test_density_and_shrinkage_and_step_are_checked() -> None:
    with pytest.raises(InputError, match="picks per cm: must be more than 0, and finite; got nan"):
        picks_for_length(100, math.nan)
    with pytest.raises(InputError, match="shrinkage in length: must be from 0 to under 1"):
        picks_for_length(100, 8, shrinkage_length=1)
    with pytest.raises(InputError, match="step: must be at least 1; got 0"):
        picks_for_length(100, 8, step=0)
    with pytest.raises(InputError, match="finished length: must be a length that cloth has"):
        picks_for_length(1e308, 40)
