"""Starts, carries and cuts of each stripe."""

import dataclasses

from palette.loom.drafts import weave_named
from palette.sheets.marks import role_words, stripe_marks
from palette.stripes.handling import handling_of
from palette.stripes.plan import Stripe, StripePlan


def cloth_of(plan: StripePlan, *runs: tuple[str, int]) -> StripePlan:
    stripes, first = [], 1
    for colour, picks in runs:
        swatch = plan.palette[colour]
        stripes.append(
            Stripe(colour=colour, hex=swatch.hex, lab=swatch.lab, picks=picks, first_pick=first)
        )
        first += picks
    return dataclasses.replace(plan, stripes=tuple(stripes), carry_picks=4)


def test_starts_carries_and_cuts(plan) -> None:
    cloth = cloth_of(
        plan.cloths[0], ("bark", 10), ("primrose", 4), ("bark", 6), ("wet slate", 20), ("bark", 8)
    )
    marks = stripe_marks(cloth)
    assert [mark.before for mark in marks] == ["start", "start", "take up", "start", "start"]
    assert [mark.after for mark in marks] == ["carry", "cut", "cut", "cut", "cut"]
    assert [mark.last for mark in marks] == [False, True, False, True, True]
    assert [mark.in_play for mark in marks] == [1, 2, 1, 1, 1]
    assert marks[0].after_words == "carry past 4"
    assert marks[1].after_words == "cut, last"
    assert marks[2].after_words == "cut"


def test_a_colour_that_goes_on_is_neither_cut_nor_started(plan) -> None:
    cloth = cloth_of(plan.cloths[0], ("bark", 10), ("bark", 4), ("primrose", 6))
    marks = stripe_marks(cloth)
    assert [(mark.before_words, mark.after_words) for mark in marks] == [
        ("start", ""),
        ("", "cut, last"),
        ("start", "cut, last"),
    ]


def test_the_marks_agree_with_the_count_of_starts(plan_maker) -> None:
    for stripes in (5, 30, 150):
        cloth = plan_maker(stripes, 8).cloths[0]
        marks = stripe_marks(cloth)
        assert sum(mark.before == "start" for mark in marks) == handling_of(cloth).total_starts
        assert sum(mark.after == "cut" for mark in marks) == handling_of(cloth).total_starts


def test_a_hem_is_named_with_the_treadles_that_weave_it_plain(plan) -> None:
    (cloth,) = plan.cloths
    first, *body = cloth.stripes
    hem = dataclasses.replace(first, role="hem")
    border = dataclasses.replace(body[0], role="border")
    edged = dataclasses.replace(cloth, stripes=(hem, border, *body[1:]))
    twill = dataclasses.replace(plan, cloths=(edged,), draft=weave_named("2/2 twill"))
    words = [role_words(twill, edged, stripe) for stripe in edged.stripes[:3]]
    assert words == ["hem, treadles 5 and 6", "border", ""]
    assert role_words(dataclasses.replace(twill, draft=plan.draft), edged, hem) == "hem"
