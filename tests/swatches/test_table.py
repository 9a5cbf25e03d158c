"""Tables as spreadsheets of several countries save them."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import TableError
from palette.swatches.table import parse_number, read_table

COLUMNS = {"name": ("yarn",), "grams": ("g",)}


def read(path: Path, data: bytes | str):
    path = path / "stock.csv"
    path.write_bytes(data if isinstance(data, bytes) else data.encode("utf-8"))
    return read_table(path, columns=COLUMNS, required=("name",))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_any_separator_line_end_and_encoding(
    tmp_path: Path, separator: str, newline: str, encoding: str
) -> None:
    number = '"12,5"' if separator == "," else "12,5"
    lines = [separator.join(["Name", " GRAMS "]), separator.join(["Möhre", number])]
    table = read(tmp_path, newline.join(lines).encode(encoding))
    assert table.columns == ("name", "grams")
    assert table.rows[0]["name"] == "Möhre"
    assert table.rows[0].number_in("grams") == 12.5
    assert table.warnings == ()


def test_an_old_western_file_is_read_and_said(tmp_path: Path) -> None:
    table = read(tmp_path, "name;grams\nMöhre;3\n".encode("cp1252"))
    assert table.rows[0]["name"] == "Möhre"
    assert table.warnings == ("stock.csv is not UTF-8; its accents were read as Western European.",)


def test_rows_are_numbered_as_a_spreadsheet_shows_them(tmp_path: Path) -> None:
    table = read(tmp_path, 'sep=;\nname;grams\nmoss;1\n\n;;\n"two\nlines";2\n')
    assert [(row.number, row["name"]) for row in table.rows] == [(2, "moss"), (5, "two\nlines")]


def test_other_headings_stay_and_short_rows_end_in_empty_cells(tmp_path: Path) -> None:
    table = read(tmp_path, "yarn;Shop shelf;g\nmoss;B3\n")
    assert table.columns == ("name", "Shop shelf", "grams")
    assert (table.rows[0]["Shop shelf"], table.rows[0]["grams"]) == ("B3", "")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "stock.csv: must hold a row of headings; got an empty file"),
        ("colour;grams\n#fff;3\n", "stock.csv: must have a heading name in its first row"),
        ("name;grams\n", "stock.csv: must hold at least one row under its headings; got none"),
        ("name;g;grams\nmoss;1;2\n", "row 1: headings must differ; got grams twice"),
        ("name,grams\nmoss,12,5\n", "row 2: must have at most 2 cells, .* 12,5, in quotation"),
        ("name;grams;\nmoss;1;2\n", "row 2, column 3: must have a heading; got '2'"),
        ('name;grams\n"moss;1\n', r"row 2: must be proper CSV \(unexpected end of data\)"),
        ("name\x00;grams\nmoss;1\n", "must be a CSV table; got a binary file"),
    ],
)
def test_what_is_no_table_is_refused(tmp_path: Path, text: str, message: str) -> None:
    with pytest.raises(TableError, match=message):
        read(tmp_path, text)


def test_a_file_that_is_not_there_or_far_too_large_is_refused(tmp_path: Path) -> None:
    with pytest.raises(TableError, match=r"must be a table \(CSV\); got nothing by that name"):
        read_table(tmp_path / "none.csv", columns=COLUMNS, required=("name",))
    with pytest.raises(TableError, match=r"must be a table \(CSV\); got a folder"):
        read_table(tmp_path, columns=COLUMNS, required=("name",))
    with pytest.raises(TableError, match=r"must be under 4 MB; got 5\.0 MB"):
        read(tmp_path, b"name;grams\n" + b"a" * 5_000_000)


@pytest.mark.parametrize("text", ["", "1.234,5", "1,234.5", "12 g", "nan", "inf", "1e3", "--3"])
def test_what_is_no_single_number_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"must be one number, like 12\.5 or 12,5"):
        parse_number(text)


def test_a_number_that_is_none_names_its_cell(tmp_path: Path) -> None:
    row = read(tmp_path, "name;grams\nmoss;some\n").rows[0]
    with pytest.raises(TableError, match=r"stock\.csv, row 2, column grams: must be"):
        row.number_in("grams")


@given(st.decimals(min_value=-9999, max_value=9999, places=3))
def test_point_and_comma_read_alike(value) -> None:
    text = f"{value:f}"
    assert parse_number(text) == parse_number(text.replace(".", ",")) == float(value)


@given(
    st.lists(
        st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=12)
        .map(str.strip)
        .filter(bool),
        min_size=1,
        max_size=8,
    ),
    st.sampled_from([",", ";", "\t"]),
)
def test_whatever_a_spreadsheet_writes_comes_back(tmp_path_factory, names, separator) -> None:
    import csv

    path = tmp_path_factory.mktemp("table") / "names.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=separator).writerows(
            [["name", "grams"], *([n, 1] for n in names)]
        )
    table = read_table(path, columns=COLUMNS, required=("name",))
    assert [row["name"] for row in table.rows] == names
