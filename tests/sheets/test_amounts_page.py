"""The warp on the page of amounts: reed, sley, heddles and treadles as well."""

import dataclasses

from palette.loom.drafts import weave_named
from palette.loom.sley import sley
from palette.sheets.amounts_page import dressing_lines, warp_lines
from palette.sheets.fonts import width_mm
from palette.sheets.page import Words
from palette.sheets.pdf import sheet_pages
from palette.sheets.style import paper_named


def dressed(plan):
    asked = (("reed", ("10/in",)),)
    twill = weave_named("2/2 twill")
    return dataclasses.replace(plan, asked=asked, sley=sley(7.874, 10 / 2.54), draft=twill)


def test_the_loom_can_be_dressed_from_it(plan) -> None:
    """234 ends on four shafts, 1600 picks on four treadles: own arithmetic."""
    assert dressing_lines(dressed(plan)) == [
        ("Reed and sley", "10/in, 2 to a dent"),
        ("Heddles by shaft", "1: 59, 2: 59, 3: 58, 4: 58"),
        ("Selvedge", "1 floating end more each side"),
        ("Treadling", "1 2 3 4, repeat"),
        ("Lifts by treadle", "1: 400, 2: 400, 3: 400, 4: 400"),
    ]
    assert dict(warp_lines(dressed(plan)))["Width in the reed"] == "29.6 cm, 117 dents"


def test_without_a_reed_the_line_is_left_out(plan) -> None:
    assert [what for what, _ in dressing_lines(plan)] == [
        "Heddles by shaft",
        "Treadling",
        "Lifts by treadle",
    ]


def test_every_line_is_printed_whole(plan) -> None:
    paper = paper_named("A4")
    pages = sheet_pages(dressed(plan))
    words = [mark for page in pages for mark in page.marks if isinstance(mark, Words)]
    texts = {mark.text for mark in words}
    for what, value in warp_lines(dressed(plan)):
        assert {what, value} <= texts
    for mark in words:
        if not mark.angle:
            assert mark.x + width_mm(mark.text, mark.type) <= paper.right_mm + 0.1
