"""The loom cards fit index cards, hold every stripe, and say what dresses the loom."""

import dataclasses
import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from palette.loom.drafts import WEAVES, weave_named
from palette.loom.sley import sley
from palette.sheets.loom_card import (
    CARD_MM,
    card_lines,
    draw_loom_card,
    loom_card_pdf,
    loom_cards,
)
from palette.sheets.loom_card_stripes import rows_within
from palette.sheets.page import Box, Page, Words


def cards_of(plan) -> list[Page]:
    pages = []
    for card in loom_cards(plan):
        pages.append(Page(width_mm=CARD_MM[0], height_mm=CARD_MM[1]))
        draw_loom_card(pages[-1], plan, 0, 0, card)
    return pages


def words_of(page: Page) -> list[Words]:
    return [mark for mark in page.marks if isinstance(mark, Words)]


def hemmed(plan, *, hem: int = 26):
    """The plan with its first and last stripe as hems of so many picks."""
    (cloth,) = plan.cloths
    first, *body, last = cloth.stripes
    picks = [hem, *(stripe.picks for stripe in body), hem]
    made, at = [], 1
    for stripe, count in zip((first, *body, last), picks, strict=True):
        role = "hem" if stripe in (first, last) else "stripe"
        made.append(dataclasses.replace(stripe, picks=count, first_pick=at, role=role))
        at += count
    return dataclasses.replace(plan, cloths=(dataclasses.replace(cloth, stripes=tuple(made)),))


@pytest.mark.parametrize("weave", sorted(WEAVES))
@pytest.mark.parametrize("hem", [False, True])
def test_every_weave_fits(plan, weave: str, hem: bool) -> None:
    shown = dataclasses.replace(hemmed(plan) if hem else plan, draft=weave_named(weave))
    for page in cards_of(shown):
        for mark in page.marks:
            if isinstance(mark, Words | Box):
                assert 4 < mark.y < CARD_MM[1] - 4
                assert 4 < mark.x < CARD_MM[0] - 4
    front = words_of(cards_of(shown)[0])
    (head,) = (mark.y for mark in front if re.match("All stripes|Stripes 1 to", mark.text))
    above = [mark.y for mark in front if mark.x > CARD_MM[0] / 2 and mark.y < head]
    assert max(above) < head - 2


@pytest.mark.parametrize(("stripes", "cloths"), [(1, 1), (8, 1), (11, 2), (55, 1), (200, 3)])
def test_every_stripe_of_every_cloth_is_on_a_card(plan_maker, stripes: int, cloths: int) -> None:
    plan = plan_maker(stripes, 8, cloths=cloths, picks=4000)
    cards, pages = loom_cards(plan), cards_of(plan)
    for number, cloth in enumerate(plan.cloths):
        own = [card for card in cards if card.cloth == number]
        assert sum(card.stripes for card in own) == len(cloth.stripes)
        shown = [
            mark.text
            for card, page in zip(cards, pages, strict=True)
            if card.cloth == number
            for mark in words_of(page)
            if mark.type.face == "bold"
        ]
        assert sorted(map(int, shown)) == sorted(stripe.picks for stripe in cloth.stripes)


@given(stripes=st.integers(1, 900), height=st.floats(8, 80))
def test_rows_go_on_until_all_are_shown(stripes: int, height: float) -> None:
    done = 0
    while done < stripes:
        block = rows_within(stripes, done, height)
        assert block.count > 0
        done += block.count
    assert done == stripes


def test_one_card_for_each_cloth_with_its_own_length(plan_maker) -> None:
    plan = plan_maker(12, 6, cloths=3)
    longer = dataclasses.replace(
        plan, cloths=(*plan.cloths[:2], plan_maker(14, 6, picks=1800).cloths[0])
    )
    lines = [dict(card_lines(longer, cloth)) for cloth in range(3)]
    assert [each["To weave"] for each in lines] == [
        "200.0 cm, tension slackened",
        "200.0 cm, tension slackened",
        "225.0 cm, tension slackened",
    ]
    assert "Warp to wind" in lines[0]
    assert "Warp to wind" not in lines[1]
    text = " ".join(mark.text for mark in words_of(cards_of(longer)[1]))
    assert "Towel 2" in text
    assert "cloth 2 of 3, plain weave" in text


def test_heddles_are_counted_per_shaft(plan) -> None:
    """234 ends threaded in turn on two shafts: 117 heddles on each."""
    assert dict(card_lines(plan))["Heddles by shaft"] == "1: 117, 2: 117"


def test_a_twill_has_a_floating_selvedge(plan) -> None:
    assert "Selvedge" not in dict(card_lines(plan))
    twill = dataclasses.replace(plan, draft=weave_named("2/2 twill"))
    assert dict(card_lines(twill))["Selvedge"] == "1 floating end more each side"


def test_the_reed_is_named_as_it_was_typed(plan) -> None:
    owned = dataclasses.replace(
        plan, asked=(("reed", ("8/in", "10/in")),), sley=sley(7.874, 10 / 2.54)
    )
    lines = dict(card_lines(owned))
    assert lines["Reed and sley"] == "10/in, 2 to a dent"
    assert lines["Width in the reed"] == "29.6 cm, 117 dents"
    front = words_of(cards_of(owned)[0])
    assert all("…" not in mark.text for mark in front if mark.y < 60)


def test_a_hem_is_treadled_in_plain_weave(plan) -> None:
    twill = dataclasses.replace(hemmed(plan), draft=weave_named("2/2 twill"))
    body = twill.cloths[0].total_picks - 52
    text = " ".join(mark.text for mark in words_of(cards_of(twill)[0]))
    assert f"hem 5 6 to pick 26; 1 2 3 4, repeat, to pick {26 + body}; hem 5 6 to pick" in text
    assert "5: 26, 6: 26" in text


def test_they_print_on_pages_of_their_own_size(plan_maker) -> None:
    pages = PdfReader(io.BytesIO(loom_card_pdf(plan_maker(30, 8, cloths=2)))).pages
    for page in pages:
        assert float(page.mediabox.width) == pytest.approx(6 * 72, abs=0.1)
        assert float(page.mediabox.height) == pytest.approx(4 * 72, abs=0.1)
    text = " ".join(page.extract_text() for page in pages)
    assert "Towel 1" in text
    assert "Towel 2" in text
