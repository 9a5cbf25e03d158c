"""Colours that a palette or plan asks yarn for."""

from dataclasses import replace
from pathlib import Path

import pytest

from palette.loom.planning import plan_warp
from palette.plans.needed import colours_needed, needed_of_plan
from palette.plans.palette_contract import palette_to_json
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_to_json
from palette.stripes.planning import plan_stripes
from palette.swatches.palette import Palette
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts


@pytest.fixture
def pair(hedge: Palette) -> Plan:
    """Two cloths on one warp, the second in two of the colours of the first and a new one."""
    other = replace(hedge["rust"], name="plum", hex="#5a2a4a", lab=(25.0, 25.0, -12.0))
    few = (replace(hedge["moss"], share=0.5), replace(other, share=0.5))
    cloths = tuple(
        plan_stripes(palette, length_mm=800.0, picks_per_cm=8.0)
        for palette in (hedge, Palette(swatches=few))
    )
    lengths = tuple(cloth.woven_length_mm for cloth in cloths)
    warp = plan_warp(finished_width_mm=250.0, ends_per_cm=8.0, cloth_lengths_mm=lengths)
    count = parse_count("Nm 2/8")
    yarns = yarn_amounts(cloths, warp, weft=count, warp_yarn=count)
    return Plan(name="pair", cloths=cloths, warp=warp, yarns=yarns)


def test_every_weft_of_every_cloth_is_wanted_with_its_grams(pair: Plan, hedge: Palette) -> None:
    palette, needed = needed_of_plan(pair)
    assert [swatch.name for swatch in palette.swatches] == [
        "moss",
        "straw",
        "rust",
        "chalk",
        "plum",
    ]
    wefts = {yarn.colour: yarn for yarn in pair.yarns if yarn.use == "weft"}
    assert needed == {name: yarn.mass_g for name, yarn in wefts.items()}
    assert palette["moss"].lab == hedge["moss"].lab
    assert palette["plum"].lab == (25.0, 25.0, -12.0)
    picks = sum(yarn.picks for yarn in wefts.values())
    assert palette["moss"].share == pytest.approx(wefts["moss"].picks / picks)


def test_yarn_of_another_colour_than_the_palette_has_its_own(pair: Plan) -> None:
    yarns = tuple(
        replace(yarn, hex="#123456") if yarn.colour == "moss" else yarn for yarn in pair.yarns
    )
    palette, _ = needed_of_plan(replace(pair, yarns=yarns))
    assert palette["moss"].hex == "#123456"
    assert palette["moss"].lab[0] == pytest.approx(21.0, abs=1.0)


def test_a_plan_says_how_much_and_a_palette_does_not(
    pair: Plan, hedge: Palette, tmp_path: Path
) -> None:
    plan, colours = tmp_path / "plan.json", tmp_path / "palette.json"
    plan.write_text(plan_to_json(pair), encoding="utf-8")
    colours.write_text(palette_to_json(hedge), encoding="utf-8")
    palette, needed = colours_needed(tmp_path)
    assert set(needed) == {swatch.name for swatch in palette.swatches}
    found, none = colours_needed(colours)
    assert [swatch.name for swatch in found.swatches] == [s.name for s in hedge.swatches]
    assert none == {}


def test_a_plan_without_reckoned_yarn_has_its_palette(pair: Plan) -> None:
    assert needed_of_plan(replace(pair, yarns=())) == (pair.palette, {})
