import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import CountError, InputError, LeafweftError, WeavingError
from palette.plans.brief import Brief
from palette.plans.making import make_plan, plan_from_stripes
from palette.swatches.palette import Palette
from tests.strategies import palettes

INTEGRATED = {
    "length": "180cm",
    "width": "25cm",
    "sett": "20/in",
    "picks": "20/in",
    "step": 1,
    "least": 0,
    "shrinkage": "10%",
    "draw-in": "6%",
    "take-up": "8%",
    "weft-take-up": "0%",
    "tail": "0cm",
    "fringe": "15cm",
    "loom-waste": "75cm",
    "allowance": "0%",
}


def test_the_integrated_case_to_the_last_digit(hedge: Palette) -> None:
    plan = make_plan(Brief.of(INTEGRATED), hedge)
    (warp,) = (yarn for yarn in plan.yarns if yarn.use == "warp")
    wefts = [yarn for yarn in plan.yarns if yarn.use == "weft"]
    assert round(plan.warp.woven_width_mm / 10, 3) == 27.778
    assert round(plan.warp.width_in_reed_mm / 10, 3) == 29.551
    assert plan.warp.ends == 234
    assert plan.cloths[0].total_picks == 1575
    assert round(sum(yarn.length_m for yarn in wefts), 2) == 465.43
    assert round(sum(yarn.mass_g for yarn in wefts), 2) == 68.71
    # 1575 whole picks are 200.025 cm; the worked figures of the warp are for 200.0 cm.
    assert plan.warp.length_mm / 10 == pytest.approx(322.39, abs=0.03)
    assert warp.length_m == pytest.approx(754.40, abs=0.07)
    assert warp.mass_g == pytest.approx(111.38, abs=0.01)


def test_the_nearest_reed_decides_the_sett(hedge: Palette) -> None:
    plan = make_plan(Brief.of({"sett": "8/cm", "reed": ["10/in", "40/10cm"]}), hedge)
    assert plan.sley is not None
    assert (plan.sley.dents_per_cm, plan.sley.text) == (4.0, "2")
    assert plan.warp.ends % 2 == 0


def test_a_weave_that_needs_more_shafts_is_refused(hedge: Palette) -> None:
    with pytest.raises(LeafweftError, match="shafts"):
        make_plan(Brief.of({"weave": "2/2 twill", "shafts": 2}), hedge)


def test_heddles_that_do_not_suffice_are_refused(hedge: Palette) -> None:
    with pytest.raises(WeavingError, match="heddles"):
        make_plan(Brief.of({"heddles": 50}), hedge)


def test_stripes_of_the_warp_fill_it(hedge: Palette) -> None:
    plan = make_plan(Brief.of({"warp-stripes": ["moss=12", "chalk=4"]}), hedge)
    assert sum(stripe.ends for stripe in plan.warp_stripes) == plan.warp.ends
    assert {yarn.colour for yarn in plan.yarns if yarn.use == "warp"} == {"moss", "chalk"}


def test_a_dull_cloth_is_announced(hedge: Palette) -> None:
    pale = make_plan(Brief.of({"warp-colour": "#ffffff"}), hedge)
    assert any("duller than the yarn" in note and "moss" in note for note in pale.warnings)


def test_hems_are_woven_at_both_ends(hedge: Palette) -> None:
    (cloth,) = make_plan(Brief.of({"hem": "3cm", "hem-colour": "chalk"}), hedge).cloths
    assert (cloth.stripes[0].role, cloth.stripes[-1].role) == ("hem", "hem")
    assert cloth.stripes[0].picks == cloth.stripes[-1].picks > 0


def test_new_yarn_leaves_the_stripes_alone(hedge: Palette) -> None:
    brief = Brief.of({})
    plan = make_plan(brief, hedge)
    again = plan_from_stripes(brief.changed({"weft": "NeK 2/20"}), plan.cloths)
    assert again.cloths == plan.cloths
    assert again.warp == plan.warp
    assert again.yarns != plan.yarns


def test_an_unknown_order_is_refused(hedge: Palette) -> None:
    with pytest.raises(InputError, match="order: must be one of "):
        make_plan(Brief.of({"order": "zigzag"}), hedge)


def test_a_bare_count_is_refused() -> None:
    with pytest.raises(CountError, match="weft: must name its system"):
        Brief.of({"weft": "8/2"})


@settings(max_examples=25, deadline=None)
@given(palettes(max_size=5), st.sampled_from(["20cm", "1 m", "72 in"]), st.integers(1, 4))
def test_picks_and_grams_add_up(palette: Palette, length: str, step: int) -> None:
    plan = make_plan(Brief.of({"length": length, "step": step, "least": 0}), palette)
    (cloth,) = plan.cloths
    assert cloth.total_picks % step == 0
    assert sum(yarn.picks for yarn in plan.yarns) == cloth.total_picks
    assert all(yarn.mass_g == pytest.approx(yarn.length_m * yarn.tex / 1000) for yarn in plan.yarns)


@settings(max_examples=10, deadline=None)
@given(palettes(max_size=4))
def test_grams_grow_with_length(palette: Palette) -> None:
    short, long = (
        sum(yarn.mass_g for yarn in make_plan(Brief.of({"length": text}), palette).yarns)
        for text in ("1 m", "2 m")
    )
    assert long > short


def test_a_longer_carry_is_offered_where_it_saves_starts(hedge: Palette) -> None:
    asked = {"order": "scattered", "length": "60cm"}
    notes = make_plan(Brief.of(asked), hedge).warnings
    (offer,) = [note for note in notes if "--carry" in note]
    length = offer.split("--carry ")[1].split()[0]
    longer = make_plan(Brief.of({**asked, "carry": length}), hedge)
    saved = int(offer.split("saves ")[1].split()[0])
    usual = sum(yarn.starts for yarn in make_plan(Brief.of(asked), hedge).yarns)
    assert usual - sum(yarn.starts for yarn in longer.yarns) == saved
    assert not [note for note in longer.warnings if "--carry" in note]
