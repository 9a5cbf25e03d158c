"""The pick list: every stripe in large type, with what the hands do before and after it."""

from __future__ import annotations

import math

from palette.measures import MM_PER_CM, format_density, format_length
from palette.plans.plan import Plan
from palette.sheets.between import after_cloth, before_cloth
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import cloth_title, legend, number_of, stripe_key
from palette.sheets.marks import role_words, stripe_marks
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.style import (
    BODY,
    CAPTION,
    HAIR,
    INK,
    LARGE,
    LARGE_BOLD,
    NOTE,
    QUIET,
    TINY,
    Paper,
)
from palette.stripes.handling import handling_of
from palette.stripes.plan import Stripe

__all__ = ["draw_pick_lists", "list_aside"]

_LOW_ROW_MM, _HIGH_ROW_MM = 7.3, 9.0
_SCISSORS_MM = 3.0
_NAME_MM = 37.0
_MEASURED = "Woven so far is measured from the first pick at the breast beam, tension slackened."


def list_aside(plan: Plan, index: int) -> str:
    """Say how many picks, at which density, with how many shuttles."""
    cloth = plan.cloths[index]
    shuttles = handling_of(cloth).most_in_play
    words = "1 shuttle" if shuttles == 1 else f"{shuttles} shuttles"
    density = format_density(cloth.picks_per_cm, plan.units)
    return f"{cloth.total_picks} picks at {density}, {words} in play at most"


def draw_pick_lists(flow: Flow, plan: Plan) -> None:
    """Draw the pick list of every cloth, each beginning a page.

    Parameters
    ----------
    flow : Flow
    plan : Plan
    """
    for index in range(len(plan.cloths)):
        _one_cloth(flow, plan, index)


def _columns(paper: Paper) -> list[Column]:
    fixed = [
        Column(head="done", width_mm=9),
        Column(head="stripe", width_mm=11, align="right", ink=QUIET),
        Column(head="colour", width_mm=15),
        Column(head="", width_mm=40, type=LARGE),
        Column(head="picks", width_mm=18, align="right", type=LARGE_BOLD),
        Column(head="up to pick", width_mm=17, align="right", type=LARGE),
        Column(head="woven so far", width_mm=23, align="right", type=LARGE),
        Column(head="before", width_mm=15, type=NOTE, ink=QUIET),
    ]
    rest = paper.inner_width_mm - sum(column.width_mm for column in fixed)
    return [*fixed, Column(head="", width_mm=5), Column(head="after", width_mm=rest - 5, type=NOTE)]


def _row_height(paper: Paper, rows: int) -> float:
    """Share the rows evenly over as few pages as their lowest height allows."""
    room = paper.bottom_mm - (paper.margin_mm + 20)
    pages = math.ceil(rows / math.floor(room / _LOW_ROW_MM))
    return min(_HIGH_ROW_MM, room / math.ceil(rows / pages))


def _named(page: Page, stripe: Stripe, role: str, x: float, middle: float) -> None:
    """Set the colour, and what the stripe is for in small type under it."""
    page.text(x, middle + 0.4, stripe.colour, LARGE, room_mm=_NAME_MM)
    page.text(x, middle + 3.1, role, TINY, ink=QUIET, room_mm=_NAME_MM)


def _scissors(page: Page, x: float, y: float) -> None:
    """Draw open scissors, their grips at the left: the mark for a cut."""
    size = _SCISSORS_MM
    grips = []
    for side in (-1, 1):
        ring = [
            (x + 0.17 * size * (1 + math.cos(a)), y + side * 0.3 * size + 0.17 * size * math.sin(a))
            for a in (2 * math.pi * step / 10 for step in range(11))
        ]
        blade = ((x + 0.32 * size, y + side * 0.22 * size), (x + size, y - side * 0.26 * size))
        grips += [tuple(ring), blade]
    page.line(*grips, ink=INK, line_mm=0.22)


def _one_cloth(flow: Flow, plan: Plan, index: int) -> None:
    cloth = plan.cloths[index]
    heading = "Pick list" if len(plan.cloths) == 1 else f"Pick list: {cloth_title(plan, index)}"
    aside = list_aside(plan, index)
    flow.begin(heading, aside=aside)
    flow.page.text(flow.paper.margin_mm, flow.y - 3.4, _MEASURED, CAPTION, ink=QUIET)
    entries = legend(plan)
    numbers = number_of(entries)
    marks = stripe_marks(cloth)
    columns = _columns(flow.paper)
    left = flow.paper.margin_mm
    after_x = left + sum(column.width_mm for column in columns[:-2])
    before, after = before_cloth(plan, index), after_cloth(plan, index)
    first = 1 if before else 0
    count = len(cloth.stripes) + first + (1 if after else 0)
    high = _row_height(flow.paper, count)

    def draw(page: Page, place: int, y: float) -> None:
        row = place - first
        if not 0 <= row < len(cloth.stripes):
            words = before if row < 0 else after
            page.text(
                left + 20.5,
                y + high / 2 + 1.2,
                words,
                BODY,
                room_mm=flow.paper.right_mm - left - 21,
            )
            page.box(left + 0.5, y + high / 2 - 2.1, 4.2, 4.2, edge=INK, line_mm=0.25)
            page.rule(left, y + high, flow.paper.inner_width_mm, ink=HAIR, line_mm=0.1)
            return
        stripe, mark = cloth.stripes[row], marks[row]
        cells = [
            "",
            f"{row + 1}",
            "",
            "" if stripe.role != "stripe" else stripe.colour,
            f"{stripe.picks}",
            f"{stripe.last_pick}",
            format_length(stripe.last_pick / cloth.picks_per_cm * MM_PER_CM, plan.units),
            mark.before_words,
            "",
            mark.after_words,
        ]
        grid_row(page, columns, cells, left, y, high)
        page.box(left + 0.5, y + high / 2 - 2.1, 4.2, 4.2, edge=INK, line_mm=0.25)
        if stripe.role != "stripe":
            _named(page, stripe, role_words(plan, cloth, stripe), left + 35, y + high / 2)
        if stripe.role == "blend":
            page.box(left + 19, y, 0.7, high, fill=QUIET)
        if mark.after == "cut":
            _scissors(page, after_x, y + high / 2)
        entry = entries[numbers[stripe_key(stripe)] - 1]
        draw_swatch(page, entry, left + 20.5, y + 1.1, 12.5, high - 2.2)

    flow.rows(columns, count, draw, height=high, heading=heading, aside=aside)
