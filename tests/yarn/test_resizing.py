"""Stripes made wider or narrower in the same order."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.yarn.resizing import Layout, renumbered, scaled_units

STEPS = st.integers(1, 4)


@st.composite
def runs(draw, step=2):
    colours = st.sampled_from(["moss", "rust", "straw", "plum"])
    names = draw(st.lists(colours, min_size=1, max_size=12))
    names = [name for i, name in enumerate(names) if i == 0 or names[i - 1] != name]
    return [(name, step * draw(st.integers(1, 30))) for name in names]


def looks(stripes):
    return [(stripe.colour, stripe.picks) for stripe in stripes]


def picks_by_colour(stripes):
    totals = {}
    for stripe in stripes:
        totals[stripe.colour] = totals.get(stripe.colour, 0) + stripe.picks
    return totals


@given(wish=runs())
def test_the_same_totals_change_nothing(plan_of, wish):
    plan = plan_of(*wish)
    layout = Layout(plan.stripes, step=2, least=4)
    assert layout.resized(layout.units) == plan.stripes


@given(wish=runs(), share=st.floats(0.1, 3))
def test_totals_come_out_and_the_order_stays(plan_of, wish, share):
    plan = plan_of(*wish)
    layout = Layout(plan.stripes, step=2, least=0)
    mirrored = wish == wish[::-1]
    units = {colour: max(1, round(have * share)) for colour, have in layout.units.items()}
    came = layout.resized(units)
    totals = picks_by_colour(came)
    for colour, wanted in units.items():
        lost = 2 * wanted - totals.get(colour, 0)
        assert lost == 0 or (mirrored and lost == 2)
    order = iter(stripe.colour for stripe in plan.stripes)
    assert all(stripe.colour in order for stripe in came)  # came is a sub-sequence
    assert all(stripe.picks % 2 == 0 for stripe in came)
    assert [s.first_pick for s in came] == [s.first_pick for s in renumbered(came)]


@given(half=runs(), share=st.floats(0.1, 3))
def test_mirrored_stays_mirrored(plan_of, half, share):
    wish = half + half[-2::-1]
    plan = plan_of(*wish)
    layout = Layout(plan.stripes, step=2, least=4)
    units = {colour: round(have * share) for colour, have in layout.units.items()}
    assert looks(layout.resized(units)) == looks(layout.resized(units))[::-1]


@given(wish=runs(), share=st.floats(0.05, 1), least=st.integers(2, 12))
def test_no_stripe_gets_narrower_than_the_least(plan_of, wish, share, least):
    plan = plan_of(*wish)
    layout = Layout(plan.stripes, step=2, least=least)
    units = {colour: int(have * share) for colour, have in layout.units.items()}
    changed = {colour for colour in units if units[colour] != layout.units[colour]}
    assert all(s.picks >= least for s in layout.resized(units) if s.colour in changed)


def test_hems_and_soft_changes_keep_their_picks(plan_of):
    plan = plan_of(
        ("rust", 10, "hem"), ("moss", 40), ("rust", 2, "blend"), ("moss", 2, "blend"), ("rust", 40)
    )
    layout = Layout(plan.stripes, step=2, least=4)
    assert layout.units == {"rust": 20, "moss": 20}
    assert layout.kept == {"rust": 12, "moss": 2}
    assert looks(layout.resized({"rust": 10, "moss": 25})) == [
        ("rust", 10),
        ("moss", 50),
        ("rust", 2),
        ("moss", 2),
        ("rust", 20),
    ]


def test_a_stripe_that_was_begun_keeps_its_odd_pick(plan_of):
    plan = plan_of(("moss", 7), ("rust", 10))
    layout = Layout(plan.stripes, step=2, least=4)
    assert layout.units_for(17) == 8
    assert looks(layout.resized({"moss": 0, "rust": 4})) == [("moss", 1), ("rust", 8)]


def test_neighbours_join_where_a_stripe_goes(plan_of):
    plan = plan_of(("moss", 20), ("rust", 4), ("moss", 10))
    layout = Layout(plan.stripes, step=2, least=4)
    assert looks(layout.resized({"moss": 15, "rust": 1})) == [("moss", 30)]


@given(
    units=st.dictionaries(st.sampled_from("abcde"), st.integers(0, 50), min_size=1),
    total=st.integers(0, 200),
    most=st.integers(0, 60),
)
def test_scaled_units_keep_their_limits(units, total, most):
    came = scaled_units(units, total, dict.fromkeys(units, most))
    used = [colour for colour, have in units.items() if have]
    assert sum(came.values()) == min(total, min(most, total) * len(used))
    assert all(came[colour] <= most for colour in units)
    assert all(came[colour] == 0 for colour in units if colour not in used)


def test_refusals(plan_of):
    with pytest.raises(InputError, match="step: must be at least 1 pick; got 0"):
        Layout(plan_of(("moss", 4)).stripes, step=0, least=0)
