"""Half way: will it last?"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.planning import plan_warp
from palette.measures import Units
from palette.yarn.count import parse_count
from palette.yarn.halfway import cut_stripes
from palette.yarn.lasting import check_yarn
from palette.yarn.planning import yarn_amounts
from palette.yarn.resizing import renumbered
from palette.yarn.wefts import Weaving, weft_per_pick_mm, weft_uses

COUNT = parse_count("NeC 8/2")
TAIL_MM = 70.0


def loom_of(*cloths, allowance=0.1):
    """Amounts and weaving of cloths on a 60 cm wide warp."""
    warp = plan_warp(
        finished_width_mm=600,
        ends_per_cm=8,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
    )
    amounts = yarn_amounts(
        cloths, warp, weft=COUNT, warp_yarn=COUNT, tail_mm=TAIL_MM, allowance=allowance
    )
    return amounts, Weaving(pick_mm=weft_per_pick_mm(warp), tail_mm=TAIL_MM)


def had_of(amounts):
    return {amount.colour: amount.mass_g for amount in amounts if amount.use == "weft"}


def left_after(plan, picks, amounts, weaving, *, times=1.0, per_cm=None):
    """Grams left after so many picks of the list, each taking `times` what was planned."""
    woven, _ = cut_stripes(plan, picks)
    density = plan.picks_per_cm if per_cm is None else per_cm
    uses = weft_uses(replace(plan, stripes=woven, picks_per_cm=density), weaving)
    return {
        colour: grams - times * (uses[colour].length_m if colour in uses else 0) * COUNT.tex / 1000
        for colour, grams in had_of(amounts).items()
    }


@pytest.fixture(scope="module")
def towel(plan_of):
    return plan_of(
        *[("moss", 100), ("rust", 60), ("straw", 40), ("moss", 100), ("rust", 60), ("straw", 40)]
        * 2,
        least=4,
    )


@st.composite
def stripe_runs(draw):
    names = draw(st.lists(st.sampled_from(["moss", "rust", "straw"]), min_size=1, max_size=14))
    names = [name for i, name in enumerate(names) if i == 0 or names[i - 1] != name]
    return [(name, draw(st.integers(1, 80))) for name in names]


@given(runs=stripe_runs(), at=st.floats(0.01, 0.99), allowance=st.sampled_from([0, 0.1]))
def test_exactly_the_planned_use_changes_nothing(plan_of, runs, at, allowance):
    plan = plan_of(*runs)
    picks = min(max(1, round(at * plan.total_picks)), plan.total_picks - 1)
    if picks < 1:
        return  # a cloth of one pick is never half way
    amounts, weaving = loom_of(plan, allowance=allowance)
    check = check_yarn(
        plan,
        amounts,
        weaving=weaving,
        woven_mm=picks / plan.picks_per_cm * 10,
        left_g=left_after(plan, picks, amounts, weaving),
        had_g=had_of(amounts),
    )
    _, rest = cut_stripes(plan, picks)
    assert check.rest == check.rest_as_planned == rest
    assert check.lasts
    assert not check.must_change
    assert check.first_to_run_out is None
    assert check.woven_length_mm == pytest.approx(plan.woven_length_mm)
    assert all(colour.used_g == pytest.approx(colour.planned_used_g) for colour in check.colours)


def test_planned_use_to_the_last_gram_is_enough(towel):
    amounts, weaving = loom_of(towel, allowance=0)
    left = left_after(towel, 401, amounts, weaving)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=401 / 8 * 10,
        left_g=left,
        had_g=had_of(amounts),
    )
    assert all(colour.balance_g == pytest.approx(0, abs=1e-6) for colour in check.colours)
    assert check.lasts


def test_a_closer_beat_runs_out_before_the_end(towel):
    """Own: at 9 picks per cm for 8 an eighth more weft is woven, and a tenth was spare."""
    amounts, weaving = loom_of(towel)
    picks = round(50 * 9.0)
    left = left_after(towel, picks, amounts, weaving, per_cm=9.0)
    check = check_yarn(towel, amounts, weaving=weaving, woven_mm=500, left_g=left, picks_per_cm=9.0)
    assert check.picks_woven == picks
    assert check.planned_picks_per_cm == 8.0
    rest = sum(stripe.picks for stripe in check.rest_as_planned)
    assert (picks + rest) / 9.0 * 10 == pytest.approx(towel.woven_length_mm, abs=2)
    assert not check.lasts
    short = check.first_to_run_out
    assert short.balance_g < 0
    assert short.runs_out_at_mm == pytest.approx(short.runs_out_at_pick / 9.0 * 10)
    assert picks < short.runs_out_at_pick < picks + rest
    assert check.woven_length_mm < towel.woven_length_mm
    assert check.rest[0].first_pick == picks + 1


@given(share=st.floats(0.0, 1.2), times=st.floats(0.8, 1.4), at=st.integers(50, 750))
def test_the_new_list_is_never_short(towel, share, times, at):
    amounts, weaving = loom_of(towel)
    had = had_of(amounts)
    fair = left_after(towel, at, amounts, weaving, times=times)
    left = {**fair, "rust": min(had["rust"] * 0.99, max(0.0, fair["rust"] * share))}
    if any(grams < 0 for grams in left.values()):
        return  # it had run out before
    check = check_yarn(
        towel, amounts, weaving=weaving, woven_mm=at / 8 * 10, left_g=left, had_g=had
    )
    woven, _ = cut_stripes(towel, at)
    whole = replace(towel, stripes=renumbered((*woven, *check.rest)))
    before = weft_uses(replace(towel, stripes=woven), weaving)
    after = weft_uses(whole, weaving)
    for colour in check.colours:
        metres = after[colour.colour].length_m if colour.colour in after else 0.0
        metres -= before[colour.colour].length_m if colour.colour in before else 0.0
        ratio = colour.g_per_pick / colour.planned_g_per_pick
        assert metres * COUNT.tex / 1000 * ratio <= colour.left_g + 1e-5
    assert check.rest[0].first_pick == at + 1 if check.rest else not check.lasts
    assert check.woven_length_mm <= towel.woven_length_mm + 1e-6


def test_where_it_runs_out_is_where_it_runs_out(plan_of):
    """Own: 30 picks' worth left of a single colour is gone after 30 picks."""
    plan = plan_of(("moss", 400))
    amounts, weaving = loom_of(plan)
    pick_g = amounts[0].g_per_pick
    had = {"moss": 1000.0}
    used = 100 * pick_g + 2 * TAIL_MM / 1000 * COUNT.tex / 1000
    left = {"moss": 30.5 * pick_g}
    check = check_yarn(
        plan,
        amounts,
        weaving=weaving,
        woven_mm=125,
        left_g=left,
        had_g={"moss": left["moss"] + used},
    )
    moss = check.colours[0]
    assert moss.g_per_pick == pytest.approx(pick_g)
    assert (moss.runs_out_at_pick, moss.runs_out_at_mm) == (130, 162.5)
    assert [(stripe.colour, stripe.picks) for stripe in check.rest] == [("moss", 30)]
    assert had["moss"] > left["moss"]


def test_a_colour_that_is_short_is_made_up_by_the_others(towel):
    amounts, weaving = loom_of(towel)
    left = left_after(towel, 400, amounts, weaving)
    had = had_of(amounts)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g={**{c: g + 40 for c, g in left.items()}, "rust": left["rust"] - 6},
        had_g={**{c: g + 40 for c, g in had.items()}, "rust": had["rust"] - 6},
    )
    assert [colour.colour for colour in check.colours if not colour.lasts] == ["rust"]
    assert check.woven_length_mm == pytest.approx(towel.woven_length_mm)
    assert any(
        note.startswith("Picks to come: ") and " instead of 120" in note for note in check.warnings
    )
    order = [stripe.colour for stripe in check.rest]
    assert order == [stripe.colour for stripe in check.rest_as_planned]


def test_a_shorter_cloth_says_what_yarn_is_over(plan_of):
    """Own: only rust is still to come and it is short; moss has a stripe's worth left."""
    plan = plan_of(("moss", 200), ("rust", 200))
    amounts, weaving = loom_of(plan)
    had = had_of(amounts)
    pick_g = amounts[0].g_per_pick
    left = {**left_after(plan, 200, amounts, weaving), "rust": 100 * pick_g, "moss": 40.5 * pick_g}
    check = check_yarn(
        plan,
        amounts,
        weaving=weaving,
        woven_mm=250,
        left_g=left,
        had_g={**had, "rust": 100 * pick_g},
    )
    ratio = check.colours[0].g_per_pick / pick_g
    assert [stripe.colour for stripe in check.rest] == ["rust"]
    long = (int(40.5 / ratio)) / 8
    assert check.warnings[-1] == f"Yarn is over to weave it longer: moss for {long:.1f} cm."


def test_what_is_not_weighed_is_reckoned_as_planned_and_said(towel):
    amounts, weaving = loom_of(towel)
    had = had_of(amounts)
    left = left_after(towel, 400, amounts, weaving, times=1.05)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g={"moss": left["moss"]},
        had_g={"moss": had["moss"]},
    )
    moss, rust, straw = check.colours
    assert (moss.weighed, moss.own_use, moss.guess) == (True, True, None)
    assert (rust.weighed, rust.own_use) == (False, False)
    assert rust.left_g == pytest.approx(had["rust"] - rust.planned_used_g)
    assert rust.g_per_pick == rust.planned_g_per_pick
    assert (rust.had_g, rust.used_g) == (None, None)
    assert straw.begun
    assert check.warnings[0].startswith("Not weighed, reckoned as planned from the picks woven: ")


def test_the_use_of_a_weighed_colour_is_lent_to_others_as_a_guess(towel):
    """Own: moss took 1.3 times the plan; the tenth that is spare does not cover that for rust."""
    amounts, weaving = loom_of(towel)
    had = had_of(amounts)
    left = left_after(towel, 400, amounts, weaving, times=1.3)
    extra = {"had_g": {"moss": had["moss"] + 20}, "left_g": {"moss": left["moss"] + 20}}
    check = check_yarn(towel, amounts, weaving=weaving, woven_mm=500, **extra)
    _, rust, _ = check.colours
    assert (check.borrowed_ratio, check.borrowed_from) == (pytest.approx(1.3), ("moss",))
    assert rust.lasts
    assert not rust.guess.lasts
    assert rust.guess.left_g == pytest.approx(had["rust"] - 1.3 * rust.planned_used_g)
    assert rust.guess.needed_g == pytest.approx(1.3 * rust.needed_g)
    assert rust.guess.runs_out_at_mm == pytest.approx(rust.guess.runs_out_at_pick / 8 * 10)
    assert check.rest == check.rest_as_planned  # no stripe is dropped on a guess
    said = next(note for note in check.warnings if "guess" in note)
    assert said.startswith("Weighed so that its use is known: moss, 1.30 times what was planned. ")
    assert f"rust at {rust.guess.runs_out_at_mm / 10:.1f} cm" in said


def test_a_colour_that_makes_up_for_another_is_not_held_to_a_guess(towel):
    """Rust was weighed and is short; moss and straw, not weighed, fill its place as planned."""
    amounts, weaving = loom_of(towel)
    left = left_after(towel, 400, amounts, weaving)
    check = check_yarn(
        towel, amounts, weaving=weaving, woven_mm=500, left_g={"rust": left["rust"] / 2}
    )
    assert check.must_change
    assert [colour.colour for colour in check.colours if not colour.lasts] == ["rust"]
    rest = {c: sum(s.picks for s in check.rest if s.colour == c) for c in towel.colours}
    assert rest["rust"] < 120
    assert rest["moss"] >= 200
    assert rest["straw"] >= 80


def test_without_the_start_a_colour_goes_on_as_planned_and_is_asked_about(towel):
    amounts, weaving = loom_of(towel)
    check = check_yarn(towel, amounts, weaving=weaving, woven_mm=500, left_g={"moss": 500.0})
    moss = check.colours[0]
    assert (moss.had_g, moss.own_use, moss.guess) == (None, False, None)
    assert moss.g_per_pick == moss.planned_g_per_pick
    assert check.warnings[0] == (
        "How much there was at the start is not known of moss: the rest is reckoned as planned. "
        "Say how much, and it goes by what the cloth really takes."
    )
    assert not [note for note in check.warnings if "times what was planned" in note]


def test_whole_skeins_are_where_a_colour_began(towel):
    """The same answer whether the skein comes from the plan or is said."""
    amounts, weaving = loom_of(towel)
    usual = {"weaving": weaving, "woven_mm": 500, "left_g": {"moss": 24.0}}
    planned = check_yarn(towel, amounts, **usual, skeins_g=dict.fromkeys(towel.colours, 100.0))
    said = check_yarn(towel, amounts, **usual, had_g=dict.fromkeys(towel.colours, 100.0))
    assert planned.colours == said.colours
    assert planned.rest == said.rest
    assert planned.colours[0].used_g == 76.0
    assert planned.colours[1].left_g == pytest.approx(100 - planned.colours[1].planned_used_g)
    assert planned.warnings[0] == (
        "At the start there were taken to be the whole skeins of the plan: moss 100.0 g."
    )


@pytest.mark.parametrize("left", [45.0, 50.0, 74.0])
def test_more_than_the_skeins_of_the_plan_is_no_mistake(towel, left):
    """A fresh skein beside the one that is woven: the start is asked about, not refused."""
    amounts, weaving = loom_of(towel)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g={"moss": left},
        skeins_g=dict.fromkeys(towel.colours, 50.0),
    )
    moss = check.colours[0]
    assert (moss.had_g, moss.own_use) == (None, False)
    assert check.warnings[0].startswith(f"moss: {left:.1f} g left, and about ")
    assert "say how much there was at the start" in check.warnings[0]


def test_a_saving_in_one_colour_is_not_counted_on_in_another(towel):
    amounts, weaving = loom_of(towel)
    had = had_of(amounts)
    left = left_after(towel, 400, amounts, weaving, times=0.9)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g={"moss": left["moss"]},
        had_g={"moss": had["moss"]},
    )
    moss, rust, _ = check.colours
    assert moss.g_per_pick == pytest.approx(0.9 * moss.planned_g_per_pick)
    assert rust.g_per_pick == pytest.approx(rust.planned_g_per_pick)
    assert rust.guess is None
    assert rust.left_g == pytest.approx(had["rust"] - rust.planned_used_g)


@pytest.mark.parametrize("start", ["had_g", "skeins_g"])
def test_a_slip_of_the_scale_is_asked_about_where_something_was_weighed(towel, start):
    amounts, weaving = loom_of(towel)
    had = had_of(amounts)
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g={"moss": had["moss"] * 0.05},
        **{start: had},
    )
    asked = [note for note in check.warnings if "has gone into the cloth; weigh it again" in note]
    assert [note.split(":")[0] for note in asked] == ["moss"]
    assert ("say how much there was" in asked[0]) is (start == "skeins_g")


def test_other_cloths_on_the_warp_count(towel):
    amounts, weaving = loom_of(towel, towel, towel)
    before = left_after(towel, 400, amounts, weaving)
    one = {
        colour: use.length_m * COUNT.tex / 1000 for colour, use in weft_uses(towel, weaving).items()
    }
    left = {colour: grams - one[colour] for colour, grams in before.items()}
    check = check_yarn(
        towel,
        amounts,
        weaving=weaving,
        woven_mm=500,
        left_g=left,
        done=(towel,),
        later=(towel,),
    )
    assert check.lasts
    assert all(colour.needed_g > one[colour.colour] for colour in check.colours)
    alone = check_yarn(towel, amounts, weaving=weaving, woven_mm=500, left_g=left, done=(towel,))
    for with_later, without in zip(check.colours, alone.colours, strict=True):
        assert with_later.needed_g - without.needed_g == pytest.approx(one[without.colour])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (
            {"woven_mm": 0},
            "woven length: must be more than 0, and less than the cloth's 100.0 cm on",
        ),
        ({"woven_mm": 1000}, r"woven length: .* got 100\.0 cm"),
        ({"picks_per_cm": float("nan")}, "picks measured: must be more than 0, and finite"),
        (
            {"woven_mm": 900, "picks_per_cm": 16},
            "woven length: must be within the stripe list, 1 to 799",
        ),
        ({"woven_mm": 0.1}, r"woven length: must be within the stripe list, .* got 0 picks"),
        (
            {"left_g": {"plum": 3}},
            "yarn left: must be a weft of the plan: moss, rust, straw; got plum",
        ),
        ({"left_g": {"mos": 3}}, r"straw; got mos\. Did you mean moss\?"),
        (
            {"left_g": {"moss": -1}},
            "yarn left, moss: must be 0 g or more; got -1 g",
        ),
        (
            {"left_g": {"moss": 38.6}, "had_g": {"moss": 38.2}},
            r"must be from 0 g to the 38\.2 g there was; got 38\.6 g\. Say how much there was",
        ),
        (
            {"left_g": {"moss": 100}, "had_g": {"moss": 56.7}, "units": Units.IMPERIAL},
            r"must be from 0 g to the 2 oz there was; got 3\.527 oz",
        ),
        (
            {"left_g": {"moss": 10}, "had_g": {"moss": 10}},
            "yarn left, moss: must be less than at the s",
        ),
    ],
)
def test_refusals(towel, change, words):
    amounts, weaving = loom_of(towel)
    usual = {"weaving": weaving, "woven_mm": 500, "left_g": {"moss": 20}}
    with pytest.raises(InputError, match=words):
        check_yarn(towel, amounts, **{**usual, **change})
