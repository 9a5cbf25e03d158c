"""Acid, salt, alkali and mordant against published recipes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.dyeing.assistants import (
    Assistant,
    acid_assistants,
    alum_mordant,
    band_of,
    reactive_assistants,
)
from palette.errors import InputError
from palette.measures import G_PER_OUNCE, G_PER_POUND


def amounts(assistants: tuple[Assistant, ...]) -> dict[str, float]:
    return {each.name: pytest.approx(each.amount) for each in assistants}


@pytest.mark.parametrize(
    ("depth", "citric", "salt"), [(0.5, 1, 2), (1, 1.5, 5), (2, 2, 10), (4, 2, 10)]
)
def test_citric_acid_and_glaubers_salt(depth: float, citric: float, salt: float) -> None:
    # An Australian dyers' leaflet, acid dyes on wool: citric acid 1 / 1.5 / 2 %, Glauber's salt
    # 2 / 5 / 10 % of the goods for light (0.5 %) / medium (1 %) / strong (2 to 4 %).
    assert amounts(acid_assistants(100, depth)) == {"citric acid": citric, "Glauber's salt": salt}


def test_vinegar_instead_of_citric_acid() -> None:
    # A dyer's notes: acetic acid 2 % of the wool, salt 50 %. 2 % of 100 g in 5 % vinegar is 40 ml.
    vinegar, salt = acid_assistants(100, 1, acid="vinegar")
    assert (vinegar.name, vinegar.amount, vinegar.unit) == ("vinegar", 40, "ml")
    assert vinegar.rule == "2 % acetic acid of the dry fibre, vinegar of 5 %"
    assert (salt.name, salt.amount) == ("salt", 50)
    assert acid_assistants(100, 1, acid="vinegar", vinegar_percent=10)[0].amount == 20


@pytest.mark.parametrize(("depth", "salt", "soda"), [(0.5, 20, 5), (1.5, 50, 15), (4, 70, 20)])
def test_hot_reactive_recipe(depth: float, salt: float, soda: float) -> None:
    # Journal of Applied Mathematics 2016, 9739380, table 2: g per litre at 70 °C, liquor 10:1.
    recipe = amounts(reactive_assistants(100, depth, 1000, kind="hot"))
    assert recipe == {"Glauber's salt": salt, "soda ash": soda}


def test_hot_reactive_recipe_between_and_beyond_its_depths() -> None:
    middle = amounts(reactive_assistants(100, 1, 1000, kind="hot"))
    assert middle == {"Glauber's salt": 35, "soda ash": 10}
    deepest = reactive_assistants(100, 4, 1000, kind="hot")
    assert [each.amount for each in reactive_assistants(100, 8, 1000, kind="hot")] == [
        each.amount for each in deepest
    ]


@pytest.mark.parametrize(("depth", "pounds"), [(0.5, 1.0), (1.0, 1.5), (3.0, 2.0), (6.0, 2.0)])
def test_cold_reactive_salt(depth: float, pounds: float) -> None:
    # A dye supplier's chart per lb of fibre: salt 1 / 1.5 / 2 / 2 lb for pale / medium / dark /
    # black (its teaspoons of dye have no weight, and are left out). At 20:1 that is 50 to 100 g per
    # litre, the usual range in grams (from memory).
    salt, soda = reactive_assistants(100, depth, 2000)
    assert (salt.name, soda.name) == ("salt", "soda ash")
    assert salt.amount == pytest.approx(100 * pounds)
    assert 50 <= salt.amount / 2 <= 100
    # Soda ash 10 to 20 g per litre: common practice, from memory.
    assert 10 <= soda.amount / 2 <= 20


def test_alum_and_cream_of_tartar() -> None:
    # Mairet, Vegetable Dyes: 4 oz of alum and 1 oz of cream of tartar for 1 lb (454 g) of wool, so
    # 25 % and 6.25 %: 113.4 g and 28.35 g.
    alum, tartar = alum_mordant(G_PER_POUND, alum_percent=25, tartar_percent=6.25)
    assert (round(alum.amount, 1), round(tartar.amount, 2)) == (113.4, 28.35)
    assert (alum.amount, tartar.amount) == pytest.approx((4 * G_PER_OUNCE, G_PER_OUNCE))


@pytest.mark.parametrize(
    ("alum", "tartar"), [(8, 7), (14, 4), (8, 5), (15, 5), (10, 5), (20, 5), (25, 6.25)]
)
def test_every_recipe_of_the_dye_books_can_be_asked(alum: float, tartar: float) -> None:
    # Dye books: 8 % + 7 %, 14 % + 4 %, 8 to 15 %, 10 to 20 % + 5 %; Mairet 25 % + 6.25 %.
    recipe = alum_mordant(100, alum_percent=alum, tartar_percent=tartar)
    assert amounts(recipe) == {"alum": alum, "cream of tartar": tartar}


def test_the_default_lies_within_what_the_dye_books_say() -> None:
    alum, tartar = (each.amount for each in alum_mordant(100))
    assert 10 <= alum <= 20
    assert tartar == 5
    # Silk 20 %: within what can be asked.
    assert alum_mordant(100, alum_percent=20)[0].amount == 20


def test_alum_on_cotton() -> None:
    # Dye books: cotton 25 % of alum and 3.1 % of soda.
    assert amounts(alum_mordant(200, cellulose=True)) == {"alum": 50, "washing soda": 6.2}


def test_too_much_alum_is_refused() -> None:
    with pytest.raises(InputError, match=r"alum: must be at most 25 % .* got 30 %.*sticky"):
        alum_mordant(100, alum_percent=30)


def test_bands() -> None:
    # Leaflet: 0.5 % light, 1 % medium, 2 to 4 % deep. Supplier: 0.25 to 2.0 g per 100 g, pale to
    # deep. A good black can need 12 times a medium-light amount (a dyers' FAQ): still a depth.
    assert [band_of(depth) for depth in (0.25, 0.5, 1, 2, 4)] == [
        "light",
        "light",
        "medium",
        "deep",
        "deep",
    ]
    assert band_of(12 * 0.5) == "deep"
    with pytest.raises(InputError, match="depth of shade: must be more than 0 %; got nan"):
        band_of(float("nan"))


@given(st.floats(1, 3000), st.floats(0.1, 8))
def test_assistants_grow_with_the_goods(goods: float, depth: float) -> None:
    for recipe in (
        lambda g: acid_assistants(g, depth),
        lambda g: acid_assistants(g, depth, acid="vinegar"),
        lambda g: reactive_assistants(g, depth, 20 * g),
        lambda g: reactive_assistants(g, depth, 10 * g, kind="hot"),
        alum_mordant,
    ):
        for one, two in zip(recipe(goods), recipe(2 * goods), strict=True):
            assert two.amount == pytest.approx(2 * one.amount)


def test_every_assistant_says_where_it_is_from() -> None:
    recipes = (
        *acid_assistants(100, 1),
        *acid_assistants(100, 1, acid="vinegar"),
        *reactive_assistants(100, 1, 2000),
        *reactive_assistants(100, 1, 1000, kind="hot"),
        *alum_mordant(100),
        *alum_mordant(100, cellulose=True),
    )
    assert all(each.source and each.rule for each in recipes)
    with pytest.raises(InputError, match="salt: amount must be 0 or more; got nan"):
        Assistant(name="salt", amount=float("nan"), unit="g", rule="", source="")
