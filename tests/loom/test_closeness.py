"""How close threads lie: usual, closest, and what has no room at all."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.closeness import Yarns, nearest_weavable
from palette.loom.cover import jammed_square_cloth, yarn_diameter_mm
from palette.loom.drafts import WEAVES, parse_draft, weave_named
from palette.loom.fibres import FIBRES
from palette.loom.sett import sett_from_count
from palette.loom.structure import structure_of

INCH = 2.54
NEC = 590.541247
SATIN = parse_draft("1 2 3 4 5; 1, 3, 5, 2, 4; 1 2 3 4 5", name="5-end satin")


def yarns(warp_tex=147.635, weft_tex=147.635, weave="plain weave", fibre="cotton"):
    draft = weave if weave is SATIN else weave_named(weave)
    return Yarns(
        warp_tex=warp_tex, weft_tex=weft_tex, fibre=FIBRES[fibre], structure=structure_of(draft)
    )


@pytest.mark.parametrize("name", WEAVES)
def test_one_yarn_both_ways_is_ashenhursts_rule_as_printed(name):
    """R / (R + I) of the diameters, 80 % of it to work with."""
    advice = sett_from_count(147.635, weave_named(name))
    both = yarns(weave=name)
    assert both.closest_per_cm[0] == pytest.approx(advice.closest_per_cm)
    assert both.usual_per_cm[0] == pytest.approx(advice.ends_per_cm)


def test_a_thicker_weft_sets_the_warp_further_apart():
    """Own arithmetic: in plain weave an end and a pick take their two diameters in turn."""
    ends, picks = yarns(weft_tex=4 * 147.635).closest_per_cm
    alone = sett_from_count(147.635, weave_named("plain weave")).diameters_per_cm
    assert ends == picks == pytest.approx(alone / 3)


@pytest.mark.parametrize(
    ("ends", "warp", "picks", "weft", "weave"),
    [
        (64, 30, 64, 36, "plain weave"),  # a print cloth, trade tables
        (70, 30, 80, 40, "plain weave"),  # Taylor p.245
        (82, 32, 82, 32, "plain weave"),  # Taylor p.453, the closest plain cloth of 32s
        (120, 70, 120, 70, "plain weave"),  # Taylor p.428
        (100, 70, 180, 70, SATIN),  # Taylor p.427, its ends from memory
    ],
)
def test_what_mills_weave_is_never_refused(ends, warp, picks, weft, weave):
    cloth = yarns(NEC / warp, NEC / weft, weave)
    assert cloth.can_be_woven(ends / INCH, picks / INCH)


@pytest.mark.parametrize(
    ("ends", "warp_tex", "picks", "weft_tex", "weave"),
    [
        (3.15, 295, 14, 400, "plain weave"),  # tapestry: 8 ends to the inch of cotton 12/6
        (2.5, 590, 7, 2000, "plain weave"),  # rug: linen 8/5, thick wool
        (3, 590, 12, 1200, "2/2 twill"),  # rug woven on opposites, weft-faced
        (20, 147.635, 4, 590, "plain weave"),  # warp-faced rep: the warp covers a thick weft
        (8, 147.635, 30, 147.635, "plain weave"),
    ],
)
def test_rugs_tapestry_and_warp_faced_cloth_are_never_refused(
    ends, warp_tex, picks, weft_tex, weave
):
    """Common practice of rug and band weavers, no published table."""
    assert yarns(warp_tex, weft_tex, weave).can_be_woven(ends, picks)


def test_square_plain_weave_ends_at_peirces_jam_of_solid_yarn():
    jam = jammed_square_cloth()
    solid = yarn_diameter_mm(147.635, volume_cm3_per_g=0.66)
    most = 10 / (2 * solid * jam.spacing)
    assert yarns().can_be_woven(most * 0.999, most * 0.999)
    assert not yarns().can_be_woven(most * 1.001, most * 1.001)


def test_weft_faced_ends_where_the_picks_of_one_shed_touch():
    solid = yarn_diameter_mm(147.635, volume_cm3_per_g=0.66)
    assert yarns().can_be_woven(4, 19.99 / solid)
    assert not yarns().can_be_woven(4, 20.01 / solid)


@given(
    ends=st.floats(0.5, 400),
    picks=st.floats(0.5, 400),
    tex=st.floats(10, 3000),
    weave=st.sampled_from(sorted(WEAVES)),
)
def test_the_nearest_can_be_woven_and_is_never_closer(ends, picks, tex, weave):
    cloth = yarns(tex, tex, weave)
    nearest = nearest_weavable(cloth, ends, picks)
    assert nearest[0] <= ends
    assert nearest[1] <= picks
    assert cloth.can_be_woven(*nearest)
    assert cloth.can_be_woven(*(each * 0.9 for each in nearest))
    if cloth.can_be_woven(ends, picks):
        assert nearest == (ends, picks)


@given(tex=st.floats(10, 3000), weave=st.sampled_from(sorted(WEAVES)))
def test_the_closest_balanced_cloth_can_be_woven(tex, weave):
    cloth = yarns(tex, tex, weave)
    assert cloth.can_be_woven(*cloth.closest_per_cm)


def test_refusals():
    with pytest.raises(InputError, match="picks per cm: must be more than 0, and finite; got nan"):
        yarns().can_be_woven(8, math.nan)
