"""Lots of a dye day: whole skeins, what is not dyed, and their baths."""

import pytest

from palette.dyeing.asked import DyeAsked, suggested_depth
from palette.dyeing.lots import whole_skeins
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from tests.dyeing.day_yarn import yarn


def test_a_lot_is_whole_skeins_with_a_margin() -> None:
    day = plan_dye_day((yarn("moss", 182.0),), asked=DyeAsked(fibre="wool"))
    lot = day["moss"]
    # 182 g and 10 % is 200.2 g: three skeins of 100 g.
    assert (lot.skeins[0].skeins, lot.dry_g, lot.needed_g) == (3, 300.0, 182.0)
    assert whole_skeins(182.0, 100.0) == 2
    smaller = DyeAsked(fibre="wool", skeins_g=(("moss", 25.0),), margin=0.0)
    assert plan_dye_day((yarn("moss", 182.0),), asked=smaller)["moss"].dry_g == 200.0


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


def test_what_takes_no_dye_stays_or_is_refused() -> None:
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="80% wool 20% polyester"))
    assert day.baths[0].fibre_g == pytest.approx(80.0)
    assert "20 % of 80% wool 20% polyester takes none of these dyes" in day.warnings[0]
    with pytest.raises(InputError, match="fibre of moss: must take acid or fibre-reactive dyes"):
        plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="acrylic"))


def test_depths_that_were_not_asked_are_called_suggestions() -> None:
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool"))
    assert day["moss"].depth_percent == suggested_depth("#5d733a") == 2.0
    assert not day["moss"].depth_asked
    assert day.warnings == (
        "Depth of shade suggested from the lightness of the colour alone: moss. "
        "Dye a sample first.",
    )
