"""The dye day of a plan."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from tests.dyeing.day_yarn import yarn


def test_every_figure_of_an_acid_bath() -> None:
    asked = DyeAsked(fibre="wool", depths=(("rust", 3.0),))
    bath = plan_dye_day((yarn("rust", 270.0),), asked=asked).baths[0]
    # 300 g at 3 % is 9 g: an Australian dyers' leaflet. 40:1: a dyer's notes.
    assert (bath.dry_g, bath.dye_g, bath.stock_ml, bath.volume_ml) == (300.0, 9.0, 900.0, 12000.0)
    assert bath.water_ml == 12000.0 - 900.0
    assert [(each.name, each.amount) for each in bath.assistants] == [
        ("citric acid", 6.0),
        ("Glauber's salt", 30.0),
    ]
    assert bath.heat.startswith("Bring up slowly, over 30 min or more, simmer 20 to 40 min")


def test_vinegar_leaves_less_water() -> None:
    asked = DyeAsked(fibre="wool", depths=(("moss", 1.0),), acid="vinegar")
    bath = plan_dye_day((yarn("moss", 90.0),), asked=asked).baths[0]
    assert bath.water_ml == 4000.0 - 100.0 - 40.0


def test_mixed_fibre_is_pointed_out_and_reckoned_apart() -> None:
    asked = DyeAsked(fibre="60% wool 40% bamboo", depths=(("moss", 2.0),))
    day = plan_dye_day((yarn("moss", 90.0),), asked=asked)
    assert [(bath.dye_class, bath.fibre_g, bath.dry_g) for bath in day.baths] == [
        ("reactive", 40.0, 100.0),
        ("acid", 60.0, 100.0),
    ]
    assert [bath.dye_g for bath in day.baths] == [pytest.approx(0.8), pytest.approx(1.2)]
    assert "the two take different dyes" in day.warnings[0]
    assert "alkali harms protein" in day.warnings[0]
    unsaid = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool and bamboo"))
    assert "shares of wool and bamboo were not given, 2 equal parts are taken" in unsaid.warnings[1]
    natural = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool, linen", natural=True))
    assert "comes out in two shades" in natural.warnings[0]
    assert len(natural.baths) == 1


def test_a_recipe_of_several_dyes() -> None:
    recipe = (("yellow", 1.0), ("blue", 0.5))
    asked = DyeAsked(fibre="wool", recipes=(("moss", recipe),), depths=(("rust", 2.0),))
    day = plan_dye_day((yarn("moss", 180.0), yarn("rust", 90.0)), asked=asked)
    assert day["moss"].depth_percent == 1.5
    assert day["moss"].depth_asked
    bath = day.baths[0]
    assert [(part.dye, part.dye_g, part.stock_ml) for part in bath.dyes] == [
        ("yellow", 2.0, 200.0),
        ("blue", 1.0, 100.0),
    ]
    assert bath.dye_g == sum(part.dye_g for part in bath.dyes)
    assert bath.stock_ml == sum(part.stock_ml for part in bath.dyes)
    assert day.dyes_to_weigh == (
        ("yellow", 2.0, 200.0),
        ("blue", 1.0, 100.0),
        ("dye for rust", 2.0, 200.0),
    )


def test_cellulose_gets_salt_and_soda_and_its_caution() -> None:
    asked = DyeAsked(fibre="cotton", depths=(("moss", 1.0),))
    day = plan_dye_day((yarn("moss", 90.0),), asked=asked)
    bath = day.baths[0]
    assert (bath.dye_class, bath.volume_ml) == ("reactive", 2000.0)
    assert [(each.name, each.amount) for each in bath.assistants] == [
        ("salt", 150.0),
        ("soda ash", 30.0),
    ]
    assert "24 to 35 °C" in bath.heat
    matters = {caution.matter for caution in day.cautions}
    assert {"powder", "alkali", "reactive"} <= matters
    assert "acid" not in matters


def test_a_stock_too_thin_for_the_bath_is_refused() -> None:
    asked = DyeAsked(fibre="wool", depths=(("moss", 4.0),), stock_percent=0.1, liquor_ratio=20.0)
    with pytest.raises(InputError, match=r"must have room for 4000 ml of stock.*stronger stock"):
        plan_dye_day((yarn("moss", 90.0),), asked=asked)


MASSES = st.lists(st.floats(1, 900), min_size=1, max_size=5)


@settings(max_examples=50, deadline=None)
@given(MASSES, st.sampled_from(["wool", "cotton", "wool and bamboo"]), st.booleans())
def test_every_lot_is_covered_and_every_bath_fits(masses, fibre, natural) -> None:
    yarns = tuple(yarn(f"colour {i}", mass) for i, mass in enumerate(masses))
    asked = DyeAsked(fibre=fibre, natural=natural, pots_ml=(20000.0, 9000.0))
    day = plan_dye_day(yarns, asked=asked)
    places = {(bath.round, bath.pot_ml) for bath in day.baths}
    assert len(places) == len(day.baths)
    for bath in day.baths:
        assert bath.volume_ml <= bath.pot_ml * asked.fill * (1 + 1e-9)
        assert bath.water_ml >= 0
    for lot, mass in zip(day.lots, masses, strict=True):
        assert lot.dry_g >= mass * (1 + asked.margin) - 1e-6
        for dye_class in {bath.dye_class for bath in day.baths_of(lot)}:
            same = [bath for bath in day.baths_of(lot) if bath.dye_class == dye_class]
            assert math.fsum(bath.dry_g for bath in same) == pytest.approx(lot.dry_g)
            share = same[0].fibre_g / same[0].dry_g
            dye = math.fsum(bath.dye_g for bath in same)
            assert dye == pytest.approx(lot.dry_g * share * lot.depth_percent / 100)


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 20), st.floats(0.1, 4))
def test_twice_the_wool_takes_twice_the_dye(skeins: int, depth: float) -> None:
    asked = DyeAsked(fibre="wool", depths=(("moss", depth),), margin=0.0)
    one = plan_dye_day((yarn("moss", 100.0 * skeins),), asked=asked)
    two = plan_dye_day((yarn("moss", 200.0 * skeins),), asked=asked)
    assert sum(bath.dye_g for bath in two.baths) == pytest.approx(
        2 * sum(bath.dye_g for bath in one.baths)
    )
    assert {each.name: pytest.approx(each.amount) for each in two.totals} == {
        each.name: 2 * each.amount for each in one.totals
    }


def test_hot_reactive_dye_is_refused_where_the_yarn_holds_protein() -> None:
    asked = DyeAsked(fibre="60% wool 40% bamboo", reactive="hot")
    with pytest.raises(
        InputError,
        match="reactive: must be cold for yarn of cellulose and protein; got hot, for moss",
    ):
        plan_dye_day((yarn("moss", 90.0),), asked=asked)


def test_dyes_named_alike_are_weighed_by_class() -> None:
    asked = DyeAsked(fibre="50% wool 50% bamboo", recipes=(("moss", (("blue", 1.0),)),))
    day = plan_dye_day((yarn("moss", 90.0),), asked=asked)
    assert day.dyes_to_weigh == (("blue (reactive)", 0.5, 50.0), ("blue (acid)", 0.5, 50.0))


def test_the_total_of_vinegar_says_how_strong_it_is() -> None:
    asked = DyeAsked(fibre="wool", acid="vinegar", vinegar_percent=8.0)
    day = plan_dye_day((yarn("moss", 90.0),), asked=asked)
    assert {each.name: each.strength for each in day.totals} == {"vinegar": "8 %", "salt": ""}
