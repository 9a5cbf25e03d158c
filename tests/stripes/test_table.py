from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from palette.errors import TableError
from palette.sheets.tables import STRIPE_COLUMNS as WRITTEN
from palette.sheets.tables import stripes_csv
from palette.stripes.edges import Edge
from palette.stripes.planning import plan_stripes
from palette.stripes.soft import Soft
from palette.stripes.table import STRIPE_COLUMNS, cloths_in, read_stripes
from palette.swatches.palette import Palette
from tests.strategies import palettes


def saved(folder: Path, text: str, encoding: str = "utf-8") -> Path:
    path = folder / "stripes.csv"
    path.write_bytes(text.encode(encoding))
    return path


def plain_name(name: str) -> str:
    """What of a name a table can hold and a reader can tell apart."""
    printed = "".join(letter if letter.isprintable() else " " for letter in name)
    return " ".join(printed.replace("'", " ").split()).casefold()


def test_written_and_read_columns_are_the_same() -> None:
    assert STRIPE_COLUMNS == WRITTEN


@settings(max_examples=60)
@given(palettes(), st.sampled_from([",", ";", "\t"]), st.sampled_from(["mirrored", "scattered"]))
def test_a_table_that_was_not_edited_is_the_same_plan(
    tmp_path_factory: pytest.TempPathFactory, palette: Palette, separator: str, order: str
) -> None:
    names = {plain_name(swatch.name) for swatch in palette.swatches}
    assume(len(names) == len(palette.swatches) and "" not in names)
    plan = plan_stripes(
        palette,
        length_mm=1800,
        picks_per_cm=8,
        order=order,
        edges=(Edge(length_mm=20, colour="own linen yarn", hex="#ece7db"),),
    )
    path = tmp_path_factory.mktemp("table") / "stripes.csv"
    path.write_bytes(stripes_csv(plan, separator=separator))
    again = read_stripes(path, palette=palette, picks_per_cm=8, like=plan)
    assert again.stripes == plan.stripes
    assert again.finished_length_mm == plan.finished_length_mm


def test_soft_changes_and_roles_come_back(hedge: Palette, tmp_path: Path) -> None:
    soft = Soft(picks=20, way="between")
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8, soft=soft)
    path = tmp_path / "stripes.csv"
    path.write_bytes(stripes_csv(plan))
    again = read_stripes(path, palette=hedge, picks_per_cm=8, like=plan)
    assert again.stripes == plan.stripes
    alone = read_stripes(path, palette=hedge, picks_per_cm=8)  # lab from the hex
    assert [(s.colour, s.picks, s.role) for s in alone.stripes] == [
        (s.colour, s.picks, s.role) for s in plan.stripes
    ]


@pytest.mark.parametrize(
    ("text", "encoding"),
    [
        ("colour,picks\nmoss,20\nsky,8\n", "utf-8"),
        ("\ufeffColour;Picks\r\nMoss;20\r\nSKY;8\r\n", "utf-8"),
        ("Picks\tColor\n20,0\tmoss\n8,0\t sky \n", "utf-8"),
        ('sep=;\n"colour";"picks"\n"moss";"20"\n"sky";"8"\n;\n', "utf-8"),
        ("number,colour,picks,note\n1,moss,20,broad\n,,,\n2,sky,8,\n", "utf-16"),
    ],
)
def test_any_spreadsheets_habits_are_read(
    pair: Palette, tmp_path: Path, text: str, encoding: str
) -> None:
    plan = read_stripes(saved(tmp_path, text, encoding), palette=pair, picks_per_cm=8)
    assert [(s.colour, s.picks, s.first_pick) for s in plan.stripes] == [
        ("moss", 20, 1),
        ("sky", 8, 21),
    ]


def test_what_no_longer_matches_is_shown_and_not_corrected(pair: Palette, tmp_path: Path) -> None:
    plan = plan_stripes(pair, length_mm=90, picks_per_cm=8, least=4)
    text = "colour,picks,hex\nsky,21,\nmoss,50,\nrust,2,A84F28\nmoss,27,\n"
    edited = read_stripes(saved(tmp_path, text), palette=pair, picks_per_cm=8, least=4, like=plan)
    assert [(s.colour, s.picks) for s in edited.stripes] == [
        ("sky", 21),
        ("moss", 50),
        ("rust", 2),
        ("moss", 27),
    ]
    assert edited.stripes[2].hex == "#a84f28"
    assert edited.order == "by hand"
    assert edited.warnings == (
        "stripe 1 (sky): 21 picks, which is no multiple of 2.",
        "stripe 3 (rust): 2 picks, under the smallest stripe 4.",
        "stripe 4 (moss): 27 picks, which is no multiple of 2.",
        "The stripes come to 11.2 cm finished (100 picks); 9.0 cm was asked for.",
        "Not at their shares: sky 21 picks (25 by its share of 25.0 %).",
        "Not in the palette: rust 2 picks.",
    )


def test_a_new_colour_is_known_from_its_first_row_on(pair: Palette, tmp_path: Path) -> None:
    text = "colour,picks,hex\nrust,4,#a84f28\nmoss,4,\nRust,6,\n"
    plan = read_stripes(saved(tmp_path, text), palette=pair, picks_per_cm=8)
    assert plan.colours == ("rust", "moss")
    assert plan.picks_of("rust") == 10


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("colour,width\nmoss,20\n", r"stripes\.csv: must have a heading picks in its first row"),
        ("colour,picks\nmoss,20\nmoss,many\n", r"stripes\.csv, row 3, column picks: must be one n"),
        ("colour,picks\nmoss,0\n", "row 2, column picks: must be a whole number from 1 to 1000000"),
        ("colour;picks\nmoss;2,5\n", "row 2, column picks: must be a whole number .*got '2,5'"),
        ("colour,picks\n,20\n", "row 2, column colour: must name the yarn; got nothing"),
        ("colour,picks\nteal,20\n", r"row 2, column colour: must be one of moss, sky, or have its"),
        ("colour,picks,hex\nteal,20,blue\n", "row 2, column hex: must read #rrggbb; got 'blue'"),
        ("colour,picks,hex\nmoss,20,#000000\n", "row 2, column hex: must be #5d733a, as moss has"),
        ("colour,picks,role\nmoss,20,edge\n", "row 2, column role: must be one of stripe, blend"),
        ("colour,picks,note\n,,later\n", r"stripes\.csv: must hold at least one stripe; got none"),
        ("cloth,colour,picks\na,moss,2\nb,moss,2\n", "must hold one cloth, or it must be said whi"),
        ("", r"stripes\.csv: must hold a row of headings; got an empty file"),
    ],
)
def test_bad_tables_are_refused_by_row_and_column(
    pair: Palette, tmp_path: Path, text: str, message: str
) -> None:
    with pytest.raises(TableError, match=message):
        read_stripes(saved(tmp_path, text), palette=pair, picks_per_cm=8)


def test_one_of_several_cloths_can_be_read(pair: Palette, tmp_path: Path) -> None:
    path = saved(tmp_path, "cloth,colour,picks\ntowel 1,moss,2\ntowel 2,sky,4\ntowel 1,sky,6\n")
    assert cloths_in(path) == ("towel 1", "towel 2")
    plan = read_stripes(path, palette=pair, picks_per_cm=8, cloth="Towel 1")
    assert [(s.colour, s.picks) for s in plan.stripes] == [("moss", 2), ("sky", 6)]
    with pytest.raises(TableError, match="must hold the cloth 'rug'; got towel 1, towel 2"):
        read_stripes(path, palette=pair, picks_per_cm=8, cloth="rug")


def test_names_guarded_against_formulas_come_back(pair: Palette, tmp_path: Path) -> None:
    moss, sky = pair.swatches
    palette = Palette(swatches=(replace(moss, name="=moss"), sky))
    plan = plan_stripes(palette, length_mm=90, picks_per_cm=8)
    path = tmp_path / "stripes.csv"
    path.write_bytes(stripes_csv(plan))
    assert b"'=moss" in path.read_bytes()
    assert read_stripes(path, palette=palette, picks_per_cm=8).stripes == plan.stripes
