"""The stripes of a plan woven again: in their repeat, or scaled."""

from dataclasses import replace

import pytest

from palette.errors import WeavingError
from palette.measures import Units
from palette.stripes.edges import Edge
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.weaving_again import weave_again
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette

OLD = (
    *(("moss", 9), ("straw", 3), ("plum", 6), ("bark", 4), ("plum", 6), ("straw", 3)),
    *(("fern", 10), ("sky", 4)),
)
MIRRORED = (("moss", 10), ("straw", 4), ("plum", 6), ("straw", 4))
FIGURES = {"picks_per_cm": 8, "shrinkage_length": 0.1, "step": 1, "least": 1}


def _plan(palette: Palette, stripes, repeat: int | None) -> StripePlan:
    wefts = {swatch.name: Weft.of(swatch) for swatch in palette.swatches}
    picks = sum(width for _, width in stripes)
    return StripePlan(
        palette=palette,
        stripes=number_picks([Piece(wefts[name], width) for name, width in stripes]),
        picks_per_cm=8,
        finished_length_mm=picks / 8 * 9,
        shrinkage_length=0.1,
        step=1,
        order="as in the cloth",
        name="shawl",
        repeat_stripes=repeat,
    )


def _keys(plan: StripePlan) -> list[tuple[str, int]]:
    return [(stripe.colour, stripe.picks) for stripe in plan.stripes]


def test_a_found_repeat_is_woven_at_its_own_width_as_often_as_fits(hedge: Palette) -> None:
    old = _plan(hedge, (*OLD, *OLD[:5]), repeat=8)
    again = weave_again(old, length_mm=2000, **FIGURES)
    assert again.total_picks == 1778
    assert _keys(again) == [("moss", 10), *OLD[1:], *OLD * 38, *OLD[:4]]
    assert again.warnings == (
        "The repeat of shawl (8 stripes, 5.1 cm) is woven at its own width, 39 times, then its "
        "first 4 stripes. --repeats 1 scales all 13 stripes to the length instead.",
    )
    assert again.repeat_stripes == 8


def test_its_width_is_kept_at_another_density_and_shrinkage(hedge: Palette) -> None:
    old = _plan(hedge, (*OLD, *OLD[:5]), repeat=8)
    again = weave_again(old, length_mm=2000, picks_per_cm=16, shrinkage_length=0.1, step=2, least=4)
    assert [stripe.picks for stripe in again.stripes[8:16]] == [2 * picks for _, picks in OLD]
    denser = weave_again(
        old, length_mm=2000, picks_per_cm=16, shrinkage_length=0.2, step=1, least=1
    )
    assert sum(stripe.picks for stripe in denser.stripes[8:16]) == round(45 * 2 * 0.9 / 0.8)
    assert len({s.picks for s in denser.stripes if s.colour == "plum"} & {13, 14}) == 1


def test_a_repeat_that_mirrors_makes_both_ends_alike(hedge: Palette) -> None:
    old = _plan(hedge, (*MIRRORED, *MIRRORED[:3]), repeat=4)
    again = weave_again(old, length_mm=1000, **FIGURES)
    keys = _keys(again)
    assert keys[1:-1] == keys[1:-1][::-1]
    assert keys[0][0] == keys[-1][0]
    assert abs(keys[0][1] - keys[-1][1]) <= 1
    assert "37 times, the rest at both ends alike." in again.warnings[0]


def test_a_stripe_under_the_smallest_is_told(hedge: Palette) -> None:
    old = _plan(hedge, (("moss", 20), ("sky", 2), ("plum", 20), ("sky", 2)) * 2, repeat=4)
    again = weave_again(old, length_mm=1000, picks_per_cm=8, shrinkage_length=0.1, step=2, least=4)
    assert again.warnings[0].endswith(
        "In each, 2 stripes would be under the smallest of 4 picks; --least 1 weaves them as "
        "they are."
    )
    assert {s.picks for s in again.stripes if s.colour == "sky"} == {4}


def test_so_many_repeats_fill_the_length(hedge: Palette) -> None:
    old = _plan(hedge, (*OLD, *OLD[:5]), repeat=8)
    again = weave_again(old, length_mm=2000, repeats=4, **FIGURES)
    assert again.total_picks == 1778
    assert [s.colour for s in again.stripes] == [name for name, _ in OLD] * 4
    assert _keys(again)[8:16] == _keys(again)[16:24]
    assert again.warnings == (
        "The repeat of shawl (8 stripes, 5.1 cm) is woven 4 times, 9.9 times as wide as it was.",
    )


def test_so_many_repeats_that_mirror_are_closed(hedge: Palette) -> None:
    old = _plan(hedge, (*MIRRORED, *MIRRORED[:3]), repeat=4)
    again = weave_again(old, length_mm=1000, repeats=3, **FIGURES)
    keys = _keys(again)
    assert keys == keys[::-1]
    assert len(keys) == 13
    assert again.warnings[0].endswith("and closed by its first stripe (moss).")


def test_a_plan_without_a_repeat_is_repeated_whole(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=600, picks_per_cm=8, order="light-dark")
    again = weave_again(plan, length_mm=1800, repeats=3, picks_per_cm=8, shrinkage_length=0.1)
    assert [s.colour for s in again.stripes] == [s.colour for s in plan.stripes] * 3
    mirrored = plan_stripes(hedge, length_mm=600, picks_per_cm=8, order="mirrored")
    again = weave_again(mirrored, length_mm=1800, repeats=3, picks_per_cm=8, shrinkage_length=0.1)
    assert len(again.stripes) == 3 * (len(mirrored.stripes) - 1) + 1
    assert _keys(again) == _keys(again)[::-1]


def test_one_repeat_asked_for_scales_every_stripe_and_says_how_far(hedge: Palette) -> None:
    old = _plan(hedge, (*OLD, *OLD[:5]), repeat=8)
    again = weave_again(old, length_mm=2000, repeats=1, **FIGURES)
    assert [s.colour for s in again.stripes] == [s.colour for s in old.stripes]
    assert again.warnings == (
        "All 13 stripes of shawl are woven once, 24.4 times as wide as they were.",
    )
    by_width: dict[int, set[int]] = {}
    for before, after in zip(old.stripes, again.stripes, strict=True):
        by_width.setdefault(before.picks, set()).add(after.picks)
    assert all(len(found) == 1 for found in by_width.values())


def test_the_same_length_needs_no_note(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8)
    again = weave_again(plan, length_mm=1800, picks_per_cm=8, shrinkage_length=0.1)
    assert again.stripes == plan.stripes
    assert again.warnings == ()


def test_a_cloth_shorter_than_one_repeat_is_scaled_and_told(hedge: Palette) -> None:
    old = _plan(hedge, (*OLD, *OLD[:5]), repeat=8)
    again = weave_again(old, length_mm=40, units=Units.METRIC, **FIGURES)
    assert again.warnings == (
        "One repeat of shawl (5.1 cm) is longer than the cloth. All 13 stripes of shawl are woven "
        "once, 0.49 times as wide as they were.",
    )


def test_hems_keep_their_picks(hedge: Palette) -> None:
    plan = plan_stripes(
        hedge, length_mm=600, picks_per_cm=8, order="light-dark", edges=(Edge(picks=12),)
    )
    again = weave_again(plan, length_mm=1800, repeats=3, picks_per_cm=8, shrinkage_length=0.1)
    assert (again.stripes[0].role, again.stripes[0].picks) == ("hem", 12)
    assert (again.stripes[-1].role, again.stripes[-1].picks) == ("hem", 12)
    assert again.total_picks == 1600


def test_too_many_repeats_name_the_shortest_cloth(hedge: Palette) -> None:
    old = replace(_plan(hedge, (*OLD, *OLD[:5]), repeat=8), name="")
    with pytest.raises(WeavingError, match=r"its 3200 stripes need at least 3200 picks"):
        weave_again(old, length_mm=2000, repeats=400, **FIGURES)
