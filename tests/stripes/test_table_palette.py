"""The palette that a table of stripes brings along."""

from pathlib import Path

import pytest

from palette.errors import TableError
from palette.perception.spaces import hex_to_lab
from palette.stripes.table_palette import palette_of_stripes


def saved(folder: Path, text: str) -> Path:
    path = folder / "semi.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_each_colour_has_the_share_of_its_picks(tmp_path: Path) -> None:
    text = "colour,picks,hex\nrust,10,#A84F28\nmoss,20,#5d733a\nMoss,10,\n"
    palette = palette_of_stripes(saved(tmp_path, text))
    assert [(s.name, s.hex, s.share) for s in palette.swatches] == [
        ("moss", "#5d733a", 0.75),
        ("rust", "#a84f28", 0.25),
    ]
    assert palette["rust"].lab == pytest.approx(hex_to_lab("#a84f28"))
    assert palette.source.why == "2 colours stand in semi.csv"


def test_hems_are_yarns_of_their_own(tmp_path: Path) -> None:
    text = "colour,picks,hex,role\nlinen,8,#ece7db,hem\nmoss,20,#5d733a,\nlinen,8,#ece7db,hem\n"
    palette = palette_of_stripes(saved(tmp_path, text))
    assert [s.name for s in palette.swatches] == ["moss"]


def test_one_of_several_cloths(tmp_path: Path) -> None:
    path = saved(tmp_path, "cloth,colour,picks,hex\na,moss,2,#5d733a\nb,rust,4,#a84f28\n")
    assert [s.name for s in palette_of_stripes(path, cloth="b").swatches] == ["rust"]


def test_a_colour_without_hex_is_named_by_its_row(tmp_path: Path) -> None:
    path = saved(tmp_path, "colour,picks,hex\nmoss,20,#5d733a\nteal,4,\n")
    match = r"semi\.csv, row 3, column hex: must hold the colour of teal\. Write #rrggbb in the"
    with pytest.raises(TableError, match=match):
        palette_of_stripes(path)
