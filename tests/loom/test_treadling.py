"""Hems in plain weave, the rest by the draft: pick by pick."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.loom.drafts import WEAVES, parse_draft, weave_named
from palette.loom.structure import drawdown, plain_weave_treadles
from palette.loom.treadling import hem_note, lifts_in, treadle_runs, whole_draft
from tests.loom.cloths import cloth_of

TWILL = weave_named("2/2 twill")


def test_the_hem_of_a_twill_is_on_treadles_5_and_6():
    """The towel with 26 picks of hem: the pattern begins with its first treadle after it."""
    cloth = cloth_of(("hem", 26), ("stripe", 482), ("hem", 26))
    first, body, last = treadle_runs(cloth, TWILL)
    assert (first.hem, body.hem, last.hem) == (True, False, True)
    assert (first.treadles, last.treadles) == ((5, 6), (5, 6))
    assert (body.first_pick, body.last_pick, body.picks[:5]) == (27, 508, (1, 2, 3, 4, 1))
    assert [treadle.lifts for treadle in lifts_in((cloth,), TWILL)] == [121, 121, 120, 120, 26, 26]


def test_the_hem_of_huck_lace_lifts_1_4_and_2_3():
    huck = weave_named("huck lace")
    cloth = cloth_of(("hem", 4), ("stripe", 40), ("hem", 4))
    whole = whole_draft(huck, cloth)
    hem = [whole.tie_up[treadle - 1] for treadle in whole.treadling[:4]]
    assert set(hem) == {(1, 4), (2, 3)}
    assert sum(each.lifts for each in lifts_in((cloth,), huck)[:2]) > 8  # the lace has them too


@pytest.mark.parametrize("name", WEAVES)
@given(hem=st.integers(1, 30), body=st.integers(1, 90))
def test_no_shed_comes_twice_running_where_a_hem_meets_the_cloth(name, hem, body):
    draft = weave_named(name)
    whole = whole_draft(draft, cloth_of(("hem", hem), ("stripe", body), ("hem", hem)))
    pair = plain_weave_treadles(draft)
    rows = drawdown(whole)
    if pair is None:
        assert whole is draft
        return
    plain = draft.name == "plain weave"
    assert len(rows) == (2 if plain else 2 * hem + body)
    assert all(a != b for a, b in pairwise(rows[:hem]))
    assert rows[hem - 1] != rows[hem] if not plain else rows[0] != rows[1]
    if not plain:
        assert rows[hem + body - 1] != rows[hem + body]
        assert set(whole.treadling[:hem]) | set(whole.treadling[-hem:]) <= set(pair)


def test_a_border_is_woven_in_the_weave_and_counted_on():
    cloth = cloth_of(("hem", 2), ("border", 6), ("stripe", 10), ("border", 6), ("hem", 2))
    _, body, _ = treadle_runs(cloth, TWILL)
    assert (body.first_pick, body.last_pick) == (3, 24)


def test_without_a_hem_the_draft_stays_itself():
    cloth = cloth_of(("stripe", 7))
    assert whole_draft(TWILL, cloth) is TWILL
    assert [treadle.lifts for treadle in lifts_in((cloth, cloth), TWILL)] == [4, 4, 4, 2, 0, 0]


def test_where_there_is_no_plain_weave_it_is_said():
    hemmed = (cloth_of(("hem", 4), ("stripe", 8)),)
    assert hem_note(hemmed, TWILL) == ()
    assert hem_note((cloth_of(("stripe", 8)),), weave_named("basket")) == ()
    assert hem_note(hemmed, weave_named("basket")) == (
        "The hem is treadled as basket, not in plain weave: its threading has none.",
    )
    own = parse_draft("1 2 3 4; 1+2, 2+3, 3+4, 4+1; 1 2 3 4", name="my twill")
    assert hem_note(hemmed, own) == (
        "The hem is treadled as my twill, not in plain weave: tie 1+3 and 2+4 to two treadles for "
        "it.",
    )
