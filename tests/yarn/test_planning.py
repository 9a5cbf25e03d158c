"""Metres and grams of a plan, against the books' worked examples."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.chains import WarpStripe
from palette.loom.planning import plan_warp, with_cloths
from palette.loom.reeds import dents_per_cm, ends_for_width
from palette.loom.warp import Warp
from palette.measures import G_PER_POUND
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts

INCH = 25.4
YARD = 914.4
BARE = {"weft_take_up": 0, "tail_mm": 0, "allowance": 0}


def warp_as_woven(*, ends, length_yd, reed_in, cloth_yd):
    """A warp whose figures a book gives outright."""
    return Warp(
        ends=ends,
        ends_per_cm=ends / (reed_in * INCH) * 10,
        width_in_reed_mm=reed_in * INCH,
        woven_width_mm=reed_in * INCH,
        finished_width_mm=reed_in * INCH,
        length_mm=length_yd * YARD,
        cloth_lengths_mm=(cloth_yd * YARD,),
    )


def test_the_integrated_case_to_the_last_digit(plan_of):
    """Own arithmetic from the definitions: 8/2 cotton scarf, 20 x 20 to the inch."""
    warp = plan_warp(
        finished_width_mm=250,
        ends_per_cm=20 / 2.54,
        cloth_lengths_mm=(1800 / 0.9,),
        shrinkage_width=0.10,
        draw_in=0.06,
        take_up=0.08,
        fringe_mm=150,
        loom_waste_mm=750,
    )
    cotton = parse_count("NeC 8/2")
    plan = plan_of(("moss", 1575), picks_per_cm=20 / 2.54, step=1)
    weft, warp_yarn = yarn_amounts((plan,), warp, weft=cotton, warp_yarn=cotton, **BARE)
    assert f"{warp.woven_width_mm / 10:.3f}" == "27.778"
    assert f"{warp.width_in_reed_mm / 10:.3f}" == "29.551"
    assert f"{warp.cloth_lengths_mm[0] / 10:.1f}" == "200.0"
    assert warp.ends == 234
    assert f"{warp.length_mm / 10:.2f}" == "322.39"
    assert f"{warp_yarn.length_m:.2f}" == "754.40"
    assert f"{warp_yarn.mass_g:.2f}" == "111.38"
    assert f"{weft.length_m:.2f}" == "465.43"
    assert f"{weft.mass_g:.2f}" == "68.71"


@pytest.mark.parametrize(
    (
        "ends",
        "warp_yd",
        "reed_in",
        "cloth_yd",
        "picks",
        "warp_nec",
        "weft_nec",
        "warp_lb",
        "weft_lb",
    ),
    [
        pytest.param(
            2280,
            38,
            37.5,
            36,
            64 * 36 * 36,
            30,
            36,
            3.4381,
            2.8571,
            id="Brooks, weight of a piece: 3 lb 7 oz and 2 lb 13 3/4 oz",
        ),
        pytest.param(
            2260,
            38,
            37.5,
            36,
            2300 * 36,
            30,
            36,
            3.4079,
            2.8522,
            id="Brooks, the same in a Scotch ell reed: 3.407 and 2.85 lb",
        ),
        pytest.param(
            2100,
            95,
            30,
            90,
            80 * 36 * 90,
            30,
            40,
            7.9167,
            6.4286,
            id="Taylor p.245: 90 yd from 95 yd",
        ),
        pytest.param(
            3240,
            42,
            44.5,
            40,
            64 * 36 * 40,
            32,
            40,
            5.0625,
            3.3905,
            id="a teaching example: together 8.4530 lb",
        ),
    ],
)
def test_weight_of_a_piece(
    plan_of, ends, warp_yd, reed_in, cloth_yd, picks, warp_nec, weft_nec, warp_lb, weft_lb
):
    warp = warp_as_woven(ends=ends, length_yd=warp_yd, reed_in=reed_in, cloth_yd=cloth_yd)
    plan = plan_of(("weft", picks), picks_per_cm=picks / (cloth_yd * YARD) * 10, step=1)
    weft, warp_yarn = yarn_amounts(
        (plan,),
        warp,
        weft=parse_count(f"NeC {weft_nec}"),
        warp_yarn=parse_count(f"NeC {warp_nec}"),
        **BARE,
    )
    assert round(warp_yarn.mass_g / G_PER_POUND, 4) == warp_lb
    assert round(weft.mass_g / G_PER_POUND, 4) == weft_lb


def test_brooks_piece_in_pounds_and_ounces():
    """Brooks: 103 1/7 hanks of warp; 25 % of size on 55 oz is 13 3/4 oz; together 7 lb 2 1/2 oz."""
    ends = ends_for_width(38 * INCH, dents_per_cm(60, "Stockport"))
    hanks = ends * 38 / 840
    assert round(hanks, 4) == round(103 + 1 / 7, 4)
    warp_oz, weft_oz = round(hanks / 30 * 16), round(37.5 * 64 / 840 * 36 / 36 * 16 * 4) / 4
    assert (warp_oz, weft_oz) == (55, 45.75)
    assert divmod(warp_oz + weft_oz + 0.25 * warp_oz, 16) == (7, 2.5)


def test_taylors_short_cut_for_hanks(plan_of):
    """Taylor p.436: 34 in, 60 picks, 84 yd is 204 hanks (which factor is which is inferred)."""
    plan = plan_of(("weft", 60 * 36 * 84), picks_per_cm=60 / 2.54, step=1)
    warp = warp_as_woven(ends=100, length_yd=90, reed_in=34, cloth_yd=84)
    count = parse_count("NeC 30")
    weft, _ = yarn_amounts((plan,), warp, weft=count, warp_yarn=count, **BARE)
    assert weft.length_m / 0.9144 / 840 == pytest.approx(204)


def test_a_yard_of_cloth_takes_picks_times_inches_of_yards(plan_of):
    """Textile notes, and Brooks: 30 in x 60 picks is 1800 yd for each yard; 50 yd, 90 000 yd."""
    warp = warp_as_woven(ends=100, length_yd=60, reed_in=30, cloth_yd=50)
    plan = plan_of(("weft", 60 * 36 * 50), picks_per_cm=60 / 2.54, step=1)
    count = parse_count("tex 20")
    weft, _ = yarn_amounts((plan,), warp, weft=count, warp_yarn=count, **BARE)
    assert weft.length_m / 0.9144 == pytest.approx(90_000)


def test_a_weavers_wide_cloth_with_as_much_weft_as_warp(plan_of):
    """A weaver's record, 2014: 17 280 yd at 8400 yd/lb, twice that for warp and weft, 4.114 lb."""
    warp = warp_as_woven(ends=2304, length_yd=7.5, reed_in=48, cloth_yd=7.5)
    plan = plan_of(("weft", 48 * 36 * 15 // 2), picks_per_cm=48 / 2.54, step=1)
    count = parse_count("8400 yd/lb")
    weft, warp_yarn = yarn_amounts((plan,), warp, weft=count, warp_yarn=count, **BARE)
    assert warp_yarn.length_m / 0.9144 == pytest.approx(17_280)
    assert round((weft.mass_g + warp_yarn.mass_g) / G_PER_POUND, 3) == 4.114


@pytest.fixture(scope="module")
def scarf(plan_of):
    """Two scarves on one warp, each in its own stripes."""
    cloths = (
        plan_of(("moss", 40), ("rust", 4), ("moss", 40), ("straw", 60), ("moss", 40)),
        plan_of(("straw", 100), ("rust", 20)),
    )
    warp = plan_warp(
        finished_width_mm=250,
        ends_per_cm=8,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
    )
    return cloths, warp


def amounts(scarf, **changes):
    cloths, warp = scarf
    count = parse_count("NeC 8/2")
    usual = {"weft": count, "warp_yarn": count, "carry_picks": 4}
    return {(a.colour, a.use): a for a in yarn_amounts(cloths, warp, **{**usual, **changes})}


def test_every_metre_is_accounted_for(scarf):
    _, warp = scarf
    moss = amounts(scarf, tail_mm=70, allowance=0.1, weft_take_up=0.02)["moss", "weft"]
    assert (moss.picks, moss.starts) == (120, 2)
    assert moss.tail_length_m == pytest.approx(2 * 2 * 0.07)
    assert moss.carried_length_m == pytest.approx(4 / 8 / 100)  # past four picks of rust
    in_picks = 120 * warp.width_in_reed_mm / 1000 / 0.98
    assert moss.net_length_m == pytest.approx(in_picks + 0.28 + 0.005)
    assert moss.length_m == pytest.approx(moss.net_length_m * 1.1)
    assert moss.mass_g == pytest.approx(moss.length_m * moss.tex / 1000)
    assert moss.used_mass_g * 1.1 == pytest.approx(moss.mass_g)
    assert moss.g_per_pick * 120 == pytest.approx(in_picks * moss.tex / 1000)


def test_colours_come_in_the_order_in_which_they_enter(scarf):
    assert list(amounts(scarf)) == [
        ("moss", "weft"),
        ("rust", "weft"),
        ("straw", "weft"),
        ("warp", "warp"),
    ]


def test_a_finer_yarn_for_one_colour(scarf):
    fine = amounts(scarf, weft_counts={"rust": parse_count("NeC 16/2")})
    usual = amounts(scarf)
    assert fine["rust", "weft"].mass_g == pytest.approx(usual["rust", "weft"].mass_g / 2)
    assert fine["rust", "weft"].length_m == usual["rust", "weft"].length_m
    assert fine["moss", "weft"] == usual["moss", "weft"]


def test_a_striped_warp(scarf):
    _, warp = scarf
    stripes = [WarpStripe(colour="moss", hex="#5d733a", ends=100)]
    stripes += [WarpStripe(colour="sand", hex="#c8b48c", ends=warp.ends - 150)]
    stripes += [WarpStripe(colour="moss", hex="#5d733a", ends=50)]
    came = amounts(scarf, warp_stripes=stripes, warp_counts={"sand": parse_count("NeC 16/2")})
    assert came["moss", "warp"].ends == 150
    assert came["moss", "warp"].net_length_m == pytest.approx(150 * warp.length_mm / 1000)
    assert came["sand", "warp"].tex == pytest.approx(came["moss", "warp"].tex / 2)


def test_sampling_takes_weft_in_the_same_shares(scarf):
    cloths, warp = scarf
    longer = with_cloths(replace(warp, sampling_mm=200), warp.cloth_lengths_mm)
    came = amounts((cloths, longer), tail_mm=0, allowance=0)
    extra = sum(a.sampling_length_m for a in came.values())
    picks = 200 / 10 * 8
    assert extra == pytest.approx(picks * warp.width_in_reed_mm / 1000)
    moss, rust = came["moss", "weft"], came["rust", "weft"]
    assert moss.sampling_length_m / rust.sampling_length_m == pytest.approx(120 / 24)
    assert moss.length_m == pytest.approx(moss.net_length_m + moss.sampling_length_m)


@given(picks=st.integers(1, 3000), more=st.integers(1, 500), wider=st.floats(1.01, 3))
def test_metres_grow_with_picks_and_width(plan_of, picks, more, wider):
    count = parse_count("Nm 2/28")

    def weft_of(total, width):
        plan = plan_of(("moss", total))
        warp = plan_warp(
            finished_width_mm=width, ends_per_cm=8, cloth_lengths_mm=(plan.woven_length_mm,)
        )
        return yarn_amounts((plan,), warp, weft=count, warp_yarn=count)

    less, less_warp = weft_of(picks, 200)
    longer, longer_warp = weft_of(picks + more, 200)
    broad, broad_warp = weft_of(picks, 200 * wider)
    assert less.length_m < min(longer.length_m, broad.length_m)
    assert less_warp.length_m < longer_warp.length_m
    assert less_warp.length_m <= broad_warp.length_m
    for amount in (less, less_warp, broad, longer):
        assert count.length_m(amount.mass_g) == pytest.approx(amount.length_m)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"weft_take_up": 1}, "weft take-up: must be from 0 to under 1; got 1"),
        ({"tail_mm": -1}, "tail: must be 0 or more, and finite; got -1 mm"),
        ({"allowance": float("nan")}, "allowance: must be 0 or more, and finite; got nan"),
        ({"carry_picks": -1}, "carry: must be 0 picks or more; got -1"),
        (
            {"warp_stripes": [WarpStripe(colour="moss", hex="#5d733a", ends=3)]},
            r"warp stripes: must come to the warp's \d+ ends; got 3",
        ),
    ],
)
def test_refusals(scarf, change, words):
    with pytest.raises(InputError, match=words):
        amounts(scarf, **change)


@pytest.mark.parametrize(("name", "thing"), [("weft_counts", "weft"), ("warp_counts", "warp")])
def test_a_count_of_a_yarn_that_is_not_there(scarf, name, thing):
    with pytest.raises(InputError, match=f"{thing} counts: must name one of .*; got 'heather'"):
        amounts(scarf, **{name: {"heather": parse_count("NeC 16/2")}})


def test_cloths_must_be_those_of_the_warp(scarf):
    cloths, warp = scarf
    with pytest.raises(InputError, match="must be as many as the warp is planned for, 2; got 1"):
        amounts((cloths[:1], warp))


def test_one_name_of_two_colours_is_refused(scarf):
    cloths, warp = scarf
    stripes = tuple(replace(stripe, hex="#123456") for stripe in cloths[1].stripes)
    other = replace(cloths[1], stripes=stripes)
    with pytest.raises(InputError, match="must be one colour; got #777777 and #123456"):
        amounts(((cloths[0], other), warp))
