"""What keeps its colour on a dye day, and what is asked about a coloured warp."""

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from palette.dyeing.undyed import (
    dyed_yarns,
    is_undyed_white,
    undyed_by_default,
    warp_left_out,
)
from tests.dyeing.day_yarn import yarn

YARNS = (yarn("moss", 80.0), yarn("chalk", 20.0), yarn("warp", 200.0, use="warp"))
KNOWN = ("moss", "chalk", "warp", "weft")


def names(yarns) -> list[str]:
    return [each.colour for each in yarns]


@pytest.mark.parametrize(
    ("said", "undyed"),
    [
        ((), ("warp",)),
        (("chalk",), ("warp", "chalk")),
        (("warp",), ("warp",)),
        (("none",), ()),
        (("None", "chalk"), ("chalk",)),
    ],
)
def test_a_named_colour_is_left_out_besides_the_warp(said, undyed) -> None:
    assert undyed_by_default(said, known=KNOWN) == undyed


def test_a_colour_called_none_is_a_colour() -> None:
    assert undyed_by_default(("none",), known=("none", "warp")) == ("warp", "none")


@pytest.mark.parametrize("way", ["depths", "recipes"])
def test_a_warp_with_a_depth_of_its_own_is_dyed(way: str) -> None:
    given = {"depths": (("warp", 2.0),), "recipes": (("warp", (("blue", 2.0),)),)}[way]
    asked = DyeAsked(fibre="wool", undyed=("warp",), **{way: given})
    assert names(dyed_yarns(YARNS, asked)) == ["moss", "chalk", "warp"]
    day = plan_dye_day(YARNS, asked=asked)
    assert (day["warp"].depth_percent, day.undyed) == (2.0, ())


def test_one_weft_with_a_depth_is_dyed_where_the_weft_is_not() -> None:
    asked = DyeAsked(fibre="wool", undyed=("weft", "warp"), depths=(("moss", 2.0),))
    assert names(dyed_yarns(YARNS, asked)) == ["moss"]


def test_a_depth_that_may_be_the_wefts_does_not_dye_the_warp() -> None:
    yarns = (yarn("moss", 80.0), yarn("moss", 200.0, use="warp"))
    asked = DyeAsked(fibre="wool", undyed=("warp",), depths=(("moss", 2.0),))
    assert [each.use for each in dyed_yarns(yarns, asked)] == ["weft"]


@pytest.mark.parametrize(
    ("code", "white"),
    [
        ("#ffffff", True),  # bleached
        ("#ece7db", True),  # ecru
        ("#cbb994", False),  # honey: more yellow than flax
        ("#d6c8ad", True),  # flax
        ("#8a8178", False),  # grey fleece: a colour of its own
        ("#5d733a", False),
        ("#20242c", False),
    ],
)
def test_what_passes_for_undyed(code: str, white: bool) -> None:
    assert is_undyed_white(code) is white


def test_a_coloured_warp_that_is_left_out_is_asked_about() -> None:
    asked = DyeAsked(fibre="wool", undyed=("warp",))
    assert warp_left_out(YARNS, asked) == (
        "The warp is left out of this dye day, though #5d733a is no undyed white: 200 g of it "
        "must be there in that colour. To dye it too: --undyed none, or a depth of its own, "
        "--depth warp=2%. If you have it in that colour: --undyed warp.",
    )
    assert warp_left_out(YARNS, DyeAsked(fibre="wool")) == ()
    assert warp_left_out(YARNS, DyeAsked(fibre="wool", depths=(("warp", 1.0),))) == ()


def test_only_the_coloured_stripes_of_a_warp_are_asked_about() -> None:
    yarns = (
        yarn("moss", 80.0),
        yarn("pale oak", 200.0, use="warp", hex="#ece7db"),
        yarn("dark oak", 20.0, use="warp", hex="#5a4632"),
        yarn("rust", 10.0, use="warp", hex="#a0522d"),
    )
    asked = DyeAsked(fibre="wool", undyed=("warp", "rust"))
    (said,) = warp_left_out(yarns, asked)
    assert "though dark oak #5a4632 is no undyed white: 20 g of it" in said
    assert '--depth "dark oak=2%"' in said
