import math
from pathlib import Path

import pytest

from palette.errors import WeavingError
from palette.plans.brief import Brief
from palette.plans.making import make_plan
from palette.plans.skeins import skeins_of
from palette.plans.stocking import held_on_shelf, lines_of, plan_within_shelf
from palette.swatches.palette import Palette
from palette.swatches.shelf import Shelf, read_shelf


def shelf_of(tmp_path: Path, **grams: float) -> Shelf:
    """A shelf with these yarns."""
    path = tmp_path / "shelf.csv"
    rows = "".join(f"{name},#808080,cotton,NeC 8/2,{mass}\n" for name, mass in grams.items())
    path.write_text(f"name,colour,fibre,count,grams\n{rows}", encoding="utf-8")
    return read_shelf(path)


def test_yarn_is_matched_by_name_and_a_warp_is_bought(hedge: Palette, tmp_path: Path) -> None:
    plan = make_plan(Brief.of({}), hedge)
    held = held_on_shelf(plan, shelf_of(tmp_path, moss=40, other=10))
    assert held == {"moss": 40.0, "straw": 0.0, "rust": 0.0, "chalk": 0.0, "warp": math.inf}


def test_lines_say_what_is_short(hedge: Palette, tmp_path: Path) -> None:
    plan = make_plan(Brief.of({}), hedge)
    lines = {line.colour: line for line in lines_of(plan, shelf_of(tmp_path, moss=1000, straw=1))}
    assert lines["moss"].held_g > lines["moss"].needed_g
    assert lines["straw"].held_g < lines["straw"].needed_g


@pytest.mark.parametrize("fit", ["nearest", "longest"])
def test_a_plan_within_the_shelf_never_uses_more(hedge: Palette, tmp_path: Path, fit: str) -> None:
    brief = Brief.of({})
    plan = make_plan(brief, hedge)
    shelf = shelf_of(tmp_path, moss=20, straw=30, rust=9, chalk=3)
    within = plan_within_shelf(plan, brief, shelf, fit)
    assert all(line.needed_g <= line.held_g + 1e-9 for line in lines_of(within, shelf))
    assert within.cloths[0].stripes


@pytest.mark.parametrize("fit", ["nearest", "longest"])
def test_refusals_and_notes_speak_the_units_of_the_plan(
    hedge: Palette, tmp_path: Path, fit: str
) -> None:
    for units, mass, other in (("imperial", " oz", " g"), ("metric", " g", " oz")):
        brief = Brief.of({"units": units})
        plan = make_plan(brief, hedge)
        with pytest.raises(WeavingError, match=rf"shelf: must hold enough .*got .*rust 0.*{mass}"):
            plan_within_shelf(plan, brief, shelf_of(tmp_path, rust=0.001), fit)
        within = plan_within_shelf(
            plan, brief, shelf_of(tmp_path, moss=15, straw=9, rust=9, chalk=9)
        )
        said = " ".join(within.warnings)
        assert f"{mass} there" in said
        assert other + " " not in said
        assert ("in long" in said, "cm long" in said) == (units == "imperial", units == "metric")


def test_a_shelf_that_is_enough_changes_nothing(hedge: Palette, tmp_path: Path) -> None:
    brief = Brief.of({})
    plan = make_plan(brief, hedge)
    shelf = shelf_of(tmp_path, moss=500, straw=500, rust=500, chalk=500)
    assert plan_within_shelf(plan, brief, shelf).cloths == plan.cloths


def test_yarn_of_the_shelf_is_not_bought_in_skeins(hedge: Palette, tmp_path: Path) -> None:
    brief = Brief.of({"skein": "50g"})
    plan = make_plan(brief, hedge)
    shelf = shelf_of(tmp_path, moss=20, straw=30, rust=9, chalk=3)
    within = plan_within_shelf(plan, brief, shelf, "longest")
    assert len(skeins_of(plan)) == len(plan.yarns)
    assert skeins_of(within) == ()
    assert within.warnings[-1].endswith("so it is not rounded up to whole skeins.")
