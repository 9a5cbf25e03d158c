"""The loom cards: index cards that say how to dress the loom, and every stripe of each cloth."""

from __future__ import annotations

from dataclasses import dataclass

from palette.loom.draft import Draft
from palette.loom.treadling import lifts_in
from palette.measures import format_density, format_length
from palette.plans.loom_words import (
    ends_words,
    heddle_words,
    reed_width_words,
    reed_words,
    selvedge_words,
    treadling_words,
)
from palette.plans.plan import Plan
from palette.sheets.fonts import wrapped
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import cloth_title
from palette.sheets.loom_card_stripes import draw_stripe_rows, rows_within
from palette.sheets.page import Page
from palette.sheets.press import pages_to_pdf
from palette.sheets.style import BODY, CAPTION, HAIR, HEADING, INK, QUIET, SMALL, TINY

__all__ = [
    "CARD_MM",
    "LoomCard",
    "draw_loom_card",
    "loom_card_on_sheet",
    "loom_card_pdf",
    "loom_cards",
]

CARD_MM = (152.4, 101.6)
"""An index card, 6 by 4 inches."""
_PAD = 7.0
_ROW = 4.4
_HEAD = 9.0  # from the inner edge to the first row
_LEFT_MM = 79.0
_LABEL_MM = 27.0
_LEAD = 3.5
_CELL = 3.6
_MOST_GRID = 12
_BETWEEN_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomCard:
    """One card: of which cloth, and the first stripe on it.

    Attributes
    ----------
    cloth : int
        From 0.
    first_stripe : int
        From 0; more than 0 on a card that goes on from the one before.
    stripes : int
        How many of them are on this card.
    """

    cloth: int
    first_stripe: int
    stripes: int


def loom_cards(plan: Plan) -> tuple[LoomCard, ...]:
    """Lay out the cards: for each cloth one, and more where it does not hold the stripes.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    tuple of LoomCard
        Together they hold every stripe of every cloth, once.
    """
    cards: list[LoomCard] = []
    for cloth, weft in enumerate(plan.cloths):
        total, done, front = len(weft.stripes), 0, True
        while front or done < total:
            block = rows_within(total, done, _room_for_stripes(plan, cloth, done))
            cards.append(LoomCard(cloth=cloth, first_stripe=done, stripes=block.count))
            done += block.count
            front = False
    return tuple(cards)


def card_lines(plan: Plan, cloth: int = 0) -> list[tuple[str, str]]:
    """List what the card of a cloth says, as (what it is, value).

    Parameters
    ----------
    plan : Plan
    cloth : int
        From 0; the loom is dressed once, so that a later cloth's card leaves that out.
    """
    warp, units, weft = plan.warp, plan.units, plan.cloths[cloth]
    length = format_length(weft.woven_length_mm, units)
    weaving = [
        ("Picks", f"{weft.total_picks}"),
        ("Beat", format_density(weft.picks_per_cm, units)),
        ("To weave", f"{length}, tension slackened"),
    ]
    if cloth:
        return weaving
    reed, selvedge = reed_words(plan), selvedge_words(plan)
    return [
        ("Warp to wind", format_length(warp.length_mm, units)),
        ("Ends", ends_words(plan)),
        *([("Selvedge", selvedge)] if selvedge else []),
        ("Width in the reed", reed_width_words(plan)),
        ("Sett", format_density(warp.ends_per_cm, units)),
        *([("Reed and sley", reed)] if reed else []),
        ("Heddles by shaft", heddle_words(plan)),
        *weaving,
    ]


def draw_loom_card(
    page: Page, plan: Plan, x: float, y: float, card: LoomCard | None = None
) -> None:
    """Draw one card with its top left corner at (x, y).

    Parameters
    ----------
    page : Page
    plan : Plan
    x, y : float
        Millimetres on the page.
    card : LoomCard, optional
        One of `loom_cards`; the first where it is not given.
    """
    shown = card or loom_cards(plan)[0]
    left, inner = x + _PAD, CARD_MM[0] - 2 * _PAD
    _head(page, plan, shown, left, y + _PAD, inner)
    top = y + _PAD + _HEAD
    if not shown.first_stripe:
        _body(page, plan, shown.cloth, left, top)
    if shown.stripes:
        total = len(plan.cloths[shown.cloth].stripes)
        room = _room_for_stripes(plan, shown.cloth, shown.first_stripe)
        block = rows_within(total, shown.first_stripe, room)
        begin = y + CARD_MM[1] - _PAD - room
        page.text(left, begin - 1.2, _range(shown, total), SMALL, ink=QUIET)
        draw_stripe_rows(page, plan, shown.cloth, block, left, begin, inner)


def _range(card: LoomCard, total: int) -> str:
    last = card.first_stripe + card.stripes
    if card.stripes == total:
        return "All stripes: number, colour and picks"
    over = "" if last == total else "; the rest on the next card"
    return f"Stripes {card.first_stripe + 1} to {last} of {total}: number, colour and picks{over}"


def _head(page: Page, plan: Plan, card: LoomCard, x: float, y: float, width: float) -> None:
    several = len(plan.cloths) > 1
    title = cloth_title(plan, card.cloth) if several else plan.name
    aside = f"cloth {card.cloth + 1} of {len(plan.cloths)}, {plan.draft.name}"
    page.text(x, y + 4.5, title, HEADING, room_mm=width - 62)
    words = aside if several else plan.draft.name
    words = f"{words}, continued" if card.first_stripe else words
    page.text(x + width, y + 4.5, words, CAPTION, ink=QUIET, align="right", room_mm=60)
    page.rule(x, y + 7.5, width, ink=INK, line_mm=0.3)


def _room_for_stripes(plan: Plan, cloth: int, first_stripe: int) -> float:
    """Millimetres under the lines and the draft; on a card that goes on, under its head."""
    inner = CARD_MM[1] - 2 * _PAD - _HEAD
    if first_stripe:
        return inner - 4
    trial = Page(width_mm=CARD_MM[0], height_mm=CARD_MM[1])
    return inner - _body(trial, plan, cloth, 0.0, 0.0) - 5


def _body(page: Page, plan: Plan, cloth: int, x: float, y: float) -> float:
    """Draw the lines, beside them the draft on the first card; give back where they end."""
    width = CARD_MM[0] - 2 * _PAD
    room = width if cloth else _LEFT_MM
    columns = [
        Column(head="", width_mm=_LABEL_MM, ink=QUIET, type=SMALL),
        Column(head="", width_mm=room - _LABEL_MM, type=BODY),
    ]
    lines = card_lines(plan, cloth)
    for number, cells in enumerate(lines):
        grid_row(page, columns, cells, x, y + number * _ROW, _ROW)
    below = y + len(lines) * _ROW
    if not cloth:
        return max(below, _draft(page, plan, x + room + 4, y, width - room - 4))
    for label, words, most in _treadling(plan, cloth):
        page.text(x, below + 3.2, label, SMALL, ink=QUIET)
        for line in wrapped(words, BODY, room - _LABEL_MM, most=most):
            page.text(x + _LABEL_MM, below + 3.2, line, BODY)
            below += _LEAD
        below += 0.6
    return below


def _treadling(plan: Plan, cloth: int) -> list[tuple[str, str, int]]:
    """How a cloth is treadled, as (what it is, words, most lines)."""
    weft = plan.cloths[cloth]
    lifts = lifts_in((weft,), plan.draft)
    return [
        ("Treadling", treadling_words(plan, weft), 3),
        ("Lifts by treadle", ", ".join(f"{t.number}: {t.lifts}" for t in lifts if t.lifts), 2),
    ]


def _draft(page: Page, plan: Plan, x: float, y: float, width: float) -> float:
    """Draw tie-up, threading and the treadling of the first cloth; give back where they end."""
    draft = plan.draft
    page.text(x, y + 2.8, "Tie-up: shafts that rise", SMALL, ink=QUIET)
    small = draft.shafts <= _MOST_GRID and len(draft.tie_up) <= _MOST_GRID
    below = _tie_up_grid(page, draft, x + 4, y + 5) if small else y + 5
    repeat = f"{' '.join(map(str, draft.threading))}, repeat"
    threading = ("Threading from the right, shaft 1 in front", repeat, 2)
    for label, words, most in (threading, *_treadling(plan, 0)):
        page.text(x, below + 3.2, label, SMALL, ink=QUIET)
        below += 3.4
        for line in wrapped(words, BODY, width, most=most):
            page.text(x, below + 3.4, line, BODY)
            below += _LEAD
        below += 0.4
    return below


def _tie_up_grid(page: Page, draft: Draft, x: float, y: float) -> float:
    """Draw shafts upwards, treadles across; a filled cell lifts."""
    shafts, treadles = draft.shafts, len(draft.tie_up)
    cell = min(_CELL, 22 / max(shafts, treadles))
    for treadle, lifted in enumerate(draft.tie_up):
        for shaft in range(1, shafts + 1):
            top = y + (shafts - shaft) * cell
            fill = INK if shaft in lifted else "#ffffff"
            page.box(x + treadle * cell, top, cell, cell, fill=fill, edge=INK, line_mm=0.12)
        number = f"{treadle + 1}"
        middle = x + (treadle + 0.5) * cell
        page.text(middle, y + shafts * cell + 2.6, number, TINY, ink=QUIET, align="centre")
    for shaft in range(1, shafts + 1):
        base = y + (shafts - shaft + 0.5) * cell + 0.75
        page.text(x - 1, base, f"{shaft}", TINY, ink=QUIET, align="right")
    return y + shafts * cell + 3.2


def loom_card_pdf(plan: Plan) -> bytes:
    """Print the loom cards by themselves, each on a page of its size."""
    pages = []
    for card in loom_cards(plan):
        pages.append(Page(width_mm=CARD_MM[0], height_mm=CARD_MM[1]))
        draw_loom_card(pages[-1], plan, 0.0, 0.0, card)
    return pages_to_pdf(pages, title=f"{plan.name}: loom card")


def loom_card_on_sheet(flow: Flow, plan: Plan) -> None:
    """Put the cards on the sheet, each with a line to cut along."""
    width, height = CARD_MM
    cards = loom_cards(plan)
    heading = "Loom card" if len(cards) == 1 else "Loom cards"
    flow.heading(heading, room=height + 24, aside="cut out along the dashes")
    for card in cards:
        if flow.y + height > flow.paper.bottom_mm:
            flow.begin(f"{heading}, continued", aside="cut out along the dashes")
        x, y = (flow.paper.width_mm - width) / 2, flow.y
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y))
        flow.page.line(corners, ink=HAIR, line_mm=0.25, dash_mm=(2.0, 1.5))
        draw_loom_card(flow.page, plan, x, y, card)
        flow.y += height + _BETWEEN_MM
    flow.y -= _BETWEEN_MM
