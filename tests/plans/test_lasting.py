import math

import pytest

from palette.errors import InputError
from palette.plans.brief import Brief
from palette.plans.lasting import check_plan, weaving_of, woven_and_rest
from palette.plans.making import make_plan
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_from_json, plan_to_json
from palette.swatches.palette import Palette
from palette.yarn.wefts import weft_uses


@pytest.fixture
def plan(hedge: Palette) -> Plan:
    """A plan with everything as it comes."""
    return make_plan(Brief.of({"order": "mirrored"}), hedge)


def left_after(plan: Plan, picks: int) -> dict[str, float]:
    """Grams left of each colour after exactly the planned use of the first picks."""
    from dataclasses import replace

    from palette.yarn.halfway import cut_stripes

    woven, _ = cut_stripes(plan.cloths[0], picks)
    uses = weft_uses(replace(plan.cloths[0], stripes=woven), weaving_of(plan))
    return {
        yarn.colour: yarn.mass_g
        - (uses[yarn.colour].length_m if yarn.colour in uses else 0.0) * yarn.tex / 1000
        for yarn in plan.yarns
        if yarn.use == "weft"
    }


def test_exactly_the_planned_use_changes_nothing(plan: Plan) -> None:
    had = {yarn.colour: yarn.mass_g for yarn in plan.yarns if yarn.use == "weft"}
    check = check_plan(plan, woven_mm=800, left_g=left_after(plan, 640), had_g=had)
    assert check.lasts
    assert woven_and_rest(plan, check).total_picks == plan.cloths[0].total_picks


def test_a_colour_that_runs_out_gives_way(plan: Plan) -> None:
    left = left_after(plan, 640) | {"moss": 3.0}
    check = check_plan(plan, woven_mm=800, left_g=left)
    assert not check.lasts
    whole = woven_and_rest(plan, check)
    assert whole.picks_of("moss") < plan.cloths[0].picks_of("moss")
    assert whole.picks_per_cm == plan.cloths[0].picks_per_cm


def test_a_cloth_that_is_not_there_is_refused(plan: Plan) -> None:
    with pytest.raises(InputError, match="--cloth: must be from 1 to 1, the cloths on this warp"):
        check_plan(plan, cloth=2, woven_mm=800, left_g={})


def test_weaving_is_what_the_plan_was_made_from(hedge: Palette) -> None:
    made = make_plan(Brief.of({"tail": "5cm", "weft-take-up": "4%", "carry": "2cm"}), hedge)
    weaving = weaving_of(made)
    assert weaving.tail_mm == 50
    assert weaving.carry_picks == 16
    assert weaving.pick_mm == pytest.approx(made.warp.width_in_reed_mm / 0.96)


def test_a_plan_in_skeins_begins_with_whole_ones(hedge: Palette) -> None:
    made = make_plan(Brief.of({"order": "mirrored", "skein": "50g"}), hedge)
    ready = {yarn.colour: yarn.mass_g for yarn in made.yarns if yarn.use == "weft"}
    check = check_plan(made, woven_mm=800, left_g={"moss": 20.0})
    assert {colour.colour: colour.had_g for colour in check.colours} == {
        name: 50.0 * math.ceil(grams / 50) for name, grams in ready.items()
    }
    said = check_plan(made, woven_mm=800, left_g={"moss": 20.0}, had_g={"moss": 60.0})
    assert said.colours[0].had_g is not None
    assert {colour.colour: colour.used_g for colour in said.colours}["moss"] == 40.0


def test_a_plan_from_its_file_gives_the_same_answer(hedge: Palette) -> None:
    brief = Brief.of({"order": "mirrored", "skein": "50g", "sampling": "20cm", "carry": "2cm"})
    made = make_plan(brief, hedge)
    again = plan_from_json(plan_to_json(made))
    assert again.yarns == made.yarns
    wishes = {"woven_mm": 800, "left_g": {"moss": 20.0}}
    assert check_plan(again, **wishes) == check_plan(made, **wishes)
