"""The winding card: a palette as turns of yarn, drawn at true size, with the turns to count."""

from __future__ import annotations

from palette.measures import per_cents
from palette.sheets.contrast import legible
from palette.sheets.fonts import wrapped
from palette.sheets.grid import Column, grid_head, grid_row
from palette.sheets.page import Page
from palette.sheets.press import page_to_png, page_to_svg, pages_to_pdf
from palette.sheets.style import BODY, BOLD, CAPTION, HEADING, INK, LARGE_BOLD, QUIET
from palette.sheets.winding import Winding

__all__ = ["winding_card", "winding_card_pdf", "winding_card_png", "winding_card_svg"]

_PAD = 11.0
_CARD_HIGH = 62.0
_LEAST_WIDTH = 140.0
_ROW = 7.2
_MOST_LINES = 1500
_NEAR_BLACK = 70


def winding_card(winding: Winding, *, title: str = "Winding card") -> Page:
    """Draw a winding at true size and list its turns in the order of winding.

    Parameters
    ----------
    winding : Winding
    title : str

    Returns
    -------
    Page
    """
    inner = max(winding.card_width_mm, _LEAST_WIDTH)
    notes = [line for note in winding.notes for line in wrapped(note, BODY, inner)]
    top = _PAD + 20
    list_top = top + _CARD_HIGH + 9
    height = list_top + 5 + _ROW * len(winding.yarns) + 5 + 4.4 * len(notes) + 5 + _PAD
    page = Page(width_mm=inner + 2 * _PAD, height_mm=height)
    page.text(_PAD, _PAD + 6, title, HEADING, room_mm=inner)
    facts = f"{winding.turns} turns on a card of {winding.card_width_mm / 10:.1f} cm"
    page.text(_PAD, _PAD + 12.5, facts, CAPTION, ink=QUIET, room_mm=inner)
    _turns(page, winding, _PAD, top)
    below = _list(page, winding, list_top, inner)
    for line in notes:
        page.text(_PAD, below + 6, line, BODY)
        below += 4.4
    note = "Drawn at true size. Lay each turn beside the one before, without gaps."
    page.text(_PAD, height - _PAD, note, CAPTION, ink=QUIET, room_mm=inner)
    return page


def _turns(page: Page, winding: Winding, x: float, y: float) -> None:
    """Draw the turns side by side, with a fine line between them."""
    at = x
    for yarn in winding.yarns:
        page.box(at, y, yarn.width_mm, _CARD_HIGH, fill=yarn.hex)
        thread = 10 / yarn.wraps_per_cm
        edges = [at + turn * thread for turn in range(1, yarn.turns)]
        if edges and winding.turns <= _MOST_LINES:
            lines = (((edge, y), (edge, y + _CARD_HIGH)) for edge in edges)
            page.line(*lines, ink=_shade(yarn.hex), line_mm=min(0.12 * thread, 0.15))
        at += yarn.width_mm
    page.box(x, y, winding.card_width_mm, _CARD_HIGH, edge=INK, line_mm=0.15)
    at = x
    for number, yarn in enumerate(winding.yarns, start=1):
        if yarn.width_mm >= 2.5:
            middle = at + yarn.width_mm / 2
            page.text(middle, y + _CARD_HIGH + 4, f"{number}", BOLD, align="centre")
        at += yarn.width_mm


def _shade(hex_colour: str) -> str:
    """Shadow between two turns: the yarn's colour darker, or lighter where it is near black."""
    parts = bytes.fromhex(hex_colour[1:])
    dark = legible(hex_colour) == "#ffffff" and max(parts) < _NEAR_BLACK
    return "#" + bytes(int(part * 0.55 + (90 if dark else 0)) for part in parts).hex()


def _list(page: Page, winding: Winding, y: float, inner: float) -> float:
    """List the yarns as they are wound; give back where the list ends."""
    rest = inner - 14 - 20 - 26 - 22 - 16
    columns = [
        Column(head="colour", width_mm=14),
        Column(head="", width_mm=rest),
        Column(head="turns", width_mm=20, align="right", type=LARGE_BOLD),
        Column(head="up to turn", width_mm=26, align="right"),
        Column(head="width", width_mm=22, align="right"),
        Column(head="share", width_mm=16, align="right", ink=QUIET),
    ]
    at = grid_head(page, columns, _PAD, y + 3)
    parts = per_cents(tuple(yarn.share for yarn in winding.yarns))
    for number, (yarn, part) in enumerate(zip(winding.yarns, parts, strict=True), start=1):
        turned = f"{yarn.last_turn}" if yarn.turns else ""
        width = f"{yarn.width_mm / 10:.1f} cm"
        cells = ["", yarn.colour, f"{yarn.turns}", turned, width, f"{part:.1f} %"]
        grid_row(page, columns, cells, _PAD, at, _ROW)
        page.box(_PAD, at + 1, 11, _ROW - 2, fill=yarn.hex, edge=INK, line_mm=0.12)
        ink = legible(yarn.hex)
        page.text(_PAD + 5.5, at + 4.7, f"{number}", BOLD, ink=ink, align="centre")
        at += _ROW
    return at


def winding_card_pdf(winding: Winding, *, title: str = "Winding card") -> bytes:
    """Print the winding card as PDF."""
    return pages_to_pdf([winding_card(winding, title=title)], title=title)


def winding_card_png(winding: Winding, *, title: str = "Winding card", dpi: float = 200.0) -> bytes:
    """Draw the winding card as PNG that prints at true size."""
    return page_to_png(winding_card(winding, title=title), dpi=dpi)


def winding_card_svg(winding: Winding, *, title: str = "Winding card") -> bytes:
    """Draw the winding card as SVG."""
    return page_to_svg(winding_card(winding, title=title), title=title)
