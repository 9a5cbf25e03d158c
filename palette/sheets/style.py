"""The look that every sheet and card shares: type, inks, measures, all on one page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError

__all__ = [
    "BODY",
    "BOLD",
    "CAPTION",
    "FAINT",
    "FIGURE",
    "HAIR",
    "HEADING",
    "HEADING_LARGE",
    "INK",
    "LARGE",
    "LARGE_BOLD",
    "LEDE",
    "NOTE",
    "PAPERS",
    "QUIET",
    "SMALL",
    "STRONG",
    "TINY",
    "TITLE",
    "WARN",
    "Face",
    "Paper",
    "PaperName",
    "Type",
    "paper_named",
]

PaperName = Literal["A4", "Letter"]
Face = Literal["roman", "italic", "sans", "bold"]

INK = "#23211e"
"""Text and strong rules."""
QUIET = "#5f5a52"
"""Labels and captions; 6.7 : 1 on white."""
HAIR = "#b9b2a6"
"""Hair lines between rows."""
FAINT = "#f3f0ea"
"""Ground behind a block of figures."""
WARN = "#8a2f1d"
"""What to look at; dark enough to print black."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, in millimetres."""

    name: PaperName
    width_mm: float
    height_mm: float
    margin_mm: float = 17.0
    foot_mm: float = 15.0

    @property
    def inner_width_mm(self) -> float:
        """Width between the margins."""
        return self.width_mm - 2 * self.margin_mm

    @property
    def right_mm(self) -> float:
        """Where the right margin begins."""
        return self.width_mm - self.margin_mm

    @property
    def bottom_mm(self) -> float:
        """Where the foot begins: nothing of the text goes below."""
        return self.height_mm - self.margin_mm - self.foot_mm / 2


PAPERS: dict[PaperName, Paper] = {
    "A4": Paper(name="A4", width_mm=210.0, height_mm=297.0),
    "Letter": Paper(name="Letter", width_mm=215.9, height_mm=279.4),
}


def paper_named(name: str) -> Paper:
    """Find a paper by its name, in any case.

    Examples
    --------
    >>> paper_named("letter").width_mm
    215.9
    """
    for key, paper in PAPERS.items():
        if key.lower() == name.strip().lower():
            return paper
    raise InputError("paper", f"must be one of {', '.join(PAPERS)}", got=repr(name))


@dataclass(frozen=True, slots=True, kw_only=True)
class Type:
    """One size of one face, in points."""

    face: Face
    points: float


TITLE = Type(face="roman", points=27)
LEDE = Type(face="italic", points=12.5)
HEADING = Type(face="roman", points=16)
HEADING_LARGE = Type(face="roman", points=20)
FIGURE = Type(face="roman", points=15)
BODY = Type(face="sans", points=8.5)
BOLD = Type(face="bold", points=8.5)
STRONG = Type(face="bold", points=10)
NOTE = Type(face="sans", points=7.6)
SMALL = Type(face="sans", points=7)
TINY = Type(face="sans", points=6)
CAPTION = Type(face="italic", points=9)
LARGE = Type(face="sans", points=11)
LARGE_BOLD = Type(face="bold", points=14)
