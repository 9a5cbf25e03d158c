"""Drafts: the ready ones, a weaver's own as text, and what a loom refuses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.loom.draft import Draft
from palette.loom.drafts import WEAVES, check_draft, draft_text, parse_draft, weave_named
from palette.loom.structure import drawdown, structure_of


def picture(name):
    return ["".join("#" if up else "." for up in row) for row in drawdown(weave_named(name))]


def test_drawdowns_drawn_by_hand():
    assert picture("plain weave") == ["#.", ".#"]
    assert picture("2/2 twill") == ["##..", ".##.", "..##", "#..#"]
    assert picture("1/3 twill") == ["#...", ".#..", "..#.", "...#"]
    assert picture("3/1 twill") == ["###.", ".###", "#.##", "##.#"]
    assert picture("basket") == ["##..", "##..", "..##", "..##"]
    assert picture("point twill") == ["##...#", ".##.##", "..###.", "#..#..", "..###.", ".##.##"]


def test_huck_lace_floats_in_turn_over_five_threads():
    rows = picture("huck lace")
    assert rows[1] == rows[3] == ".....#.#.#"  # weft floats over the first half unit
    assert rows[6] == rows[8] == "#.#.#....."  # and over the second
    assert rows[0] == "#.#.#.#.#."
    assert structure_of(weave_named("huck lace")).longest_float == 5


@pytest.mark.parametrize(
    ("name", "longest"),
    [("plain weave", 1), ("2/2 twill", 2), ("1/3 twill", 3), ("point twill", 3), ("basket", 2)],
)
def test_longest_floats(name, longest):
    structure = structure_of(weave_named(name))
    assert structure.longest_float == longest
    assert structure.warp_float.threads == structure.weft_float.threads == longest


@pytest.mark.parametrize("draft", WEAVES.values(), ids=WEAVES)
def test_ready_drafts_can_be_woven_on_eight_shafts(draft):
    check_draft(draft, shafts=8, treadles=8, longest_float=5)
    assert set(draft.threading) <= {shaft for lifted in draft.tie_up for shaft in lifted}


@pytest.mark.parametrize(
    ("name", "share"), [("plain weave", 1 / 2), ("1/3 twill", 1 / 4), ("3/1 twill", 3 / 4)]
)
def test_share_of_warp_on_the_face(name, share):
    assert structure_of(weave_named(name)).warp_share == share


@pytest.mark.parametrize(
    "text",
    [
        "1 2 3 4; 1+2, 2+3, 3+4, 4+1; 1 2 3 4",
        "1234; 12 23 34 41; 1234",
        "1-4; 1 + 2, 2+3 , 3+4, 14; 1-4",
        "1,2,3,4; 2+1 3+2 4+3 1+4; 1, 2, 3, 4",
    ],
)
def test_the_same_draft_in_other_words(text):
    draft = parse_draft(text)
    assert draft.threading == (1, 2, 3, 4)
    assert draft.tie_up == ((1, 2), (2, 3), (3, 4), (1, 4))
    assert draft.treadling == (1, 2, 3, 4)


def test_names_are_forgiving_about_case_and_spaces():
    assert parse_draft("  Point   Twill ") is weave_named("point twill")
    assert weave_named("plain") is weave_named("plain weave")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1 2; 1 2", "draft: must have three parts with semicolons between; got '1 2; 1 2'"),
        ("; ;", "draft: must have three parts"),
        ("1 x; 1; 1", r"threading: must be numbers from 1; got 'x'\. Write it like"),
        ("1 2; 1 y; 1", "tie-up: must be numbers from 1; got 'y'"),
        ("1 2; 1,,2; 1", "tie-up: each treadle must lift at least one shaft"),
        (
            "1 2 3; 1 2; 1 2",
            "tie-up: must lift every shaft that is threaded; got 'no treadle for s",
        ),
        ("1 2; 1 2; 1 3", "draft 'own draft': treadles go up to 2 in its tie-up; got 3"),
        ("0 1; 1; 1", "shaft 0|shafts and treadles are numbered from 1"),
        ("1-99999999; 1; 1", "threading: run is too long; got '1-99999999'"),
        ("2/2 twil", r"weave: must be one of plain weave, .*; got '2/2 twil'\. Did you mean 2/2 t"),
    ],
)
def test_unreadable_drafts(text, words):
    with pytest.raises(InputError, match=words):
        parse_draft(text)


@st.composite
def drafts(draw):
    shafts = draw(st.integers(1, 24))
    lifted = st.sets(st.integers(1, shafts), min_size=1).map(lambda s: tuple(sorted(s)))
    tie_up = draw(st.lists(lifted, min_size=1, max_size=12))
    threaded = sorted({shaft for treadle in tie_up for shaft in treadle})
    return Draft(
        name="own draft",
        threading=tuple(draw(st.lists(st.sampled_from(threaded), min_size=1, max_size=30))),
        tie_up=tuple(tie_up),
        treadling=tuple(draw(st.lists(st.integers(1, len(tie_up)), min_size=1, max_size=30))),
    )


@given(draft=drafts())
def test_text_reads_back(draft):
    assert parse_draft(draft_text(draft)) == draft


@given(draft=drafts())
def test_a_structure_does_not_depend_on_where_the_repeat_begins(draft):
    turned = Draft(
        name="turned",
        threading=draft.threading[1:] + draft.threading[:1],
        tie_up=draft.tie_up,
        treadling=draft.treadling[1:] + draft.treadling[:1],
    )
    one, other = structure_of(draft), structure_of(turned)
    assert one.longest_float == other.longest_float
    assert one.room == other.room
    assert one.warp_share == other.warp_share


def test_what_a_loom_and_a_cloth_refuse():
    draft = parse_draft("1-8; 1+2 3+4 5+6 7+8 1+3+5+7 2+4+6+8; 1-6")
    with pytest.raises(WeavingError, match="must not need more than the loom's 4 shafts; got 8"):
        check_draft(draft, shafts=4)
    with pytest.raises(WeavingError, match="must not press more than the loom's 4 treadles; got 6"):
        check_draft(draft, treadles=4)
    with pytest.raises(
        WeavingError, match="floats must pass over at most 2 picks; got 3 picks at e"
    ):
        check_draft(weave_named("1/3 twill"), longest_float=2)


def test_only_the_treadles_that_are_pressed_count():
    check_draft(weave_named("2/2 twill"), shafts=4, treadles=4)


def test_a_thread_that_is_never_caught_is_refused():
    never_lifted = Draft(name="slip", threading=(1, 2), tie_up=((1,), (2,)), treadling=(1,))
    with pytest.raises(WeavingError, match="end 1 never changes sides"):
        check_draft(never_lifted)
    all_lifted = Draft(
        name="slip", threading=(1, 2), tie_up=((1, 2), (2,), (1,)), treadling=(1, 2, 3)
    )
    with pytest.raises(WeavingError, match="pick 1 never changes sides"):
        check_draft(all_lifted)


def test_the_value_refuses_what_is_no_draft():
    with pytest.raises(InputError, match="must have a threading, a tie-up and a treadling"):
        Draft(name="x", threading=(), tie_up=((1,),), treadling=(1,))
    with pytest.raises(InputError, match="shafts and treadles are numbered from 1"):
        Draft(name="x", threading=(1,), tie_up=((0,),), treadling=(1,))
