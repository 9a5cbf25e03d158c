"""The loom card fits an index card and says what dresses the loom."""

import dataclasses
import io

import pytest
from pypdf import PdfReader

from palette.loom.drafts import WEAVES, weave_named
from palette.sheets.loom_card import CARD_MM, card_lines, draw_loom_card, loom_card_pdf, plan_sley
from palette.sheets.page import Page, Words


def card_of(plan) -> Page:
    page = Page(width_mm=CARD_MM[0], height_mm=CARD_MM[1])
    draw_loom_card(page, plan, 0, 0)
    return page


@pytest.mark.parametrize("weave", sorted(WEAVES))
def test_every_weave_fits(plan, weave: str) -> None:
    page = card_of(dataclasses.replace(plan, draft=weave_named(weave)))
    rows = [mark for mark in page.marks if isinstance(mark, Words)]
    assert all(4 < mark.y < CARD_MM[1] - 4 for mark in rows)
    draft_rows = [mark.y for mark in rows if mark.x > CARD_MM[0] / 2]
    stripes_head = next(mark.y for mark in rows if mark.text.startswith("First stripes"))
    draft_block = [y for y in draft_rows if y < stripes_head - 1]
    assert max(draft_block) < stripes_head - 3


def test_heddles_are_counted_per_shaft(plan) -> None:
    """234 ends threaded in turn on two shafts: 117 heddles on each."""
    assert dict(card_lines(plan))["Heddles by shaft"] == "1: 117, 2: 117"


def test_the_nearest_reed_of_the_brief_is_named(plan) -> None:
    assert plan_sley(plan) is None
    owned = dataclasses.replace(plan, asked=(("reed", ("8/in", "10/in")),))
    assert plan_sley(owned).text == "2"
    assert dict(card_lines(owned))["Reed and sley"] == "3.94/cm, 2 to a dent"


def test_it_prints_on_a_page_of_its_own_size(plan) -> None:
    page = PdfReader(io.BytesIO(loom_card_pdf(plan))).pages[0]
    assert float(page.mediabox.width) == pytest.approx(6 * 72, abs=0.1)
    assert float(page.mediabox.height) == pytest.approx(4 * 72, abs=0.1)
    assert "First stripes" in page.extract_text()
