"""The pick list: every stripe in large type, with what the hands do after it."""

from __future__ import annotations

from palette.measures import format_density, format_length
from palette.plans.plan import Plan
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import cloth_title, legend, number_of, stripe_key
from palette.sheets.marks import StripeMarks, stripe_marks
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.style import BODY, INK, LARGE, LARGE_BOLD, QUIET, Paper

__all__ = ["pick_list_pages", "what_to_do"]

_ROW_MM = 8.0


def what_to_do(marks: StripeMarks) -> str:
    """Say what happens to the weft of a stripe, in a few words."""
    words = "new shuttle" if marks.begins else ""
    if marks.last:
        after = "cut: last one"
    elif marks.ends:
        after = "cut"
    else:
        after = f"carry past {marks.carried_picks}"
    return f"{words}; {after}" if words else after


def pick_list_pages(plan: Plan, paper: Paper) -> list[Page]:
    """Draw the pick list of every cloth, each beginning a page.

    Parameters
    ----------
    plan : Plan
    paper : Paper

    Returns
    -------
    list of Page
    """
    flow = Flow(paper=paper, pages=[])
    for index in range(len(plan.cloths)):
        _one_cloth(flow, plan, index)
    return flow.pages


def _columns(paper: Paper) -> list[Column]:
    fixed = [
        Column(head="done", width_mm=10),
        Column(head="stripe", width_mm=13, align="right", type=BODY, ink=QUIET),
        Column(head="colour", width_mm=16),
        Column(head="", width_mm=46, type=LARGE),
        Column(head="picks", width_mm=21, align="right", type=LARGE_BOLD),
        Column(head="to pick", width_mm=21, align="right", type=LARGE),
        Column(head="woven so far", width_mm=26, align="right", type=LARGE),
    ]
    rest = paper.inner_width_mm - sum(column.width_mm for column in fixed)
    return [*fixed, Column(head="then", width_mm=rest, type=BODY)]


def _one_cloth(flow: Flow, plan: Plan, index: int) -> None:
    cloth = plan.cloths[index]
    heading = "Pick list" if len(plan.cloths) == 1 else f"Pick list: {cloth_title(plan, index)}"
    aside = f"{cloth.total_picks} picks at {format_density(cloth.picks_per_cm, plan.units)}"
    flow.begin(heading, aside=aside)
    entries = legend(plan)
    numbers = number_of(entries)
    marks = stripe_marks(cloth)
    columns = _columns(flow.paper)
    left = flow.paper.margin_mm

    def draw(page: Page, row: int, y: float) -> None:
        stripe = cloth.stripes[row]
        entry = entries[numbers[stripe_key(stripe)] - 1]
        woven = format_length(stripe.last_pick / cloth.picks_per_cm * 10, plan.units)
        role = "" if stripe.role == "stripe" else f" ({stripe.role})"
        cells = [
            "",
            f"{row + 1}",
            "",
            stripe.colour + role,
            f"{stripe.picks}",
            f"{stripe.last_pick}",
            woven,
            what_to_do(marks[row]),
        ]
        grid_row(page, columns, cells, left, y, _ROW_MM)
        page.box(left + 0.5, y + 2, 4, 4, edge=INK, line_mm=0.25)
        draw_swatch(page, entry, left + 23, y + 1.2, 13, _ROW_MM - 2.4)

    flow.rows(columns, len(cloth.stripes), draw, height=_ROW_MM, heading=heading, aside=aside)
