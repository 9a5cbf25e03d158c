"""What a dyer is told beside the figures."""

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from tests.dyeing.day_yarn import yarn


def test_mixed_fibre_is_pointed_out_once_for_all_its_colours() -> None:
    yarns = (yarn("moss", 90.0), yarn("rust", 90.0))
    day = plan_dye_day(yarns, asked=DyeAsked(fibre="50% wool 50% bamboo"))
    assert sum("mixed fibre" in warning for warning in day.warnings) == 1
    assert day.warnings[0].startswith("moss, rust: 50% wool 50% bamboo is mixed fibre")
    # Salt goes by the bath, and the bath is for all of the yarn: 200 % of 100 g in 2 l.
    salt = day.baths[0].assistants[0]
    assert (salt.name, salt.amount, day.baths[0].volume_ml) == ("salt", 200.0, 2000.0)


def test_a_large_skein_for_a_small_colour_is_said() -> None:
    asked = DyeAsked(fibre="wool", depths=(("accent", 1.0), ("moss", 1.0)))
    day = plan_dye_day((yarn("accent", 9.0), yarn("moss", 80.0)), asked=asked)
    assert day.warnings == (
        "Much more is dyed than the plan needs: accent (9 g needed, 100 g dyed). Wind smaller "
        "skeins of these.",
    )


def test_a_colour_of_less_than_a_gram_is_not_said_to_need_none() -> None:
    asked = DyeAsked(fibre="wool", depths=(("accent", 1.0),), skein_g=113.4)
    day = plan_dye_day((yarn("accent", 0.3),), asked=asked)
    assert "accent (1 g needed, 114 g dyed)" in day.warnings[0]


@pytest.mark.parametrize(
    ("uses", "ways"),
    [
        (("weft",), "throw picks from both in turn."),
        (("warp",), "wind ends from both in turn across the whole warp."),
        (
            ("weft", "warp"),
            "throw picks from both in turn and wind ends from both in turn across the whole warp.",
        ),
    ],
)
def test_unlike_baths_are_mixed_where_their_yarn_goes(uses: tuple[str, ...], ways: str) -> None:
    """Two lots are hidden pick by pick in a weft, end by end in a warp: common practice."""
    yarns = tuple(yarn("moss", 360.0 / len(uses), use=use) for use in uses)
    asked = DyeAsked(fibre="wool", depths=(("moss", 2.0),), pots_ml=(12000.0,))
    (said,) = plan_dye_day(yarns, asked=asked).warnings
    assert said.endswith(
        f"Two baths never match exactly: dye them from one stock solution on one day, and {ways}"
    )


def test_many_baths_are_counted() -> None:
    asked = DyeAsked(fibre="wool", depths=(("moss", 2.0),), pots_ml=(6000.0,))
    (said,) = plan_dye_day((yarn("moss", 250.0),), asked=asked).warnings
    assert "Three baths never match" in said
    assert said.endswith("throw picks from all of them in turn.")
