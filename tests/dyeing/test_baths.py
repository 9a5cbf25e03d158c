"""Dye-bath arithmetic against published figures."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.dyeing.baths import (
    bath_ml,
    dye_g,
    owf_g,
    stock_ml,
    vinegar_acid_percent,
    vinegar_ml,
)
from palette.errors import InputError
from palette.measures import G_PER_POUND

DATA = Path(__file__).parents[1] / "data" / "dye_amounts_published.csv"
ROWS = [
    row
    for row in csv.reader(DATA.read_text(encoding="utf-8").splitlines())
    if not row[0].startswith("#")
]
GOODS = st.floats(1, 5000)
DEPTH = st.floats(0.05, 10)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: " ".join(row[:3]))
def test_published_amounts(row: list[str]) -> None:
    reckon = {"dye_g": dye_g, "bath_ml": bath_ml}[row[0]]
    assert reckon(float(row[1]), float(row[2])) == pytest.approx(float(row[3]))


def test_one_per_cent_stock_is_one_gram_in_100_ml() -> None:
    # The 1 % case is printed in dyers' leaflets: 1 g per 100 ml = 10 g per litre.
    assert stock_ml(100, 1) == 100
    # 125 g at 2 % is 2.5 g, so 250 ml of it: exact arithmetic.
    assert stock_ml(125, 2) == 250


def test_vinegar() -> None:
    # 5 % vinegar, 100 g at 2 % of acid: 40 ml, exact arithmetic.
    assert vinegar_ml(100, 2) == 40
    # A dyer's notes: 10 ml of 2 % acetic acid for 10 g of wool is 2 % of its weight.
    assert vinegar_acid_percent(10, 10, vinegar_percent=2) == pytest.approx(2)
    # A dye supplier: 1 US cup (236.588 ml) of vinegar for a pound, in the same region.
    assert vinegar_acid_percent(G_PER_POUND, 236.588) == pytest.approx(2.6, abs=0.05)


@given(GOODS, DEPTH, st.floats(0.1, 5))
def test_twice_the_wool_takes_twice_of_everything(goods: float, depth: float, strength: float):
    assert dye_g(2 * goods, depth) == pytest.approx(2 * dye_g(goods, depth))
    assert bath_ml(2 * goods, 40) == pytest.approx(2 * bath_ml(goods, 40))
    stock = stock_ml(goods, depth, stock_percent=strength)
    assert stock_ml(2 * goods, depth, stock_percent=strength) == pytest.approx(2 * stock)
    assert stock * strength / 100 == pytest.approx(dye_g(goods, depth))


@given(GOODS, st.floats(0.5, 5), st.floats(1, 30))
def test_vinegar_there_and_back(goods: float, acid: float, strength: float) -> None:
    amount = vinegar_ml(goods, acid, vinegar_percent=strength)
    assert vinegar_acid_percent(goods, amount, vinegar_percent=strength) == pytest.approx(acid)


@pytest.mark.parametrize("bad", [0, -1, float("nan"), float("inf")])
def test_quantities_out_of_range_are_refused(bad: float) -> None:
    with pytest.raises(InputError, match="goods: must be more than 0, and finite; got"):
        bath_ml(bad, 40)
    with pytest.raises(InputError, match="depth of shade: must be more than 0, and finite; got"):
        dye_g(100, bad)
    with pytest.raises(InputError, match="liquor ratio: must be more than 0, and finite; got"):
        bath_ml(100, bad)
    with pytest.raises(InputError, match="stock solution: must be more than 0, and finite; got"):
        stock_ml(100, 1, stock_percent=bad)
    with pytest.raises(InputError, match="vinegar: must be more than 0, and finite; got"):
        vinegar_ml(100, 1, vinegar_percent=bad)
    if bad != 0:
        with pytest.raises(InputError, match="share: must be 0 % or more, and finite; got"):
            owf_g(100, bad)
