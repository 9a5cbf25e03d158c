"""The sheet: everything a weaver takes to the loom, printed."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from palette.plans.plan import Plan
from palette.sheets.amounts_page import draw_amounts
from palette.sheets.grid import Flow
from palette.sheets.loom_card import loom_card_on_sheet
from palette.sheets.overview import overview_page
from palette.sheets.page import Page
from palette.sheets.pick_list import draw_pick_lists
from palette.sheets.press import pages_to_pdf
from palette.sheets.style import HAIR, QUIET, SMALL, Paper, PaperName, paper_named

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from palette.dyeing.dye_day import DyeDay

__all__ = ["page_feet", "sheet_pages", "sheet_pdf"]

_PHOTO_PX = 640


def _pixels(data: bytes, *, most: int) -> NDArray[np.uint8]:
    """Pixels of a picture file, made smaller where it has more than paper shows."""
    import numpy as np
    from PIL import Image

    with Image.open(io.BytesIO(data)) as image:
        image.draft("RGB", (most, most))
        picture = image.convert("RGB")
    if max(picture.size) > most:
        picture.thumbnail((most, most), reducing_gap=2.0)
    return np.asarray(picture)


def sheet_pages(
    plan: Plan,
    *,
    photo_jpeg: bytes | None = None,
    cloth_pngs: Sequence[bytes] = (),
    paper: PaperName | str = "A4",
    dye_day: DyeDay | None = None,
) -> list[Page]:
    """Draw the pages of the sheet; takes what `sheet_pdf` takes."""
    size = paper_named(paper)
    first, notes = overview_page(
        plan,
        size,
        photo=_pixels(photo_jpeg, most=_PHOTO_PX) if photo_jpeg else None,
        cloth_pictures=[_pixels(data, most=_PHOTO_PX) for data in cloth_pngs],
    )
    flow = Flow(paper=size, pages=[first])
    draw_pick_lists(flow, plan)
    draw_amounts(flow, plan, notes)
    loom_card_on_sheet(flow, plan)
    if dye_day is not None:
        from palette.sheets.dye_page import draw_dye_day

        draw_dye_day(flow, plan, dye_day)
    page_feet(flow.pages, plan, size)
    return flow.pages


def page_feet(pages: Sequence[Page], plan: Plan, paper: Paper) -> None:
    """Write the plan and the page number at the foot of each page."""
    y = paper.height_mm - paper.margin_mm + 2
    for number, page in enumerate(pages, start=1):
        page.rule(paper.margin_mm, y - 4, paper.inner_width_mm, ink=HAIR, line_mm=0.1)
        room = paper.inner_width_mm - 40
        page.text(paper.margin_mm, y, plan.name, SMALL, ink=QUIET, room_mm=room)
        count = f"page {number} of {len(pages)}"
        page.text(paper.right_mm, y, count, SMALL, ink=QUIET, align="right")


def sheet_pdf(
    plan: Plan,
    *,
    photo_jpeg: bytes | None = None,
    cloth_pngs: Sequence[bytes] = (),
    paper: PaperName | str = "A4",
    dye_day: DyeDay | None = None,
) -> bytes:
    """Print a plan as a PDF: the same plan gives the same bytes.

    Parameters
    ----------
    plan : Plan
    photo_jpeg : bytes, optional
        The photograph, upright, as any picture file; shown small on page 1.
    cloth_pngs : sequence of bytes
        Each cloth as it may look when woven, first pick at the bottom, without margins; empty
        for none.
    paper : {"A4", "Letter"}
    dye_day : DyeDay, optional
        Adds the dye page with its cautions.

    Returns
    -------
    bytes
        PDF with embedded fonts, vector but for the pictures.

    Raises
    ------
    InputError
        If the paper has another name.
    """
    pages = sheet_pages(
        plan, photo_jpeg=photo_jpeg, cloth_pngs=cloth_pngs, paper=paper, dye_day=dye_day
    )
    return pages_to_pdf(pages, title=plan.name)
