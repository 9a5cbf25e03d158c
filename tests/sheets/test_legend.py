"""Colours go by the same numbers everywhere."""

import dataclasses

from palette.plans.plan import Plan
from palette.sheets.legend import cloth_title, legend, number_of


def test_numbers_follow_the_palette(plan: Plan) -> None:
    entries = legend(plan)
    assert [entry.number for entry in entries] == list(range(1, 9))
    assert [entry.name for entry in entries] == [s.name for s in plan.palette.swatches]
    assert sum(sum(entry.picks) for entry in entries) == plan.cloths[0].total_picks


def test_a_weft_outside_the_palette_gets_the_next_number(plan: Plan) -> None:
    cloth = plan.cloths[0]
    hem = dataclasses.replace(cloth.stripes[0], colour="hem thread", hex="#111111", role="hem")
    with_hem = dataclasses.replace(cloth, stripes=(hem, *cloth.stripes[1:]))
    entries = legend(dataclasses.replace(plan, cloths=(with_hem,)))
    assert entries[-1].name == "hem thread"
    assert entries[-1].wanted == (None,)
    assert number_of(entries)["hem thread", "#111111"] == 9


def test_two_cloths_share_the_numbers(plan_maker) -> None:
    plan = plan_maker(6, 4, cloths=2, picks=200)
    assert len(legend(plan)) == 4
    assert all(len(entry.picks) == 2 for entry in legend(plan))
    assert cloth_title(plan, 1) == "Towel 2"


def test_one_cloth_goes_by_the_name_of_the_plan(plan: Plan) -> None:
    assert cloth_title(plan, 0) == plan.name
