"""The shelf: what is used, left and short, and the plans that it allows."""

import functools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.loom.planning import plan_warp
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts
from palette.yarn.stock import enough, needed_by_colour, stock_lines
from palette.yarn.stock_plans import longest_plan, nearest_plan

COUNT = parse_count("NeC 8/2")
RECKON = functools.partial(yarn_amounts, weft=COUNT, warp_yarn=COUNT)
COLOURS = ("moss", "rust", "straw")


def warp_for(*cloths):
    return plan_warp(
        finished_width_mm=300,
        ends_per_cm=8,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
    )


@pytest.fixture(scope="module")
def scarf(plan_of):
    return plan_of(
        ("moss", 200), ("rust", 100), ("straw", 60), ("rust", 100), ("moss", 200), least=4
    )


@pytest.fixture(scope="module")
def needed(scarf):
    return needed_by_colour(RECKON((scarf,), warp_for(scarf)))


def test_what_is_used_left_and_short(scarf, needed):
    amounts = RECKON((scarf,), warp_for(scarf))
    held = {"moss": needed["moss"] + 12, "rust": needed["rust"] - 5, "warp": math.inf}
    lines = {line.colour: line for line in stock_lines(amounts, held)}
    assert list(lines) == ["moss", "rust", "straw", "warp"]
    assert lines["moss"].left_g == pytest.approx(12)
    assert lines["moss"].short_g == 0
    assert lines["rust"].short_g == pytest.approx(5)
    assert lines["rust"].used_g == held["rust"]
    assert lines["straw"].short_g == pytest.approx(needed["straw"])  # not on the shelf
    assert lines["warp"].left_g == math.inf
    assert not enough(amounts, held)
    assert enough(amounts, needed)


def test_one_colour_for_warp_and_weft_is_one_yarn(scarf):
    amounts = RECKON((scarf,), warp_for(scarf), warp_stripes=())
    both = [a for a in amounts if a.colour == "moss"]
    assert needed_by_colour([*both, *both])["moss"] == pytest.approx(2 * both[0].mass_g)


def test_a_shelf_that_is_enough_changes_nothing(scarf, needed):
    plan = nearest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=needed)
    assert plan.cloths == (scarf,)
    assert not plan.changed
    assert plan.warnings == ()


def test_the_nearest_plan_keeps_the_length_if_it_can(scarf, needed):
    held = {**dict.fromkeys(needed, math.inf), "rust": needed["rust"] * 0.6}
    plan = nearest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    cloth = plan.cloths[0]
    assert plan.changed
    assert cloth.total_picks == scarf.total_picks
    assert cloth.picks_of("rust") < scarf.picks_of("rust")
    assert cloth.picks_of("moss") > scarf.picks_of("moss")
    looks = [(stripe.colour, stripe.picks) for stripe in cloth.stripes]
    assert looks == looks[::-1]  # the wish was mirrored
    fewer, more = plan.warnings
    start = "Fewer picks, as the shelf has no more: "
    assert fewer.startswith(f"{start}rust {cloth.picks_of('rust')} instead of 200 (")
    assert fewer.endswith(" g there).")
    assert more.startswith("More picks, to make up for the others: moss ")
    assert more.count("instead of") == 2


def test_the_nearest_plan_gets_shorter_where_it_must(scarf, needed):
    held = {colour: grams * 0.7 for colour, grams in needed.items()} | {"warp": math.inf}
    plan = nearest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    assert plan.cloths[0].total_picks < scarf.total_picks
    assert plan.warp.length_mm < warp_for(scarf).length_mm
    assert "the shelf has no more of moss, rust, straw" in plan.warnings[-1]


def test_a_short_warp_makes_a_shorter_cloth(scarf, needed):
    held = {**dict.fromkeys(needed, math.inf), "warp": needed["warp"] * 0.8}
    plan = nearest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    assert enough(plan.amounts, held)
    assert plan.cloths[0].total_picks < scarf.total_picks
    assert "no more of the warp yarn" in plan.warnings[-1]
    assert any("to keep the shares: " in note for note in plan.warnings)
    warp_left = stock_lines(plan.amounts, held)[-1].left_g
    assert 0 <= warp_left < needed["warp"] * 0.01


def test_the_longest_cloth_is_as_long_as_can_be(scarf, needed):
    held = {**dict.fromkeys(needed, math.inf), "straw": needed["straw"] * 2.5}
    plan = longest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    cloth = plan.cloths[0]
    assert enough(plan.amounts, held)
    assert cloth.total_picks > 2 * scarf.total_picks
    for colour in COLOURS:
        share = scarf.picks_of(colour) / scarf.total_picks
        assert cloth.picks_of(colour) == pytest.approx(share * cloth.total_picks, abs=4)
    assert plan.warnings == (
        f"The cloth is {cloth.true_finished_length_mm / 10:.1f} cm long instead of "
        f"{scarf.true_finished_length_mm / 10:.1f} cm: the shelf has no more of straw.",
    )
    left = next(line.left_g for line in stock_lines(plan.amounts, held) if line.colour == "straw")
    pick_g = next(amount.g_per_pick for amount in plan.amounts if amount.colour == "straw")
    assert left < 5 * pick_g * 1.1


def test_the_longest_cloth_says_what_made_it_shorter(scarf, needed):
    plenty = dict.fromkeys(needed, math.inf)
    for colour, words in (("rust", "rust"), ("warp", "the warp yarn")):
        held = {**plenty, colour: needed[colour] * 0.7}
        plan = longest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
        assert plan.cloths[0].total_picks < scarf.total_picks
        (note,) = plan.warnings
        assert note.endswith(f"long instead of 82.5 cm: the shelf has no more of {words}.")


def test_only_what_stops_the_cloth_is_blamed(scarf, needed):
    """Rust would make it shorter, straw makes it impossible: the refusal names straw alone."""
    held = {**dict.fromkeys(needed, math.inf), "rust": needed["rust"] * 0.5, "straw": 0.0}
    with pytest.raises(WeavingError, match=r"and the warp; got straw 0 g \(\d g needed\)\. Dye"):
        longest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    held["straw"] = needed["straw"]
    plan = longest_plan((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
    assert plan.cloths[0].picks_of("straw") > 0


def test_a_warp_that_is_short_is_blamed_alone(scarf, needed):
    held = {**dict.fromkeys(needed, math.inf), "rust": needed["rust"] * 0.5, "warp": 1.0}
    for find in (longest_plan, nearest_plan):
        with pytest.raises(WeavingError, match=r"and the warp; got warp 1 g \(\d+ g needed\)"):
            find((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)


def test_only_one_of_several_cloths_is_changed(scarf, plan_of):
    first = plan_of(("moss", 100), ("rust", 40))
    cloths = (first, scarf)
    needed = needed_by_colour(RECKON(cloths, warp_for(*cloths)))
    held = {**dict.fromkeys(needed, math.inf), "rust": needed["rust"] * 0.7}
    plan = nearest_plan(cloths, warp_for(*cloths), reckon=RECKON, held_g=held, index=1)
    assert plan.cloths[0] == first
    assert plan.cloths[1] != scarf
    assert enough(plan.amounts, held)


GRAMS = st.floats(0, 120) | st.just(math.inf)


@given(held=st.fixed_dictionaries({**dict.fromkeys(COLOURS, GRAMS), "warp": st.floats(0, 400)}))
def test_a_plan_with_a_shelf_never_uses_more_than_the_shelf(scarf, held):
    for find in (nearest_plan, longest_plan):
        try:
            plan = find((scarf,), warp_for(scarf), reckon=RECKON, held_g=held)
        except WeavingError:
            continue  # nothing can be woven from this shelf
        assert enough(plan.amounts, held)
        assert plan.cloths[0].woven_length_mm == pytest.approx(plan.warp.cloth_lengths_mm[0])
        assert set(plan.cloths[0].colours) <= set(COLOURS)


def test_refusals(scarf, needed):
    warp = warp_for(scarf)
    with pytest.raises(InputError, match="shelf moss: must be 0 g or more; got nan g"):
        stock_lines((), {"moss": math.nan})
    with pytest.raises(WeavingError, match="must hold a limited amount of at least one colour"):
        longest_plan((scarf,), warp, reckon=RECKON, held_g=dict.fromkeys(needed, math.inf))
    with pytest.raises(
        WeavingError,
        match="must hold enough for one stripe of each colour and the warp; got moss 0 g",
    ):
        longest_plan((scarf,), warp, reckon=RECKON, held_g={**needed, "moss": 0})
    with pytest.raises(WeavingError, match=r"Dye or buy the colours that are short\."):
        nearest_plan((scarf,), warp, reckon=RECKON, held_g={})
    with pytest.raises(InputError, match="cloth: must be from 1 to 1; got 2"):
        nearest_plan((scarf,), warp, reckon=RECKON, held_g=needed, index=1)
