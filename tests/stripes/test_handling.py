import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import InputError
from palette.stripes.handling import handling_of, starts_of, usual_carry_picks
from palette.stripes.plan import StripePlan
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette, Swatch

ONE = Palette(swatches=(Swatch(name="a", lab=(50.0, 0.0, 0.0), hex="#777777", share=1.0),))


def plan_of(*runs: tuple[str, int], carry: int | None = None) -> StripePlan:
    pieces = [Piece(Weft(name, "#777777", (50.0, 0.0, 0.0)), picks) for name, picks in runs]
    return StripePlan(
        palette=ONE,
        stripes=number_picks(pieces),
        picks_per_cm=8,
        finished_length_mm=100,
        carry_picks=carry,
    )


RUNS = st.lists(st.tuples(st.sampled_from("abcd"), st.integers(1, 6)), min_size=1, max_size=9)


def test_a_weft_is_carried_past_a_few_picks_and_cut_past_more() -> None:
    plan = plan_of(("a", 20), ("b", 4), ("a", 20), ("b", 30), ("a", 20))
    handling = handling_of(plan, carry_picks=4)
    assert handling.starts == (("a", 2), ("b", 2))
    assert handling.in_play == (1, 2, 1, 1, 1)
    assert [(c.colour, c.from_stripe, c.to_stripe, c.picks) for c in handling.carries] == [
        ("a", 1, 3, 4)
    ]
    assert (handling.changes, handling.total_starts, handling.most_in_play) == (4, 4, 2)
    assert (handling.longest_carry_mm, handling.carried_mm) == (5.0, 5.0)


def test_a_long_carry_keeps_every_colour_in_play() -> None:
    plan = plan_of(("a", 4), ("b", 4), ("c", 4), ("a", 4), ("b", 4), ("c", 4))
    handling = handling_of(plan, carry_picks=100)
    assert handling.in_play == (1, 2, 3, 3, 2, 1)
    assert handling.starts == (("a", 1), ("b", 1), ("c", 1))


def test_stripes_side_by_side_in_one_colour_are_one_start() -> None:
    assert starts_of(plan_of(("a", 4), ("a", 4), ("b", 2), ("a", 2)), "a", 0) == 2
    assert starts_of(plan_of(("a", 4)), "z") == 0


def test_the_plans_own_limits_are_used_and_can_be_overruled() -> None:
    plan = plan_of(("a", 4), ("b", 20), ("a", 4), carry=20)
    assert starts_of(plan, "a") == 1
    assert starts_of(plan, "a", 8) == 2
    assert starts_of(plan, "a", 20, 1) == 2
    assert starts_of(plan_of(("a", 4), ("b", 20), ("a", 4)), "a") == 2


def test_usual_carry_is_a_few_picks_or_a_centimetre() -> None:
    # 4 picks: a weaving teacher's rule for light worsted yarn; 1 cm: common practice
    assert [usual_carry_picks(density) for density in (2, 4, 8, 20 / 2.54)] == [4, 4, 8, 7]


@settings(max_examples=200)
@given(RUNS, st.integers(0, 20), st.integers(1, 4))
def test_shuttles_never_exceed_the_limit_and_cuts_are_the_fewest(
    runs: list[tuple[str, int]], carry: int, shuttles: int
) -> None:
    plan = plan_of(*runs)
    free = handling_of(plan, carry_picks=carry)
    held = handling_of(plan, carry_picks=carry, shuttles=shuttles)
    assert held.most_in_play <= shuttles
    assert all(1 <= weft.picks <= carry for weft in free.carries)
    assert held.total_starts == len(
        [c for i, (c, _) in enumerate(runs) if i == 0 or runs[i - 1][0] != c]
    ) - len(held.carries)
    best = max(
        len(chosen)
        for size in range(len(free.carries) + 1)
        for chosen in itertools.combinations(free.carries, size)
        if all(
            sum(weft.from_stripe < place < weft.to_stripe for weft in chosen) < shuttles
            for place in range(1, len(runs) + 1)
        )
    )
    assert len(held.carries) == best


@given(RUNS, st.integers(0, 20))
def test_in_play_counts_the_stripe_and_what_is_carried_past_it(
    runs: list[tuple[str, int]], carry: int
) -> None:
    handling = handling_of(plan_of(*runs), carry_picks=carry)
    for place, count in enumerate(handling.in_play, start=1):
        past = sum(weft.from_stripe < place < weft.to_stripe for weft in handling.carries)
        assert count == 1 + past


def test_fewer_stops_are_easier() -> None:
    calm = handling_of(plan_of(("a", 40), ("b", 40)))
    busy = handling_of(plan_of(*[("a", 10), ("b", 10)] * 4))
    assert calm.stops_per_metre == (1 + 3 * 2) / 0.1
    assert busy.stops_per_metre > calm.stops_per_metre


def test_limits_must_make_sense() -> None:
    plan = plan_of(("a", 4))
    with pytest.raises(InputError, match="carry: must be 0 picks or more; got -1"):
        handling_of(plan, carry_picks=-1)
    with pytest.raises(InputError, match="shuttles: must be at least 1; got 0"):
        handling_of(plan, shuttles=0)
