"""Warps against worked examples, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.planning import plan_warp, warp_length_mm, with_cloths
from palette.loom.take_up import take_up_from_crimp

INCH = 25.4
YARD = 914.4
BARE = {
    "shrinkage_width": 0,
    "draw_in": 0,
    "take_up": 0,
    "fringe_mm": 0,
    "gap_mm": 0,
    "sampling_mm": 0,
    "loom_waste_mm": 0,
    "sley_repeat": 1,
}
BARE_LENGTH = {
    key: BARE[key] for key in ("take_up", "fringe_mm", "gap_mm", "sampling_mm", "loom_waste_mm")
}


def test_a_cloth_with_doubled_selvedges():
    """A teaching example: 44.5 in in a 72s reed, 0.25 in at each edge at double density.

    44 x 72 + 0.5 x 72 x 2 = 3240 ends; 40 yd with 5 % regain, 42 yd.
    """
    warp = plan_warp(
        **{
            **BARE,
            "finished_width_mm": 44.5 * INCH,
            "ends_per_cm": 72 / 2.54,
            "cloth_lengths_mm": (40 * YARD,),
            "take_up": take_up_from_crimp(0.05),
            "selvedge_ends": 18,
        }
    )
    assert warp.ends == 3240
    assert warp.working_ends == 3204
    assert warp.length_mm == pytest.approx(42 * YARD)
    assert warp.filled_reed_mm == pytest.approx(44.5 * INCH)


def test_towels_on_one_warp():
    """A handweaving magazine: 4 towels of 34 in, 13 in take-up, 31 in waste are 5 yd exactly."""
    take_up = 13 / (136 + 13)
    four = warp_length_mm(
        (34 * INCH,) * 4, **{**BARE_LENGTH, "take_up": take_up, "loom_waste_mm": 31 * INCH}
    )
    eight = warp_length_mm(
        (34 * INCH,) * 8, **{**BARE_LENGTH, "take_up": take_up, "loom_waste_mm": 31 * INCH}
    )
    assert four / YARD == pytest.approx(5)
    assert round(eight / INCH) == 329  # own, at the same rate
    assert round(eight / YARD, 2) == 9.14


def test_a_rigid_heddle_warp():
    """A weaver's record: 8 to the inch x 7 in = 56 ends x 90 in (70 and 20 waste) = 140 yd."""
    warp = plan_warp(
        **{
            **BARE,
            "finished_width_mm": 7 * INCH,
            "ends_per_cm": 8 / 2.54,
            "cloth_lengths_mm": (70 * INCH,),
            "loom_waste_mm": 20 * INCH,
        }
    )
    assert warp.ends == 56
    assert warp.yarn_length_m == pytest.approx(140 * 0.9144)
    assert 2 * warp.yarn_length_m / 0.9144 == pytest.approx(280)  # with as much weft, guessed


def test_a_fine_wide_warp():
    """A weaver's record, 2014: 48 in x 48 = 2304 ends x 7.5 yd = 17 280 yd; 2.057 lb at 8400 yd."""
    warp = plan_warp(
        **{
            **BARE,
            "finished_width_mm": 48 * INCH,
            "ends_per_cm": 48 / 2.54,
            "cloth_lengths_mm": (7.5 * YARD,),
        }
    )
    yards = warp.yarn_length_m / 0.9144
    assert warp.ends == 2304
    assert yards == pytest.approx(17280)
    assert round(yards / 8400, 3) == 2.057


def test_adding_percentages_would_be_short():
    """Own: adding 10 % and 8 % to the integrated scarf gives 318.84 cm where it takes 322.39."""
    divided = warp_length_mm((1800 / 0.9,), take_up=0.08, fringe_mm=150, loom_waste_mm=750)
    added = 1800 * 1.10 * 1.08 + 2 * 150 + 750
    assert (round(divided / 10, 2), round(added / 10, 2)) == (322.39, 318.84)


def test_everything_on_the_warp_is_counted_once():
    warp = plan_warp(
        finished_width_mm=500,
        ends_per_cm=10,
        cloth_lengths_mm=(900, 1100),
        shrinkage_width=0.1,
        draw_in=0.05,
        take_up=0.2,
        fringe_mm=100,
        gap_mm=30,
        sampling_mm=200,
        loom_waste_mm=700,
    )
    assert warp.length_mm == pytest.approx(2200 / 0.8 + 4 * 100 + 30 + 700)
    assert warp.woven_mm == 2200
    assert warp.woven_width_mm == pytest.approx(500 / 0.9)
    assert warp.width_in_reed_mm == pytest.approx(500 / 0.9 / 0.95)


@pytest.mark.parametrize(("repeat", "ends"), [(1, 200), (2, 200), (3, 201), (7, 203)])
def test_ends_fill_whole_sley_repeats(repeat, ends):
    warp = plan_warp(
        **{
            **BARE,
            "finished_width_mm": 200,
            "ends_per_cm": 10,
            "cloth_lengths_mm": (1000,),
            "sley_repeat": repeat,
        }
    )
    assert warp.ends == ends


@given(
    width=st.floats(50, 3000),
    sett=st.floats(1, 40),
    shrinkage=st.floats(0, 0.5),
    draw_in=st.floats(0, 0.3),
    repeat=st.integers(1, 12),
)
def test_the_finished_width_comes_out(width, sett, shrinkage, draw_in, repeat):
    warp = plan_warp(
        finished_width_mm=width,
        ends_per_cm=sett,
        cloth_lengths_mm=(1000,),
        shrinkage_width=shrinkage,
        draw_in=draw_in,
        sley_repeat=repeat,
    )
    assert warp.width_in_reed_mm * (1 - draw_in) * (1 - shrinkage) == pytest.approx(width)
    assert warp.ends % repeat == 0
    assert warp.ends >= warp.width_in_reed_mm / 10 * sett - 1e-5
    assert warp.ends - repeat < warp.width_in_reed_mm / 10 * sett + 1e-5


@given(lengths=st.lists(st.floats(10, 5000), min_size=1, max_size=6), more=st.floats(1, 3000))
def test_a_longer_cloth_takes_a_longer_warp(lengths, more):
    warp = plan_warp(finished_width_mm=300, ends_per_cm=8, cloth_lengths_mm=tuple(lengths))
    longer = with_cloths(warp, (lengths[0] + more, *lengths[1:]))
    assert longer.length_mm - warp.length_mm == pytest.approx(more / (1 - warp.take_up))
    assert longer.ends == warp.ends
    assert with_cloths(warp, warp.cloth_lengths_mm) == warp


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"finished_width_mm": 0}, "finished width: must be more than 0, and finite; got 0 mm"),
        ({"finished_width_mm": math.nan}, "finished width: must be more than 0, and finite"),
        ({"ends_per_cm": 0}, "sett: must be more than 0, and finite; got 0 per cm"),
        ({"cloth_lengths_mm": ()}, "warp: must have at least one cloth on it; got none"),
        ({"cloth_lengths_mm": (100, 0)}, "woven length of cloth 2: must be more than 0"),
        ({"draw_in": 1}, "draw-in: must be from 0 to under 1; got 1"),
        ({"take_up": -0.1}, r"take-up: must be from 0 to under 1; got -0\.1"),
        ({"shrinkage_width": math.nan}, "shrinkage in width: must be from 0 to under 1; got nan"),
        ({"loom_waste_mm": -1}, "loom waste: must be 0 or more, and finite; got -1 mm"),
        ({"gap_mm": math.inf}, "gap: must be 0 or more, and finite; got inf mm"),
        ({"sley_repeat": 2.5}, "sley repeat: must be a whole number; got 2.5"),
        ({"selvedge_ends": 1.5}, "selvedge ends at each side: must be a whole number; got 1.5"),
        ({"selvedge_ends": -1}, "selvedge ends at each side: must be at least 0; got -1"),
        ({"sley_repeat": 0}, "sley repeat: must be at least 1; got 0"),
        ({"selvedge_ends": 1000}, r"selvedge ends at each side: must be from 0 to \d+ of the \d+"),
    ],
)
def test_refusals(change, words):
    usual = {"finished_width_mm": 300, "ends_per_cm": 8, "cloth_lengths_mm": (1000,)}
    with pytest.raises(InputError, match=words):
        plan_warp(**{**usual, **change})
