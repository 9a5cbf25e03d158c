"""Take-up and shrinkage against the trade books and weavers' records."""

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.take_up import (
    CLOSE_CLOTH,
    MEDIUM_CLOTH,
    crimp_from_take_up,
    estimated_take_up,
    share_lost,
    size_before,
    take_up_from_crimp,
)

DATA = Path(__file__).parents[1] / "data"


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", rows("loom_take_up.csv"), ids=lambda r: r["source"][:40])
def test_what_is_lost_and_what_is_added(row):
    lost = share_lost(float(row["before"]), float(row["after"]))
    decimals = int(row["decimals"])
    assert round(lost * 100, decimals) == float(row["lost_percent"])
    assert round(crimp_from_take_up(lost) * 100, decimals) == float(row["added_percent"])


@pytest.mark.parametrize("row", rows("loom_shrinkage.csv"), ids=lambda r: r["shrinkage"])
def test_shrinkage_divides(row):
    shrinkage = float(row["shrinkage"])
    assert round(size_before(10, shrinkage), 3) == float(row["woven"])
    assert float(row["added"]) * (1 - shrinkage) == pytest.approx(float(row["ends_at"]))
    assert size_before(10, shrinkage) > float(row["added"])


def test_a_ratio_of_a_sample():
    """A yarn supplier: 10 to 8.5, so 15 in wanted takes 17.65 (printed 17.64 from 1.176)."""
    assert round(size_before(15, share_lost(10, 8.5)), 2) == 17.65
    assert round(size_before(1, share_lost(10, 9)), 3) == 1.111


@pytest.mark.parametrize(("wanted", "divided", "added"), [(3, 3.158, 3.15), (5, 5.263, 5.25)])
def test_adding_is_harmless_at_five_per_cent(wanted, divided, added):
    """A weaving teacher adds 5 %; dividing gives a hundredth more."""
    assert round(size_before(wanted, 0.05), 3) == divided
    assert size_before(wanted, 0.05) - added < 0.014


@pytest.mark.parametrize(
    ("picks", "interlacings", "count", "factor", "printed", "within"),
    [
        (180, 2 / 5, 70, CLOSE_CLOTH, 4.11, 0.005),  # Taylor p.427, five-end satin (prints 4)
        (120, 1, 70, CLOSE_CLOTH, 6 + 6 / 7, 0.005),  # Taylor p.428
        (60, 1, 40, MEDIUM_CLOTH, 4.5, 0.005),  # Taylor p.429
    ],
)
def test_taylors_estimate(picks, interlacings, count, factor, printed, within):
    take_up = estimated_take_up(picks, count, interlacings_per_pick=interlacings, factor=factor)
    assert abs(crimp_from_take_up(take_up) * 100 - printed) <= within


def test_taylors_satin_needs_about_98_yards_for_94():
    take_up = estimated_take_up(180, 70, interlacings_per_pick=2 / 5, factor=CLOSE_CLOTH)
    assert round(size_before(94, take_up)) == 98


@given(take_up=st.floats(0, 0.99))
def test_take_up_and_crimp_turn_into_each_other(take_up):
    assert take_up_from_crimp(crimp_from_take_up(take_up)) == pytest.approx(take_up)


def test_refusals():
    with pytest.raises(InputError, match="crimp: must be 0 or more, and finite; got nan"):
        take_up_from_crimp(math.nan)
    with pytest.raises(InputError, match="take-up: must be from 0 to under 1; got 1"):
        crimp_from_take_up(1)
    with pytest.raises(InputError, match="at most the size before; got 8 before and 10 after"):
        share_lost(8, 10)
    with pytest.raises(InputError, match=r"share lost: must be from 0 to under 1; got -0\.1"):
        size_before(10, -0.1)
    with pytest.raises(InputError, match="weft count: must be more than 0, and finite; got 0"):
        estimated_take_up(60, 0)
