"""Tables on paper: columns with heads, rows with hair lines, flowing over pages."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from palette.sheets.fonts import width_mm, wrapped
from palette.sheets.page import Align, Page
from palette.sheets.style import BODY, HAIR, HEADING, INK, QUIET, SMALL, Paper, Type

__all__ = ["Column", "Flow", "grid_head", "grid_row"]


_TWO_LINES_MM = 6.5
_DUST_MM = 0.01
_LEAST_POINTS = 7.0
_SMALLER = 0.75
_LEADING_MM = 0.4  # of each point of type size: a line and its white


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: its head, its room, how its text is set."""

    head: str
    width_mm: float
    align: Align = "left"
    type: Type = BODY
    ink: str = INK

    def place(self, x: float) -> float:
        """Where the text of a cell starting at x is anchored."""
        inner = self.width_mm - 3
        return x + {"left": 0.0, "centre": inner / 2, "right": inner}[self.align]


def grid_head(page: Page, columns: Sequence[Column], x: float, y: float) -> float:
    """Draw the heads on a baseline and a rule under them; give back the rule's place."""
    at = x
    for column in columns:
        page.text(
            column.place(at),
            y,
            column.head,
            SMALL,
            ink=QUIET,
            align=column.align,
            room_mm=column.width_mm - 1,
        )
        at += column.width_mm
    page.rule(x, y + 2, at - x, ink=INK, line_mm=0.25)
    return y + 2


def grid_row(
    page: Page, columns: Sequence[Column], cells: Sequence[str], x: float, y: float, height: float
) -> None:
    """Draw one row, its top at y, and the hair line under it."""
    at = x
    for column, cell in zip(columns, cells, strict=True):
        if cell:
            _cell(page, column, cell, at, y, height)
        at += column.width_mm
    page.rule(x, y + height, at - x, ink=HAIR, line_mm=0.1)


def _cell(page: Page, column: Column, cell: str, x: float, y: float, height: float) -> None:
    """Set one cell; a text wider than its room goes smaller, on two lines."""
    room = column.width_mm - 3
    style = column.type
    lines = [cell]
    if width_mm(cell, style) > room and " " in cell and height >= _TWO_LINES_MM:
        style = Type(face=style.face, points=max(_LEAST_POINTS, _SMALLER * style.points))
        lines = wrapped(cell, style, room, most=2)
    lead = style.points * _LEADING_MM
    base = y + height / 2 + style.points * 0.125 - lead * (len(lines) - 1) / 2
    for line in lines:
        page.text(
            column.place(x), base, line, style, ink=column.ink, align=column.align, room_mm=room
        )
        base += lead


@dataclass(slots=True)
class Flow:
    """Pages that are begun as they are needed, each with the same head.

    Attributes
    ----------
    paper : Paper
    pages : list of Page
    y : float
        Where the next thing goes on the last page.
    """

    paper: Paper
    pages: list[Page]
    y: float = 0.0

    @property
    def page(self) -> Page:
        """The page under the pen."""
        return self.pages[-1]

    def begin(self, heading: str, *, aside: str = "") -> None:
        """Begin a page under a heading."""
        paper = self.paper
        page = Page(width_mm=paper.width_mm, height_mm=paper.height_mm)
        base = paper.margin_mm + 6
        page.text(paper.margin_mm, base, heading, HEADING, room_mm=paper.inner_width_mm - 92)
        if aside:
            page.text(paper.right_mm, base, aside, BODY, ink=QUIET, align="right", room_mm=90)
        self.pages.append(page)
        self.y = base + 9

    def heading(self, words: str, *, room: float, aside: str = "") -> None:
        """Set a heading inside a page, or on a new one where the room under it is short."""
        if self.y + room > self.paper.bottom_mm:
            self.begin(words, aside=aside)
            return
        base = self.y + 14
        self.page.text(self.paper.margin_mm, base, words, HEADING)
        if aside:
            right = self.paper.right_mm
            self.page.text(right, base, aside, BODY, ink=QUIET, align="right", room_mm=90)
        self.y = base + 5

    def rows(
        self,
        columns: Sequence[Column],
        count: int,
        draw: Callable[[Page, int, float], None],
        *,
        height: float,
        heading: str,
        aside: str = "",
    ) -> None:
        """Draw `count` rows, beginning pages under a repeated head as they fill."""
        if self.y + 10 + height > self.paper.bottom_mm:
            self.begin(heading, aside=aside)
        self.y = grid_head(self.page, columns, self.paper.margin_mm, self.y + 3)
        for index in range(count):
            if self.y + height > self.paper.bottom_mm + _DUST_MM:
                self.begin(f"{heading}, continued", aside=aside)
                self.y = grid_head(self.page, columns, self.paper.margin_mm, self.y + 3)
            draw(self.page, index, self.y)
            self.y += height
