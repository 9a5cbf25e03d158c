"""The dye day of a plan."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.asked import DyeAsked, suggested_depth
from palette.dyeing.cautions import CAUTIONS, DATA_SHEET
from palette.dyeing.lots import whole_skeins
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from palette.yarn.amounts import YarnAmount


def yarn(colour: str, mass_g: float, *, use="weft", hex="#5d733a", count="Nm 2/8") -> YarnAmount:
    return YarnAmount(
        colour=colour,
        hex=hex,
        use=use,
        count=count,
        tex=250.0,
        picks=100,
        starts=1,
        net_length_m=mass_g * 4,
        length_m=mass_g * 4,
        mass_g=mass_g,
    )


def test_a_lot_is_whole_skeins_with_a_margin() -> None:
    day = plan_dye_day((yarn("moss", 182.0),), asked=DyeAsked(fibre="wool"))
    lot = day["moss"]
    # 182 g and 10 % is 200.2 g: three skeins of 100 g.
    assert (lot.skeins[0].skeins, lot.dry_g, lot.needed_g) == (3, 300.0, 182.0)
    assert whole_skeins(182.0, 100.0) == 2
    smaller = DyeAsked(fibre="wool", skeins_g=(("moss", 25.0),), margin=0.0)
    assert plan_dye_day((yarn("moss", 182.0),), asked=smaller)["moss"].dry_g == 200.0


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


def test_warp_and_weft_of_one_colour_are_one_lot() -> None:
    yarns = (yarn("moss", 80.0), yarn("moss", 150.0, use="warp", count="Nm 2/16"))
    day = plan_dye_day(yarns, asked=DyeAsked(fibre="wool"))
    assert len(day.lots) == 1
    assert [(each.use, each.skeins) for each in day["moss"].skeins] == [("weft", 1), ("warp", 2)]
    other = plan_dye_day(yarns, asked=DyeAsked(fibre="wool", fibres=(("warp", "cotton"),)))
    assert [lot.fibre.text for lot in other.lots] == ["wool", "cotton"]
    assert [bath.dye_class for bath in other.baths] == ["acid", "reactive"]


def test_an_undyed_warp_stays_out() -> None:
    yarns = (yarn("moss", 80.0), yarn("natural", 150.0, use="warp"))
    for name in ("warp", "natural"):
        day = plan_dye_day(yarns, asked=DyeAsked(fibre="wool", undyed=(name,)))
        assert ([lot.colour for lot in day.lots], day.undyed) == (["moss"], ("natural",))
    with pytest.raises(InputError, match="dye day: must have a yarn to dye; got none"):
        plan_dye_day(yarns, asked=DyeAsked(fibre="wool", undyed=("warp", "weft")))


def test_a_lot_stays_in_one_bath_where_a_pot_holds_it() -> None:
    asked = DyeAsked(fibre="wool", pots_ml=(8000.0, 20000.0), depths=(("moss", 1.0), ("rust", 1.0)))
    day = plan_dye_day((yarn("moss", 250.0), yarn("rust", 90.0)), asked=asked)
    assert [(bath.colour, bath.pot_ml, bath.round) for bath in day.baths] == [
        ("moss", 20000.0, 1),
        ("rust", 8000.0, 1),
    ]
    assert day.rounds == 1
    assert day.warnings == ()


def test_a_lot_that_no_pot_holds_is_split_evenly_and_said() -> None:
    asked = DyeAsked(fibre="wool", pots_ml=(20000.0,), depths=(("moss", 1.0),), margin=0.0)
    day = plan_dye_day((yarn("moss", 400.0),), asked=asked)
    assert [(bath.skeins, bath.dry_g, bath.round) for bath in day.baths] == [
        (2, 200.0, 1),
        (2, 200.0, 2),
    ]
    assert day["moss"].baths == (1, 2)
    assert day.warnings == (
        "moss: 400 g needs 16.0 l and the largest pot takes 15.0 l, so its lot is split: 200 g and "
        "200 g. Two baths never match exactly: dye them from one stock solution on one day, and "
        "throw picks from both in turn.",
    )


def test_a_pot_too_small_for_one_skein_is_refused() -> None:
    message = (
        r"largest pot: must hold a skein of moss: 100 g at 40:1; got 4 l filled to 75 %\. "
        "Take a pot of 6 l, smaller skeins or less liquor"
    )
    with pytest.raises(InputError, match=message):
        plan_dye_day((yarn("moss", 50.0),), asked=DyeAsked(fibre="wool", pots_ml=(4000.0,)))


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


def test_mixed_fibre_is_pointed_out_once_for_all_its_colours() -> None:
    yarns = (yarn("moss", 90.0), yarn("rust", 90.0))
    day = plan_dye_day(yarns, asked=DyeAsked(fibre="50% wool 50% bamboo"))
    assert sum("mixed fibre" in warning for warning in day.warnings) == 1
    assert day.warnings[0].startswith("moss, rust: 50% wool 50% bamboo is mixed fibre")
    # Salt goes by the bath, and the bath is for all of the yarn: 200 % of 100 g in 2 l.
    salt = day.baths[0].assistants[0]
    assert (salt.name, salt.amount, day.baths[0].volume_ml) == ("salt", 200.0, 2000.0)


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


def test_a_large_skein_for_a_small_colour_is_said() -> None:
    asked = DyeAsked(fibre="wool", depths=(("accent", 1.0), ("moss", 1.0)))
    day = plan_dye_day((yarn("accent", 9.0), yarn("moss", 80.0)), asked=asked)
    assert day.warnings == (
        "Much more is dyed than the plan needs: accent (9 g needed, 100 g dyed). Wind smaller "
        "skeins of these.",
    )


def test_what_takes_no_dye_stays_or_is_refused() -> None:
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="80% wool 20% polyester"))
    assert day.baths[0].fibre_g == pytest.approx(80.0)
    assert "20 % of 80% wool 20% polyester takes none of these dyes" in day.warnings[0]
    with pytest.raises(InputError, match="fibre of moss: must take acid or fibre-reactive dyes"):
        plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="acrylic"))


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


def test_natural_dyes_share_mordant_baths() -> None:
    yarns = (yarn("madder red", 180.0), yarn("weld", 90.0), yarn("walnut", 260.0))
    day = plan_dye_day(yarns, asked=DyeAsked(fibre="wool", natural=True, margin=0.0))
    # 15 l at 30:1 hold 500 g: 200 + 300 g and 100 g, or 200 + 100 g and 300 g; two baths.
    assert len(day.mordant_baths) == 2
    assert sum(bath.dry_g for bath in day.mordant_baths) == 600.0
    for colour in ("madder red", "weld", "walnut"):
        assert sum(colour in bath.colours for bath in day.mordant_baths) == 1
    assert {each.name: each.amount for each in day.totals} == {
        "alum": pytest.approx(90.0),
        "cream of tartar": pytest.approx(30.0),
    }
    first = day.baths[0]
    assert (first.dye_g, first.stock_ml, first.assistants) == (200.0, 0.0, ())
    assert "Plants differ: dye a sample first." in day.warnings[-1]


def test_cotton_is_mordanted_apart_from_wool() -> None:
    yarns = (yarn("moss", 90.0), yarn("rust", 90.0))
    asked = DyeAsked(fibre="wool", fibres=(("rust", "cotton"),), natural=True)
    day = plan_dye_day(yarns, asked=asked)
    assert [bath.colours for bath in day.mordant_baths] == [("moss",), ("rust",)]
    assert [each.name for each in day.mordant_baths[1].assistants] == ["alum", "washing soda"]


def test_depths_that_were_not_asked_are_called_suggestions() -> None:
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool"))
    assert day["moss"].depth_percent == suggested_depth("#5d733a") == 2.0
    assert not day["moss"].depth_asked
    assert day.warnings == (
        "Depth of shade suggested from the lightness of the colour alone: moss. "
        "Dye a sample first.",
    )


def test_a_stock_too_thin_for_the_bath_is_refused() -> None:
    asked = DyeAsked(fibre="wool", depths=(("moss", 4.0),), stock_percent=0.1, liquor_ratio=20.0)
    with pytest.raises(InputError, match=r"must have room for 4000 ml of stock.*stronger stock"):
        plan_dye_day((yarn("moss", 90.0),), asked=asked)


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"margin": -0.1}, "margin: must be 0 or more, and finite; got -0.1"),
        ({"skein_g": 0.0}, "skein: must be more than 0, and finite; got 0.0"),
        ({"pots_ml": ()}, "pots: must be at least one; got none"),
        ({"pots_ml": (float("nan"),)}, "pot: must be more than 0, and finite; got nan"),
        ({"fill": 1.2}, "fill: must be at most 100 %; got 120 %"),
        ({"liquor_ratio": 0.0}, "liquor ratio: must be more than 0, and finite; got 0.0"),
        ({"depths": (("moss", 40.0),)}, "depth of moss: must be at most 10 % .*got 40 %"),
        ({"depths": (("teal", 1.0),)}, "colour: must be one of the plan; got 'teal'. The plan has"),
        ({"recipes": (("teal", (("blue", 1.0),)),)}, "colour: must be one of the plan; got 'teal'"),
        ({"recipes": (("moss", (("blue", 0.0),)),)}, "blue for moss: must be more than 0, and"),
        ({"recipes": (("moss", (("blue", 20.0),)),)}, "depth of moss: must be at most 10 %"),
        (
            {"recipes": (("moss", (("blue", 1.0),)),), "depths": (("moss", 1.0),)},
            "colour moss: must have a depth or a recipe, not both. The recipe gives the depth.",
        ),
        ({"tartar_percent": -1.0}, "cream of tartar: must be 0 % or more, and finite; got -1.0 %"),
        ({"undyed": ("teal",)}, "colour: must be one of the plan; got 'teal'"),
        ({"fibres": (("moss", "mystery"),)}, "fibre of moss: must be a fibre that is known"),
    ],
)
def test_what_cannot_be_dyed_is_refused(asked: dict, message: str) -> None:
    with pytest.raises(InputError, match=message):
        plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool", **asked))


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


def test_cautions_name_what_can_hurt_and_no_maker() -> None:
    text = " ".join(caution.text for caution in CAUTIONS)
    for word in (
        "breathed in",
        "mask",
        "gloves",
        "never go back to food",
        "acid into water",
        "scald",
        "data sheet",
        "Local codes",
        "allergic",
    ):
        assert word in text
    assert all(caution.source for caution in CAUTIONS)
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool"))
    assert day.cautions[-1].text == DATA_SHEET
    with pytest.raises(KeyError):
        day["teal"]


def test_acid_baths_of_mixed_yarn_come_in_later_fillings() -> None:
    asked = DyeAsked(fibre="70% wool 30% bamboo", pots_ml=(12_000.0, 6000.0))
    day = plan_dye_day((yarn("moss", 180.0), yarn("rust", 90.0)), asked=asked)
    for lot in day.lots:
        reactive = [bath.round for bath in day.baths_of(lot) if bath.dye_class == "reactive"]
        acid = [bath.round for bath in day.baths_of(lot) if bath.dye_class == "acid"]
        assert reactive
        assert max(reactive) < min(acid)


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


def test_a_colour_of_less_than_a_gram_is_not_said_to_need_none() -> None:
    asked = DyeAsked(fibre="wool", depths=(("accent", 1.0),), skein_g=113.4)
    day = plan_dye_day((yarn("accent", 0.3),), asked=asked)
    assert "accent (1 g needed, 114 g dyed)" in day.warnings[0]
