"""Whatever a plan holds, its sheets can be made."""

import io
import re

from hypothesis import given, settings
from pypdf import PdfReader

from palette.sheets.html import sheet_html
from palette.sheets.loom_card import loom_card_pdf, loom_cards
from palette.sheets.pdf import sheet_pages, sheet_pdf
from palette.sheets.tables import stripes_csv, yarn_csv
from palette.sheets.wif_reading import parse_wif
from palette.sheets.wif_writing import weaving_file_of, wif_bytes
from tests.strategies import plans


@settings(max_examples=6, deadline=None)
@given(plans())
def test_every_sheet_can_be_drawn(plan) -> None:
    pages = sheet_pages(plan)
    assert all(page.marks for page in pages)
    assert len(PdfReader(io.BytesIO(sheet_pdf(plan))).pages) == len(pages)
    cards = loom_cards(plan)
    assert {card.cloth for card in cards} == set(range(len(plan.cloths)))
    assert len(PdfReader(io.BytesIO(loom_card_pdf(plan))).pages) == len(cards)


@settings(max_examples=15, deadline=None)
@given(plans())
def test_every_page_and_table_can_be_written(plan) -> None:
    text = sheet_html(plan).decode()
    assert text.count("<script") == 2
    assert len(re.findall("<tr data-stripe=", text)) == sum(len(c.stripes) for c in plan.cloths)
    assert stripes_csv(plan).decode("utf-8-sig").count("\r\n") >= len(plan.cloths[0].stripes) + 1
    assert yarn_csv(plan)


@settings(max_examples=15, deadline=None)
@given(plans())
def test_every_drawdown_comes_back(plan) -> None:
    assert parse_wif(wif_bytes(plan)) == weaving_file_of(plan)
