"""Stripes fitted to the yarn there is."""

import math

from hypothesis import given
from hypothesis import strategies as st

from palette.yarn.fitting import fit_stripes


def picks_need(stripes):
    """Grams at one gram a pick and three for each stripe."""
    need = {}
    for stripe in stripes:
        need[stripe.colour] = need.get(stripe.colour, 0.0) + stripe.picks + 3
    return need


def fit(plan, have_g, *, goal=None, least=4):
    colours = {stripe.colour for stripe in plan.stripes}
    return fit_stripes(
        plan.stripes,
        goal_picks=plan.total_picks if goal is None else goal,
        step=2,
        least=least,
        need_g=picks_need,
        have_g=have_g,
        pick_g=dict.fromkeys(colours, 1.0),
    )


def looks(stripes):
    return [(stripe.colour, stripe.picks) for stripe in stripes]


def test_enough_changes_nothing(plan_of):
    plan = plan_of(("moss", 40), ("rust", 20), ("moss", 20))
    came = fit(plan, picks_need(plan.stripes))
    assert came.stripes == plan.stripes
    assert came.short == ()


def test_what_is_short_is_made_up_by_the_others(plan_of):
    plan = plan_of(("moss", 40), ("rust", 40), ("straw", 20))
    came = fit(plan, {"moss": 500, "rust": 23, "straw": math.inf})
    assert looks(came.stripes) == [("moss", 54), ("rust", 20), ("straw", 26)]
    assert came.short == ("rust",)
    assert came.picks == plan.total_picks


def test_all_short_makes_a_shorter_cloth(plan_of):
    plan = plan_of(("moss", 40), ("rust", 40))
    came = fit(plan, {"moss": 23, "rust": 13})
    assert looks(came.stripes) == [("moss", 20), ("rust", 10)]
    assert came.short == ("moss", "rust")


def test_a_colour_that_is_not_there_goes(plan_of):
    plan = plan_of(("moss", 40), ("rust", 40), ("moss", 20))
    came = fit(plan, {"moss": 500})
    assert looks(came.stripes) == [("moss", 100)]


def test_too_little_for_the_least_stripe_goes(plan_of):
    plan = plan_of(("moss", 40), ("rust", 40))
    came = fit(plan, {"moss": 500, "rust": 8}, least=6)
    assert looks(came.stripes) == [("moss", 80)]


def test_a_hem_gives_way_last(plan_of):
    plan = plan_of(("rust", 10, "hem"), ("moss", 40), ("rust", 20), ("rust", 10, "hem"))
    held = fit(plan, {"moss": 500, "rust": 35})
    assert [s.picks for s in held.stripes if s.role == "hem"] == [10, 10]
    none = fit(plan, {"moss": 500, "rust": 14})
    assert sum(s.picks for s in none.stripes if s.colour == "rust") <= 11
    assert fit(plan, {}).stripes == ()


@st.composite
def plans_and_yarn(draw):
    colours = ["moss", "rust", "straw"]
    names = draw(st.lists(st.sampled_from(colours), min_size=1, max_size=10))
    names = [name for i, name in enumerate(names) if i == 0 or names[i - 1] != name]
    runs = [(name, 2 * draw(st.integers(1, 40))) for name in names]
    return runs, {name: draw(st.floats(0, 200)) for name in colours}


@given(case=plans_and_yarn(), goal=st.integers(2, 400), least=st.integers(0, 8))
def test_never_more_than_there_is(plan_of, case, goal, least):
    runs, have_g = case
    came = fit(plan_of(*runs), have_g, goal=goal, least=least)
    need = picks_need(came.stripes)
    assert all(need[colour] <= have_g[colour] + 1e-6 for colour in need)
    assert came.picks <= goal + 1
    assert all(stripe.picks % 2 == 0 for stripe in came.stripes)
