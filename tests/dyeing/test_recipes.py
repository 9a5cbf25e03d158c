"""Recipes in a dyer's own dyes."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.recipe import RecipePart
from palette.dyeing.recipes import plan_recipe, recipes_for
from palette.errors import InputError, TableError
from palette.perception.difference import ciede2000
from palette.swatches.match_difference import ranking_difference


def percents_of(recipe, dyes) -> list[float]:
    found = {part.dye: part.percent for part in recipe.parts}
    return [found.get(dye, 0.0) for dye in dyes]


@pytest.mark.parametrize(
    "truth", [(0.7, 0.3, 0.0), (0.0, 0.3, 1.0), (0.3, 1.2, 0.1), (1.5, 0.0, 0.0)]
)
def test_a_recipe_for_a_colour_that_the_dyes_give(known_dyes, ladder, truth) -> None:
    target = known_dyes.colours([truth])[0]
    plan = plan_recipe(tuple(target.tolist()), ladder)
    assert plan.best.difference <= 1.5
    really = known_dyes.colours([percents_of(plan.best, ladder.dyes)])[0]
    assert ciede2000(really, target) < 2.5
    assert plan.by_dyes[0].parts == ()
    assert [len(recipe.parts) for recipe in plan.by_dyes] == [0, 1, 2, 3]


def test_error_on_her_own_samples_stands_beside_the_colour(known_dyes, ladder) -> None:
    plan = plan_recipe(tuple(known_dyes.colours([(0.5, 0.5, 0.0)])[0].tolist()), ladder)
    assert plan.typical_error == pytest.approx(np.mean([value for _, value in plan.sample_errors]))
    assert len(plan.sample_errors) == len(ladder.samples) - 1
    assert plan.guide == (
        f"A guide: such predictions are typically off by CIEDE2000 {plan.typical_error:.1f}. "
        "First dye 10 g by it, rinse and dry it, and look."
    )
    assert plan.nearest_sample == "0.5 0.5 0"
    assert plan.nearest_sample_difference < 1.5


def test_a_missing_undyed_yarn_is_said(known_dyes, ladder) -> None:
    target = tuple(known_dyes.colours([(0.5, 0.3, 0.0)])[0].tolist())
    plan = plan_recipe(target, replace(ladder, samples=ladder.samples[1:]))
    assert plan.warnings[0].startswith("No undyed yarn among the samples: its colour was estimated")
    assert [len(recipe.parts) for recipe in plan.by_dyes] == [1, 2, 3]


def test_the_undyed_yarn_needs_no_dye(ladder) -> None:
    plan = plan_recipe(ladder.samples[0].lab, ladder)
    assert plan.best.parts == ()
    assert plan.best.depth_percent == 0


def test_grams_for_the_goods(known_dyes, ladder) -> None:
    target = tuple(known_dyes.colours([(1.0, 0.0, 0.3)])[0].tolist())
    one = plan_recipe(target, ladder, goods_g=100.0)
    two = plan_recipe(target, ladder, goods_g=200.0, stock_percent=0.5)
    for part, twice in zip(one.best.parts, two.best.parts, strict=True):
        assert part.dye_g == pytest.approx(part.percent)
        assert part.stock_ml == pytest.approx(100 * part.percent)
        assert twice.dye_g == pytest.approx(2 * part.dye_g)
        assert twice.stock_ml == pytest.approx(4 * part.stock_ml)
    assert plan_recipe(target, ladder).best.parts[0].dye_g is None


def test_nothing_is_predicted_beyond_the_strongest_sample(known_dyes, ladder) -> None:
    target = tuple(known_dyes.colours([(0.0, 6.0, 0.0)])[0].tolist())
    plan = plan_recipe(target, ladder)
    for recipe in plan.by_dyes:
        assert all(part.percent <= 2.0 for part in recipe.parts)
    assert "red is at 2 %, its strongest sample; dye a deeper one to go on." in plan.warnings


def test_a_colour_out_of_reach_says_so(ladder) -> None:
    plan = plan_recipe((97.0, 0.0, 0.0), replace(ladder, samples=ladder.samples))
    green = plan_recipe((60.0, -70.0, 50.0), ladder)
    assert plan.best.difference < green.best.difference
    assert "No recipe in these dyes comes within CIEDE2000 5; the nearest is" in green.warnings[0]


def test_a_sample_that_does_not_agree_is_named(ladder) -> None:
    samples = list(ladder.samples)
    samples[3] = replace(samples[3], lab=(40.0, 40.0, -40.0))
    plan = plan_recipe((60.0, 20.0, 20.0), replace(ladder, samples=tuple(samples)))
    assert plan.warnings[-1].startswith("Does not agree with the other samples")
    assert samples[3].name in plan.warnings[-1]


@settings(max_examples=4, deadline=None)
@given(st.tuples(st.integers(30, 80), st.integers(-20, 40), st.integers(-20, 50)))
def test_more_dyes_never_come_less_near(ladder, target) -> None:
    plan = plan_recipe(tuple(map(float, target)), ladder)
    ranks = ranking_difference([recipe.lab for recipe in plan.by_dyes], target)
    assert ranking_difference(plan.best.lab, target) <= ranks.min() + 1.0
    for recipe in plan.by_dyes:
        for part in recipe.parts:
            assert 0.01 <= part.percent <= 2.0
            assert part.percent == pytest.approx(round(part.percent, 2))


def test_recipes_for_the_colours_of_a_plan(known_dyes, ladder) -> None:
    moss = tuple(known_dyes.colours([(0.7, 0.0, 0.4)])[0].tolist())
    recipes, warnings = recipes_for((("moss", moss), ("natural", ladder.samples[0].lab)), ladder)
    assert [name for name, _ in recipes] == ["moss"]
    assert dict(recipes[0][1]) == {
        "yellow": pytest.approx(0.7, abs=0.15),
        "blue": pytest.approx(0.4, abs=0.1),
    }
    assert warnings[-1].startswith("A guide: such predictions are typically off by CIEDE2000")


def test_refusals(ladder) -> None:
    with pytest.raises(TableError, match=r"samples\.csv: must hold at least 3 dyed samples; got 2"):
        plan_recipe((50.0, 0.0, 0.0), replace(ladder, samples=ladder.samples[:3]))
    with pytest.raises(InputError, match="target: must be three finite CIELAB numbers; got"):
        plan_recipe((50.0, 0.0, float("inf")), ladder)
    with pytest.raises(InputError, match="dyes: must be from 1 to 4; got 0"):
        plan_recipe((50.0, 0.0, 0.0), ladder, most_dyes=0)
    with pytest.raises(InputError, match="goods: must be more than 0, and finite; got nan g"):
        plan_recipe((50.0, 0.0, 0.0), ladder, goods_g=float("nan"))
    with pytest.raises(InputError, match="dye 'red': must be more than 0 %; got 0"):
        RecipePart(dye="red", percent=0.0)


def test_a_colour_from_a_photograph_is_less_sure(known_dyes, ladder) -> None:
    target = tuple(known_dyes.colours([(0.5, 0.5, 0.0)])[0].tolist())
    measured = plan_recipe(target, ladder)
    seen = plan_recipe(target, ladder, target_from_photo=True)
    assert seen.best == measured.best
    assert seen.typical_error == pytest.approx((measured.typical_error**2 + 4.0**2) ** 0.5)
    assert f"off by CIEDE2000 {seen.typical_error:.1f}." in seen.guide
