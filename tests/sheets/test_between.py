"""What lies on the warp before, between and after the cloths."""

from dataclasses import replace

import pytest

from palette.measures import Units
from palette.plans.plan import Plan
from palette.sheets.between import after_cloth, before_cloth, sampling_words


def on_warp(plan: Plan, **lengths: float) -> Plan:
    """A plan whose warp has these lengths and no others."""
    none = {"fringe_mm": 0.0, "gap_mm": 0.0, "sampling_mm": 0.0}
    return replace(plan, warp=replace(plan.warp, **{**none, **lengths}))


@pytest.mark.parametrize(
    ("lengths", "before", "between", "after"),
    [
        ({}, "", "Throw two picks of another colour to cut along, then Towel 2.", ""),
        ({"gap_mm": 50.0}, "", "Leave 5 cm of warp, then Towel 2.", ""),
        (
            {"fringe_mm": 120.0},
            "Leave 12 cm of warp for the fringe.",
            "Leave 24 cm of warp, for both fringes, then Towel 2.",
            "Leave 12 cm of warp for the fringe.",
        ),
        (
            {"fringe_mm": 120.0, "gap_mm": 25.0, "sampling_mm": 200.0},
            "First weave 20 cm for sampling, then leave 12 cm of warp for the fringe.",
            "Leave 26.5 cm of warp, for both fringes and 2.5 cm between them, then Towel 2.",
            "Leave 12 cm of warp for the fringe.",
        ),
    ],
)
def test_the_lengths_are_those_of_the_warp(plan_maker, lengths, before, between, after) -> None:
    """Twice the fringe and the gap lie between two cloths, as in the length of the warp."""
    plan = on_warp(plan_maker(6, 3, cloths=2), **lengths)
    assert before_cloth(plan, 0) == before
    assert after_cloth(plan, 0) == between
    assert before_cloth(plan, 1) == ""
    assert after_cloth(plan, 1) == after


def test_lengths_follow_the_units(plan_maker) -> None:
    plan = on_warp(replace(plan_maker(6, 3), units=Units.IMPERIAL), sampling_mm=203.2)
    assert before_cloth(plan, 0) == "First weave 8 in for sampling."
    assert after_cloth(plan, 0) == ""


def test_the_weft_for_sampling_is_named(plan_maker) -> None:
    plan = on_warp(plan_maker(6, 3), sampling_mm=200.0)
    assert sampling_words(plan) == ""
    yarns = tuple(
        replace(yarn, sampling_length_m=20.0, allowance=0.1) if yarn.use == "weft" else yarn
        for yarn in plan.yarns
    )
    wefts = [yarn.colour for yarn in yarns if yarn.use == "weft"]
    said = sampling_words(replace(plan, yarns=yarns))
    assert said.startswith(f"Of the weft, {22 * len(wefts)} m is for 20 cm of sampling in the same")
    assert said.endswith(", ".join(f"{colour} 22 m" for colour in wefts) + ".")
