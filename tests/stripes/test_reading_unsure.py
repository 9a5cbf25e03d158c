"""Unsure stripes are named together where the reason is the same."""

from dataclasses import replace

import pytest

from palette.stripes.reading_unsure import unsure_notes
from palette.stripes.reading_values import ReadStripe

NARROW, CUT = "is hardly a pick wide", "runs out of the picture, and counts as far as it shows"


@pytest.fixture
def stripes() -> list[ReadStripe]:
    return [
        ReadStripe(colour="grey", hex="#808080", lab=(53.6, 0, 0), share=0.1, start=k / 10)
        for k in range(10)
    ]


def test_none_is_none(stripes: list[ReadStripe]) -> None:
    assert unsure_notes(stripes, upright=False) == ()


def test_one_is_named_with_its_colour_and_place(stripes: list[ReadStripe]) -> None:
    stripes[2] = replace(stripes[2], doubt=NARROW)
    assert unsure_notes(stripes, upright=True) == (
        "stripe 3 (grey, 25 % of the way from the left) is unsure: it is hardly a pick wide; "
        "look at the cloth",
    )


def test_there_are_as_many_sentences_as_reasons(stripes: list[ReadStripe]) -> None:
    for place, doubt in ((0, CUT), (3, NARROW), (5, NARROW), (9, CUT)):
        stripes[place] = replace(stripes[place], doubt=doubt)
    assert unsure_notes(stripes, upright=False) == (
        "stripes 1 (5 % of the way from the top) and 10 (95 %) are unsure: each runs out of the "
        "picture, and counts as far as it shows; look at the cloth",
        "stripes 4 (35 % of the way from the top) and 6 (55 %) are unsure: each is hardly a pick "
        "wide; look at the cloth",
    )


def test_of_many_only_the_numbers_are_told(stripes: list[ReadStripe]) -> None:
    many = [replace(stripe, doubt=NARROW) for stripe in stripes]
    assert unsure_notes(many, upright=False) == (
        "stripes 1, 2, 3, 4, 5, 6, 7, 8, 9 and 10 are unsure: each is hardly a pick wide; look at "
        "the cloth",
    )
