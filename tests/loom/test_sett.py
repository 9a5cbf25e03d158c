"""Setts against Ashenhurst's rule as Taylor and weavers' notes print it."""

import csv
import math
from pathlib import Path

import pytest

from palette.errors import InputError
from palette.loom.drafts import PLAIN_WEAVE, parse_draft, weave_named
from palette.loom.sett import (
    diameters_per_cm,
    sett_for_weave,
    sett_from_count,
    sett_from_wraps,
)
from palette.loom.structure import structure_of

DATA = Path(__file__).parents[1] / "data"
INCH = 2.54
TEX_YD_LB = 496054.648  # tex x yards per pound, ASTM D2260


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize(
    "row", rows("loom_diameters.csv"), ids=lambda r: f"{r['yd_per_lb']} yd/lb {r['source'][:12]}"
)
def test_diameters_as_printed(row):
    tex = TEX_YD_LB / float(row["yd_per_lb"])
    came = diameters_per_cm(tex, float(row["f"])) * INCH
    assert abs(came - float(row["diameters"])) <= float(row["within"])


@pytest.mark.parametrize("row", rows("loom_setts.csv"), ids=lambda r: r["source"])
def test_room_of_a_weave(row):
    draft = parse_draft(f"{row['threading']}; {row['tie_up']}; {row['treadling']}")
    structure = structure_of(draft)
    ends, interlacings = int(row["ends"]), int(row["interlacings"])
    assert (structure.ends, structure.weft_interlacings) == (ends, interlacings)
    assert structure.room == pytest.approx(ends / (ends + interlacings))


def test_setts_of_8_2_cotton_in_the_sett_notes():
    """Sett notes (1999): 3360 yd/lb at 0.9 gives 26 in plain weave, 34 (cut short) in 2/2 twill."""
    side_by_side = diameters_per_cm(TEX_YD_LB / 3360, 0.9) * INCH
    assert round(side_by_side * structure_of(PLAIN_WEAVE).room) == 26
    assert math.floor(side_by_side * structure_of(weave_named("2/2 twill")).room) == 34


def test_the_same_firmness_in_another_weave():
    """Taylor p.464: plain 103 becomes 2/2 twill 137 1/3; 137 becomes 146.8 in a 5-2-1-2 twill."""
    twill = weave_named("2/2 twill")
    assert sett_for_weave(103, PLAIN_WEAVE, twill) == pytest.approx(137 + 1 / 3)
    row = rows("loom_setts.csv")[-1]
    fancy = parse_draft(f"{row['threading']}; {row['tie_up']}; {row['treadling']}")
    assert round(sett_for_weave(137, twill, fancy), 1) == 146.8


def test_a_quarter_of_the_count_is_twice_the_diameter():
    """Taylor p.453: 60s against 15s."""
    fine, thick = (diameters_per_cm(590.541 / count, 0.95) for count in (60, 15))
    assert fine == pytest.approx(2 * thick)


def test_balanced_plain_cloth_is_half_the_diameters_and_perhaps_a_twentieth():
    """Taylor p.453: 32s, 78 to 82."""
    half = diameters_per_cm(590.541247 / 32, 0.95) * INCH * structure_of(PLAIN_WEAVE).room
    assert (round(half), round(half * 1.05)) == (78, 82)


@pytest.mark.parametrize(
    ("f", "metric", "decimals"), [(0.85, 0.236, 3), (0.90, 0.25, 2), (0.92, 0.255, 3)]
)
def test_constants_for_centimetres_and_metres_per_kilogram(f, metric, decimals):
    """Weavers' notes print 0.236, 0.25 and 0.255; one pairs 0.91 with 0.255, which is 0.92's."""
    assert round(diameters_per_cm(1e6, f), decimals) == metric  # 1 m/kg


def test_half_of_the_wraps_in_plain_weave_two_thirds_in_twill():
    """A weaving primer: 20 wraps, 10 ends; one third left out in twill (Taylor)."""
    assert sett_from_wraps(20, PLAIN_WEAVE).ends_per_cm == pytest.approx(10)
    assert sett_from_wraps(20, weave_named("2/2 twill")).ends_per_cm == pytest.approx(40 / 3)


def test_wraps_read_low():
    """A weaving teacher: 10 wraps give 5, where Ashenhurst's plain weave allows 7."""
    advice = sett_from_wraps(10, PLAIN_WEAVE)
    assert advice.ends_per_cm == pytest.approx(5)
    assert round(advice.closest_per_cm) == 7
    assert "already in the measured wraps" in advice.reduction


def test_advice_names_its_reduction_and_shows_the_cover():
    advice = sett_from_count(147.635, PLAIN_WEAVE, fibre="Cotton", working_share=0.75)
    assert advice.reduction == "75 % of the closest sett"
    assert advice.ends_per_cm == pytest.approx(advice.closest_per_cm * 0.75)
    assert 0.5 < advice.cover.cloth_share < 0.7
    assert sett_from_wraps(8, PLAIN_WEAVE).cover is None
    assert sett_from_wraps(8, PLAIN_WEAVE, tex=147.6).cover.warp_factor > 0


def test_refusals():
    with pytest.raises(InputError, match=r"fibre: must be one of cotton, .*; got 'plastic'"):
        sett_from_count(100, PLAIN_WEAVE, fibre="plastic")
    with pytest.raises(InputError, match=r"working reduction: must be more than 0 %.*got 1\.2"):
        sett_from_count(100, PLAIN_WEAVE, working_share=1.2)
    with pytest.raises(InputError, match="tex: must be more than 0, and finite; got nan"):
        sett_from_count(math.nan, PLAIN_WEAVE)
    with pytest.raises(InputError, match="wraps: must be more than 0, and finite; got 0 per cm"):
        sett_from_wraps(0, PLAIN_WEAVE)
