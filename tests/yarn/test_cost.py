"""Costs by weight."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.measures import G_PER_POUND, Units
from palette.yarn.cost import Price, parse_price


def test_a_mill_run_of_alpaca():
    """A fibre mill: 20 kg at 31.50 and 17 kg at 29 is 1123; 56 a kg of fleece, 70 a kg of yarn."""
    fleece, tops = parse_price("31.50/kg"), parse_price("29 per kg")
    whole = fleece.of(20_000) + tops.of(17_000)
    assert whole == 1123
    assert (round(whole / 20), round(whole / 16)) == (56, 70)


@given(grams=st.floats(0, 1e5), amount=st.floats(0.01, 1000))
def test_costs_in_both_systems_agree(grams, amount):
    metric = parse_price(f"{amount:.6f}/kg")
    imperial = parse_price(f"{amount * G_PER_POUND / 1000:.9f}/lb")
    assert imperial.units is Units.IMPERIAL
    assert metric.of(grams) == pytest.approx(imperial.of(grams), rel=1e-5, abs=1e-6)


@given(grams=st.lists(st.floats(0, 1000), max_size=10))
def test_the_whole_costs_what_its_parts_cost(grams):
    price = parse_price("18,50 per 100g")
    assert price.of(sum(grams)) == pytest.approx(sum(map(price.of, grams)))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("18.50", "--price: must be a number per mass; got '18.50'. Write it like 18.50 per 100g"),
        ("many/kg", "--price: must be a number per mass; got 'many/kg'"),
        ("18/stone", "--price: unit must be one of g, kg, oz, lb; got '1 stone'"),
        ("18/0 g", "--price: must be more than 0; got '0 g'"),
    ],
)
def test_refusals(text, words):
    with pytest.raises(InputError, match=words):
        parse_price(text, thing="--price")
    with pytest.raises(InputError, match="price: must be 0 or more, and finite; got nan"):
        Price(amount=float("nan"), per_g=1)
    with pytest.raises(InputError, match="price: must be for a mass of more than 0; got 0 g"):
        Price(amount=1, per_g=0)
