"""The choices card: arrangements of one palette to scale, side by side, each with its number."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from palette.errors import InputError
from palette.measures import MM_PER_CM
from palette.sheets.fonts import wrapped
from palette.sheets.page import Page
from palette.sheets.press import page_to_png, pages_to_pdf
from palette.sheets.style import (
    CAPTION,
    HEADING_LARGE,
    INK,
    LEDE,
    QUIET,
    SMALL,
    STRONG,
    Paper,
    PaperName,
    paper_named,
)
from palette.stripes.choices import Choice
from palette.stripes.handling import handling_of

__all__ = ["choices_pages", "choices_pdf", "choices_png"]

_ON_A_PAGE = 12
_FIGURES_MM, _LINE_MM = 12.2, 3.2
_GAP_MM = 5.0
_HEAD_MM = 21.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cells:
    """A grid of equal cells, room for the longest words, and the scale that fits every cloth."""

    columns: int
    rows: int
    width: float
    height: float
    words: float
    factor: float


def _cells(choices: Sequence[Choice], width_mm: float, paper: Paper, count: int) -> _Cells:
    """Choose the grid in which the cloths come out largest."""
    longest = max(choice.plan.true_finished_length_mm for choice in choices)
    high = paper.bottom_mm - paper.margin_mm - _HEAD_MM
    found = []
    for columns in (3, 4, 6, 12):
        rows = math.ceil(count / columns)
        width = (paper.inner_width_mm + _GAP_MM) / columns - _GAP_MM
        height = (high + _GAP_MM) / rows - _GAP_MM
        if width < 12:
            continue
        lines = max(len(wrapped(choice.how, SMALL, width)) for choice in choices)
        words = _FIGURES_MM + _LINE_MM * lines
        if height - words < 15:
            continue
        factor = min(width / width_mm, (height - words) / longest)
        found.append(
            _Cells(
                columns=columns, rows=rows, width=width, height=height, words=words, factor=factor
            )
        )
    return max(found, key=lambda cells: (cells.factor, -cells.columns))


def choices_pages(
    choices: Sequence[Choice],
    *,
    finished_width_mm: float,
    title: str = "Choices",
    paper: PaperName | str = "A4",
) -> list[Page]:
    """Draw arrangements beside each other, all to one scale, twelve on a page.

    Parameters
    ----------
    choices : sequence of Choice
        At least one.
    finished_width_mm : float
    title : str
    paper : {"A4", "Letter"}

    Returns
    -------
    list of Page

    Raises
    ------
    InputError
        If there is nothing to show, or the width is not more than 0.
    """
    if not choices:
        raise InputError("choices", "must be at least one", got="none")
    if not 0 < finished_width_mm < math.inf:
        raise InputError("cloth width", "must be more than 0", got=f"{finished_width_mm} mm")
    size = paper_named(paper)
    cells = _cells(choices, finished_width_mm, size, min(len(choices), _ON_A_PAGE))
    pages = []
    for first in range(0, len(choices), _ON_A_PAGE):
        page = Page(width_mm=size.width_mm, height_mm=size.height_mm)
        page.text(size.margin_mm, size.margin_mm + 7, title, HEADING_LARGE, room_mm=120)
        note = f"finished size, 1 : {1 / cells.factor:.3g}; the first pick is at the bottom"
        page.text(size.margin_mm, size.margin_mm + 13.5, note, LEDE, ink=QUIET)
        for place, choice in enumerate(choices[first : first + _ON_A_PAGE]):
            x = size.margin_mm + (place % cells.columns) * (cells.width + _GAP_MM)
            row = place // cells.columns
            y = size.margin_mm + _HEAD_MM + row * (cells.height + _GAP_MM)
            _choice(page, choice, cells, x, y, finished_width_mm * cells.factor)
        foot = size.height_mm - size.margin_mm + 2
        guide = "The colours are those of the yarn, and a guide. Weave a sample."
        page.text(size.margin_mm, foot, guide, CAPTION, ink=QUIET)
        number = f"page {first // _ON_A_PAGE + 1} of {math.ceil(len(choices) / _ON_A_PAGE)}"
        page.text(size.right_mm, foot, number, SMALL, ink=QUIET, align="right")
        pages.append(page)
    return pages


def _choice(page: Page, choice: Choice, cells: _Cells, x: float, y: float, width: float) -> None:
    cloth = choice.plan
    kept = MM_PER_CM / cloth.picks_per_cm * (1 - cloth.shrinkage_length) * cells.factor
    below = y + cells.height - cells.words
    for stripe in cloth.stripes:
        top = below - stripe.last_pick * kept
        page.box(x, top, width, stripe.picks * kept, fill=stripe.hex)
    high = cloth.total_picks * kept
    page.box(x, below - high, width, high, edge=INK, line_mm=0.15)
    number = f"{choice.number}"
    across = page.text(x, below + 5, number, STRONG)
    figures = f"{len(cloth.stripes)} stripes" if len(cloth.stripes) > 1 else "1 stripe"
    page.text(
        x + across + 2, below + 5, figures, SMALL, ink=QUIET, room_mm=cells.width - across - 2
    )
    shuttles = handling_of(cloth).most_in_play
    words = "1 shuttle" if shuttles == 1 else f"up to {shuttles} shuttles"
    page.text(x, below + 8.6, words, SMALL, ink=QUIET, room_mm=cells.width)
    at = below + _FIGURES_MM
    for line in wrapped(choice.how, SMALL, cells.width):
        page.text(x, at, line, SMALL)
        at += _LINE_MM


def choices_pdf(
    choices: Sequence[Choice],
    *,
    finished_width_mm: float,
    title: str = "Choices",
    paper: PaperName | str = "A4",
) -> bytes:
    """Print the choices card as PDF; takes what `choices_pages` takes."""
    pages = choices_pages(choices, finished_width_mm=finished_width_mm, title=title, paper=paper)
    return pages_to_pdf(pages, title=title)


def choices_png(
    choices: Sequence[Choice],
    *,
    finished_width_mm: float,
    title: str = "Choices",
    paper: PaperName | str = "A4",
    dpi: float = 150.0,
) -> tuple[bytes, ...]:
    """Draw the choices card as PNG, one for each page; takes what `choices_pages` takes."""
    pages = choices_pages(choices, finished_width_mm=finished_width_mm, title=title, paper=paper)
    return tuple(page_to_png(page, dpi=dpi) for page in pages)
