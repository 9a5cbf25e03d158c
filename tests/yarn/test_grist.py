"""Counts of yarns without a label."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.measures import G_PER_OUNCE, M_PER_YARD
from palette.yarn.count import parse_count
from palette.yarn.grist import (
    count_from_balance,
    count_from_skein,
    count_from_wraps,
    skein_length_m,
    wraps_per_cm,
)


def test_skeins_in_yards():
    """A spinning magazine: a two-yard niddy-noddy, strands x 2; 28 in round, 28 x strands / 36."""
    assert skein_length_m(2 * M_PER_YARD, 120) / M_PER_YARD == pytest.approx(240)
    assert skein_length_m(28 * 0.0254, 90) / M_PER_YARD == pytest.approx(28 * 90 / 36)


def test_grist_and_mass_give_a_length():
    """A spinner's record: 1450 yd/lb and 1.25 oz is 113.28 yd."""
    count = parse_count("1450 yd/lb")
    assert round(count.length_m(1.25 * G_PER_OUNCE) / M_PER_YARD, 2) == 113.28


def test_a_yarn_balance():
    """A spinner's note: inches that balance x 100 is yards per pound; 9 in, 900."""
    assert count_from_balance(9 * 25.4).yd_per_lb == pytest.approx(900)


@given(length=st.floats(1, 5000), mass=st.floats(1, 1000))
def test_a_weighed_skein_weighs_what_it_did(length, mass):
    count = count_from_skein(length, mass)
    assert count.mass_g(length) == pytest.approx(mass)
    assert parse_count(count.label) == count


def test_a_count_from_wraps_goes_back_to_its_wraps():
    """Ashenhurst turned round: four times the count for twice the wraps."""
    assert wraps_per_cm(30, 25) == pytest.approx(12)
    fine, thick = count_from_wraps(16), count_from_wraps(8)
    assert fine.yd_per_lb == pytest.approx(4 * thick.yd_per_lb, rel=1e-3)


def test_wraps_of_a_published_diameter():
    """J. T. Taylor, Cotton Weaving and Designing, p. 436: for 32s cotton the root is 163.95.

    Ashenhurst takes 8 % off it for the diameters in an inch, and wraps are taken to read 70 % of
    those (a weaving teacher).
    """
    count = count_from_wraps(163.95 * 0.92 * 0.70 / 2.54, fibre="cotton")
    assert count.in_system("NeC") == pytest.approx(32, rel=2e-3)


def test_refusals():
    with pytest.raises(InputError, match="skein mass: must be more than 0, and finite; got 0"):
        count_from_skein(100, 0)
    with pytest.raises(InputError, match="strands: must be more than 0, and finite; got nan"):
        skein_length_m(1.5, math.nan)
    with pytest.raises(InputError, match=r"fibre: must be one of cotton, .*; got 'zork'"):
        count_from_wraps(8, fibre="zork")


@given(st.floats(0.5, 90.0))
def test_any_wraps_give_a_count(wraps):
    # Rope to sewing thread: large counts are written without an exponent, which no label has.
    count = count_from_wraps(wraps)
    assert "e+" not in count.label
    assert count.yd_per_lb == pytest.approx(count_from_wraps(1.0).yd_per_lb * wraps**2, rel=2e-3)


@given(st.floats(1e-3, 1e6), st.floats(1e-3, 1e6))
def test_any_skein_gives_a_count(length_m, mass_g):
    assert count_from_skein(length_m, mass_g).tex == pytest.approx(1000 * mass_g / length_m)
