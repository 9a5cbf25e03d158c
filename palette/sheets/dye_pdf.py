"""The dye page on its own, to hang by the pots."""

from __future__ import annotations

from palette.dyeing.dye_day import DyeDay
from palette.plans.plan import Plan
from palette.sheets.dye_page import draw_dye_day
from palette.sheets.grid import Flow
from palette.sheets.pdf import page_feet
from palette.sheets.press import pages_to_pdf
from palette.sheets.style import paper_named

__all__ = ["dye_page_pdf"]


def dye_page_pdf(plan: Plan, day: DyeDay, *, paper: str = "A4") -> bytes:
    """Print the dye day: lots, baths, totals and cautions.

    Parameters
    ----------
    plan : Plan
    day : DyeDay
        Of this plan.
    paper : {"A4", "Letter"}

    Returns
    -------
    bytes
        PDF; the same day gives the same bytes.
    """
    size = paper_named(paper)
    flow = Flow(paper=size, pages=[])
    draw_dye_day(flow, plan, day)
    page_feet(flow.pages, plan, size)
    return pages_to_pdf(flow.pages, title=f"{plan.name}: dye day")
