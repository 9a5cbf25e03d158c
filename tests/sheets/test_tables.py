"""Tables that open in any spreadsheet and start no formula."""

import csv
import io
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.plans.plan import Plan
from palette.sheets.tables import (
    SKEIN_COLUMNS,
    STRIPE_COLUMNS,
    YARN_COLUMNS,
    plain_cell,
    safe_cell,
    stripes_csv,
    yarn_csv,
)
from palette.stripes.table import read_stripes

SEPARATORS = ",;\t|"
STARTS_FORMULA = re.compile(r"\s*[=+\-@\t\r＝＋－＠]")


def rows_of(data: bytes, separator: str = ",") -> list[dict[str, str]]:
    text = data.decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline=""), delimiter=separator))


def test_stripes_table(plan: Plan) -> None:
    cloth = plan.cloths[0]
    rows = rows_of(stripes_csv(plan))
    assert tuple(rows[0]) == STRIPE_COLUMNS
    assert [int(row["picks"]) for row in rows] == [stripe.picks for stripe in cloth.stripes]
    assert int(rows[-1]["last_pick"]) == cloth.total_picks
    for row, stripe in zip(rows, cloth.stripes, strict=True):
        woven = stripe.picks / cloth.picks_per_cm * 10
        assert abs(int(row["woven_mm"]) - woven) <= 0.5
        assert abs(int(row["finished_mm"]) - woven * (1 - cloth.shrinkage_length)) <= 0.5
        assert int(row["finished_mm"]) <= int(row["woven_mm"])


def test_yarn_table_is_never_short(plan: Plan) -> None:
    rows = rows_of(yarn_csv(plan))
    assert tuple(rows[0]) == YARN_COLUMNS
    for row, yarn in zip(rows, plan.yarns, strict=True):
        assert 0 <= int(row["length_m"]) - yarn.length_m < 1
        assert 0 <= int(row["mass_g"]) - yarn.mass_g < 1
        assert row["count"] == "NeC 8/2"


def test_whole_skeins_stand_in_the_yarn_table(plan: Plan) -> None:
    rows = rows_of(yarn_csv(replace(plan, asked=(*plan.asked, ("skein", "50g")))))
    assert tuple(rows[0]) == (*YARN_COLUMNS, *SKEIN_COLUMNS)
    for row, yarn in zip(rows, plan.yarns, strict=True):
        assert int(row["skeins_mass_g"]) == 50 * int(row["skeins"])
        assert 0 <= int(row["skeins_mass_g"]) - yarn.mass_g < 50


def test_every_number_is_whole_so_that_no_locale_reads_it_as_a_date(plan: Plan) -> None:
    for data in (stripes_csv(plan), yarn_csv(plan)):
        cells = [cell for row in csv.reader(io.StringIO(data.decode())) for cell in row]
        assert not [cell for cell in cells if re.fullmatch(r"\d+[.,]\d+", cell)]


def test_the_mark_is_written_only_where_it_is_needed(plan_maker) -> None:
    plain = stripes_csv(plan_maker(5, 3))
    accented = stripes_csv(plan_maker(5, 3, names=("mousse pâle", "rouille", "écorce")))
    assert plain.isascii()
    assert accented.startswith(b"\xef\xbb\xbf")
    assert rows_of(accented)[0]["colour"] == "mousse pâle"


def test_several_cloths_are_told_apart(plan_maker) -> None:
    rows = rows_of(stripes_csv(plan_maker(4, 3, cloths=2, picks=200)))
    assert [row["cloth"] for row in rows] == ["Towel 1"] * 4 + ["Towel 2"] * 4
    assert [row["number"] for row in rows] == ["1", "2", "3", "4"] * 2


def test_separators(plan: Plan) -> None:
    for separator in (",", ";", "\t"):
        assert (
            tuple(rows_of(stripes_csv(plan, separator=separator), separator)[0]) == STRIPE_COLUMNS
        )
    with pytest.raises(InputError, match="table separator: must be a comma, a semicolon or a tab"):
        stripes_csv(plan, separator=":")


def test_lines_end_as_the_standard_says(plan: Plan) -> None:
    """RFC 4180 (Shafranovich, 2005), section 2: records end in CR LF."""
    data = stripes_csv(plan)
    assert data.count(b"\r\n") == data.count(b"\n") == len(plan.cloths[0].stripes) + 1


@given(st.text(alphabet=st.sampled_from("=+-@＝;,|\t\r\n '\"ab1"), max_size=12))
def test_no_split_of_a_line_starts_a_formula(name: str) -> None:
    cell = safe_cell(name)
    for separator in SEPARATORS:
        for part in cell.split(separator):
            assert not STARTS_FORMULA.match(part), (name, cell)
    assert not set(cell) & set("\r\n\t\0")


@given(st.text(alphabet=st.sampled_from("=+-@;,| ab"), max_size=12))
def test_the_guard_comes_off_again(name: str) -> None:
    assert plain_cell(safe_cell(name)) == name.strip()


def test_the_same_plan_gives_the_same_bytes(plan_maker) -> None:
    assert stripes_csv(plan_maker()) == stripes_csv(plan_maker())
    assert yarn_csv(plan_maker()) == yarn_csv(plan_maker())


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_table_comes_back_as_the_same_stripes(plan_maker, tmp_path, separator: str) -> None:
    names = ("=moss;=1", "mousse pâle, fine", '"rust" | -2', "bark")
    before = plan_maker(9, 4, names=names).cloths[0]
    path = tmp_path / "stripes.csv"
    path.write_bytes(stripes_csv(before, separator=separator))
    after = read_stripes(path, palette=before.palette, picks_per_cm=8, like=before)
    assert after.stripes == before.stripes
