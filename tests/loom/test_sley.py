"""Sley orders against the charts, and the reed that comes nearest."""

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.loom.sley import MOST_DENTS, nearest_reeds, sley

DATA = Path(__file__).parents[1] / "data"
INCH = 2.54


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def turned(order):
    """Every order of a ring."""
    return {order[i:] + order[:i] for i in range(len(order))}


@pytest.mark.parametrize(
    "row", rows("loom_sleys.csv"), ids=lambda r: f"{r['ends']} in {r['dents']}"
)
def test_orders_of_the_charts(row):
    came = sley(float(row["ends"]) / INCH, float(row["dents"]) / INCH)
    assert came.order in turned(tuple(map(int, row["order"].split("-"))))
    assert came.ends_per_cm == pytest.approx(float(row["ends"]) / INCH)
    assert came.difference == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("order", "dents", "ends"),
    [((0, 1, 1), 10, 20 / 3), ((1, 1, 2), 8, 32 / 3), ((1, 1, 1, 2), 10, 12.5)],
)
def test_what_orders_in_rounding_charts_really_give(order, dents, ends):
    """Charts print 7, 11 and 12 for these."""
    came = sley(ends / INCH, dents / INCH)
    assert came.order in turned(order)
    assert came.ends_per_cm * INCH == pytest.approx(ends)


def test_a_metric_sett_in_an_imperial_reed_says_how_far_it_is_off():
    came = sley(8, 10 / INCH)
    assert came.order == (2,)
    assert came.difference == pytest.approx(20 / 20.32 - 1)


def test_a_longer_repeat_comes_nearer():
    far = sley(8.1, 10 / INCH, most_dents=4)
    near = sley(8.1, 10 / INCH, most_dents=24)
    assert abs(near.difference) < abs(far.difference)


@given(ends=st.integers(1, 120), dents=st.integers(1, 24))
def test_orders_are_as_even_as_can_be(ends, dents):
    order = sley(ends / 10, dents / 10, most_dents=24).order
    assert max(order) - min(order) <= 1
    ring = order * 2
    for length in range(1, len(order) + 1):
        runs = [sum(ring[i : i + length]) for i in range(len(order))]
        assert max(runs) - min(runs) <= 1  # no run of dents is fuller than it must be


@given(sett=st.floats(2, 30), reed=st.sampled_from([20, 30, 40, 50, 60]), ends=st.integers(1, 2000))
def test_dents_hold_all_ends(sett, reed, ends):
    came = sley(sett, reed / 10)
    dents = came.dents_for(ends)
    row = came.order * (dents // len(came.order) + 1)
    assert sum(row[:dents]) >= ends
    assert sum(row[: dents - 1]) < ends


def test_the_reed_that_comes_nearest():
    reeds = [dents / INCH for dents in (6, 8, 10, 12)]
    best = nearest_reeds(16 / INCH, reeds)
    assert [round(one.dents_per_cm * INCH) for one in best] == [8, 12, 6, 10]
    assert [one.text for one in best] == ["2", "1-1-2", "2-3-3", "1-2-1-2-2"]


def test_the_nearest_reed_may_be_off():
    best, worse = nearest_reeds(18 / INCH, [40 / 10, 10 / INCH], most_dents=1)
    assert best.text == "2"
    assert abs(best.difference) <= abs(worse.difference)


def test_refusals():
    with pytest.raises(InputError, match="reeds: must be at least one; got none"):
        nearest_reeds(8, [])
    with pytest.raises(InputError, match="sett: must be more than 0, and finite; got nan per cm"):
        sley(math.nan, 4)
    with pytest.raises(InputError, match="reed: must be more than 0, and finite; got 0 per cm"):
        sley(8, 0)
    with pytest.raises(
        WeavingError,
        match=rf"sley: must put at least one end into {MOST_DENTS} dents; got 0\.05 ends",
    ):
        sley(0.05, 10)
    with pytest.raises(WeavingError, match="Take a coarser reed"):
        nearest_reeds(0.05, [10])
    with pytest.raises(InputError, match="dents in the repeat: must be at least 1; got 0"):
        sley(8, 4, most_dents=0)
