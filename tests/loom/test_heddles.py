"""Heddles and lifts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.drafts import WEAVES, weave_named
from palette.loom.heddles import check_heddles, heddles_per_shaft, lift_plan, lifts_per_treadle


def test_brooks_uneven_healds():
    """Brooks, Healds: 1 end on stave 1, 2 on 2, 3 on 3, 4 on 4, 2 on 5; 5 repeats, 60 ends/in."""
    draft = Draft(
        name="uneven",
        threading=(1, 2, 3, 4, 4, 3, 5, 4, 5, 4, 3, 2),
        tie_up=((1, 3, 5), (2, 4)),
        treadling=(1, 2),
    )
    assert len(draft.threading) == 12
    assert heddles_per_shaft(draft, 60) == (5, 10, 15, 20, 10)


def test_a_set_of_four_healds():
    """Brooks: a 60s Stockport set of 4 healds has 15 eyes in an inch on each; straight draw."""
    assert heddles_per_shaft(weave_named("2/2 twill"), 60) == (15, 15, 15, 15)


@given(name=st.sampled_from(sorted(WEAVES)), ends=st.integers(1, 900))
def test_one_end_one_heddle(name, ends):
    needed = heddles_per_shaft(WEAVES[name], ends)
    assert sum(needed) == ends
    assert len(needed) == WEAVES[name].shafts


@given(name=st.sampled_from(sorted(WEAVES)), picks=st.integers(0, 3000))
def test_one_pick_one_treadle(name, picks):
    assert sum(treadle.lifts for treadle in lifts_per_treadle(WEAVES[name], picks)) == picks


def test_what_each_treadle_lifts():
    treadles = lifts_per_treadle(weave_named("2/2 twill"), 10)
    assert [(t.number, t.shafts, t.lifts) for t in treadles] == [
        (1, (1, 2), 3),
        (2, (2, 3), 3),
        (3, (3, 4), 2),
        (4, (1, 4), 2),
        (5, (1, 3), 0),
        (6, (2, 4), 0),
    ]
    assert lift_plan(PLAIN_WEAVE) == ((1,), (2,))


def test_more_than_a_shaft_holds():
    check_heddles((100, 80), 100)
    check_heddles((100, 80), (100, 80, 80, 80))
    with pytest.raises(WeavingError, match="shaft 2 needs 80 and holds 60") as refused:
        check_heddles((100, 80), (100, 60))
    assert refused.value.exit_code == 4
    with pytest.raises(WeavingError, match="shaft 3 needs 5 and holds 0"):
        check_heddles((5, 5, 5), (10, 10))


def test_refusals():
    with pytest.raises(InputError, match="ends: must be at least 1; got 0"):
        heddles_per_shaft(PLAIN_WEAVE, 0)
    with pytest.raises(InputError, match="picks: must be 0 or more; got -1"):
        lifts_per_treadle(PLAIN_WEAVE, -1)
