"""A new name beside the hex of a known colour is a new name for it everywhere."""

from pathlib import Path

import pytest

from palette.errors import TableError
from palette.stripes.planning import plan_stripes
from palette.stripes.table import read_stripes
from palette.swatches.palette import Palette


def read(folder: Path, palette: Palette, text: str, **more):
    path = folder / "stripes.csv"
    path.write_text(text, encoding="utf-8")
    return read_stripes(path, palette=palette, picks_per_cm=8, **more)


def test_the_colour_is_renamed_in_the_palette_too(pair: Palette, tmp_path: Path) -> None:
    text = "colour,picks,hex\nivy,60,#5d733a\nsky,20,#b9cdd6\nivy,60,#5D733A\nsky,20,\n"
    plan = read(tmp_path, pair, text)
    assert plan.colours == ("ivy", "sky")
    assert [swatch.name for swatch in plan.palette.swatches] == ["ivy", "sky"]
    assert plan.warnings == ("Renamed, the hex being the same: moss is now ivy.",)


def test_rows_that_kept_the_old_name_follow(pair: Palette, tmp_path: Path) -> None:
    plan = read(tmp_path, pair, "colour,picks,hex\nMoss,60,\nivy,60,#5d733a\nsky,40,\n")
    assert [stripe.colour for stripe in plan.stripes] == ["ivy", "ivy", "sky"]


def test_a_plan_that_was_edited_is_renamed_too(pair: Palette, tmp_path: Path) -> None:
    like = plan_stripes(pair, length_mm=180, picks_per_cm=8)
    text = "colour,picks,hex\nsky,40,#b9cdd6\nivy,120,#5d733a\n"
    plan = read(tmp_path, pair, text, like=like)
    assert [swatch.name for swatch in plan.palette.swatches] == ["ivy", "sky"]
    assert len(plan.warnings) == 1


def test_hems_of_the_same_hex_rename_nothing(pair: Palette, tmp_path: Path) -> None:
    text = "colour,picks,hex,role\nhem yarn,8,#5d733a,hem\nmoss,120,,\nsky,40,,\n"
    plan = read(tmp_path, pair, text)
    assert [swatch.name for swatch in plan.palette.swatches] == ["moss", "sky"]
    assert plan.colours == ("hem yarn", "moss", "sky")


def test_two_new_names_for_one_colour_are_refused(pair: Palette, tmp_path: Path) -> None:
    text = "colour,picks,hex\nivy,60,#5d733a\nholly,60,#5d733a\n"
    match = (
        r"stripes\.csv, row 3, column colour: must be ivy, as #5d733a is called in a row above; "
        r"got 'holly'\. Give another yarn another hex\."
    )
    with pytest.raises(TableError, match=match):
        read(tmp_path, pair, text)
