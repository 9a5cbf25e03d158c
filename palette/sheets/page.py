"""A page to draw on: millimetres from the top left corner, kept as plain marks.

The marks are played to matplotlib by one artist that speaks to its renderer directly. A sheet
has about a thousand short texts; as many artists of their own would cost more than the rest of
the plan together.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from palette.sheets.fonts import clean, fitted, width_mm
from palette.sheets.style import INK, Type

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Align", "Box", "Mark", "Page", "Picture", "Polyline", "Words"]

Align = Literal["left", "centre", "right"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle; `round_mm` rounds its corners."""

    x: float
    y: float
    width: float
    height: float
    fill: str = ""
    edge: str = ""
    line_mm: float = 0.0
    hatch: str = ""
    round_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """Straight strokes through points; all subpaths in one go. `dash_mm` is (on, off)."""

    paths: tuple[tuple[tuple[float, float], ...], ...]
    ink: str
    line_mm: float
    dash_mm: tuple[float, float] | None = None
    fill: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One line of text; (x, y) is on its baseline."""

    x: float
    y: float
    text: str
    type: Type
    ink: str
    angle: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """A picture of 8-bit RGB pixels, stretched to its box."""

    x: float
    y: float
    width: float
    height: float
    pixels: NDArray[np.uint8]


Mark = Box | Polyline | Words | Picture


@dataclass(slots=True)
class Page:
    """A page under construction.

    Attributes
    ----------
    width_mm, height_mm : float
    marks : list of Mark
        In drawing order.
    """

    width_mm: float
    height_mm: float
    marks: list[Mark] = field(default_factory=list)

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: str = "",
        edge: str = "",
        line_mm: float = 0.15,
        hatch: str = "",
        round_mm: float = 0.0,
    ) -> None:
        """Draw a rectangle, its top left corner at (x, y)."""
        self.marks.append(
            Box(
                x=x,
                y=y,
                width=width,
                height=height,
                fill=fill,
                edge=edge,
                line_mm=line_mm if edge else 0.0,
                hatch=hatch,
                round_mm=round_mm,
            )
        )

    def line(
        self,
        *paths: tuple[tuple[float, float], ...],
        ink: str = INK,
        line_mm: float = 0.2,
        dash_mm: tuple[float, float] | None = None,
        fill: str = "",
    ) -> None:
        """Draw strokes, each through its points; nothing where there are none."""
        if not paths:
            return
        self.marks.append(
            Polyline(paths=paths, ink=ink, line_mm=line_mm, dash_mm=dash_mm, fill=fill)
        )

    def rule(self, x: float, y: float, width: float, *, ink: str, line_mm: float = 0.15) -> None:
        """Draw a horizontal rule."""
        self.line(((x, y), (x + width, y)), ink=ink, line_mm=line_mm)

    def text(
        self,
        x: float,
        y: float,
        text: str,
        style: Type,
        *,
        ink: str = INK,
        align: Align = "left",
        room_mm: float | None = None,
        angle: float = 0.0,
    ) -> float:
        """Set a line of text on a baseline; give back how wide it is."""
        plain = clean(text)
        if room_mm is not None:
            plain = fitted(plain, style, room_mm)
        width = width_mm(plain, style)
        shift = {"left": 0.0, "centre": width / 2, "right": width}[align]
        if plain:
            dx, dy = (shift, 0.0) if not angle else (0.0, -shift)  # turned text runs upwards
            self.marks.append(
                Words(x=x - dx, y=y - dy, text=plain, type=style, ink=ink, angle=angle)
            )
        return width

    def picture(
        self, x: float, y: float, width: float, height: float, pixels: NDArray[np.uint8]
    ) -> None:
        """Place a picture; pixels of shape (rows, columns, 3)."""
        self.marks.append(Picture(x=x, y=y, width=width, height=height, pixels=pixels))
