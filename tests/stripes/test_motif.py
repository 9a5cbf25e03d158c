"""One repeat of a plan, as wide as it was woven."""

from dataclasses import replace

import pytest

from palette.stripes.motif import axes_of, motif_of
from palette.stripes.plan import StripePlan
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette

Sequence = list[tuple[str, int]]


@pytest.fixture
def cloth(hedge: Palette):
    def make(stripes: Sequence, repeat: int | None = None) -> StripePlan:
        wefts = {swatch.name: Weft.of(swatch) for swatch in hedge.swatches}
        return StripePlan(
            palette=hedge,
            stripes=number_picks([Piece(wefts[name], picks) for name, picks in stripes]),
            picks_per_cm=8,
            finished_length_mm=100,
            step=1,
            order="as in the cloth",
            repeat_stripes=repeat,
        )

    return make


def test_a_read_repeat_is_the_mean_of_those_that_show_the_cut_ends_left_out(cloth) -> None:
    stripes = [("moss", 5), ("sky", 4), ("plum", 20), ("moss", 9), ("sky", 4), ("plum", 21)]
    motif = motif_of(cloth([*stripes, ("moss", 9), ("sky", 3)], repeat=3))
    assert [weft.name for weft in motif.wefts] == ["moss", "sky", "plum"]
    assert motif.picks == (9.0, 4.0, 20.5)


def test_stripes_of_one_colour_that_a_reading_may_confuse_are_made_alike(cloth) -> None:
    stripes = [("moss", 12), ("sky", 10), ("plum", 4), ("sky", 11), ("moss", 30), ("sky", 3)]
    motif = motif_of(cloth([*stripes, *stripes], repeat=6))
    assert motif.picks == (12, 10.5, 4, 10.5, 30, 3)


def test_a_line_of_two_picks_is_not_one_of_three(cloth) -> None:
    stripes = [("moss", 12), ("sky", 2), ("plum", 8), ("sky", 3)]
    assert motif_of(cloth(stripes * 2, repeat=4)).picks == (12, 2, 8, 3)


def test_a_plan_that_was_not_read_has_the_repeat_that_it_keeps_to_the_pick(cloth) -> None:
    stripes = [("moss", 12), ("sky", 2), ("plum", 8)]
    assert motif_of(cloth(stripes * 3)).picks == (12, 2, 8)
    assert motif_of(cloth(stripes)) is None


def test_a_repeat_that_the_stripes_no_longer_follow_is_none(cloth) -> None:
    plan = cloth([("moss", 12), ("sky", 2), ("plum", 8), ("fern", 4)], repeat=2)
    assert motif_of(plan) is None
    assert motif_of(replace(plan, repeat_stripes=40)) is None


def test_axes() -> None:
    assert axes_of("abcdcb") == (0, 3)
    assert axes_of("abcd") == ()
    assert axes_of("a") == (0,)
