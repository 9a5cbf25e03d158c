"""The swatch card: a palette at its true proportions beside the photograph."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from palette.measures import per_cents
from palette.sheets.contrast import legible
from palette.sheets.fonts import wrapped
from palette.sheets.page import Page
from palette.sheets.press import page_to_png, page_to_svg, pages_to_pdf
from palette.sheets.style import BOLD, CAPTION, HEADING_LARGE, INK, QUIET, SMALL, STRONG
from palette.swatches.palette import Palette, Swatch

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["swatch_card", "swatch_card_pdf", "swatch_card_png", "swatch_card_svg"]

_WIDTH = 200.0
_PAD = 11.0
_PICTURE_HIGH = 100.0
_BAR_HIGH = 46.0
_LEAST_STACK = 46.0
_LEAST_BESIDE = 40.0
_ROW = 11.5
_NAME_LINE, _HEADING_LINE = 3.9, 8.0
_GUIDE = "The colours are a guide: a camera is no measuring instrument. Dye or weave a sample."
_GLOSS = (
    "#: the colour on a screen. CIELAB: lightness from 0 to 100, then green (-) to red (+), then "
    "blue (-) to yellow (+)."
)


def swatch_card(
    palette: Palette, *, photo: NDArray[np.uint8] | None = None, title: str = "Palette"
) -> Page:
    """Draw the swatch card.

    Parameters
    ----------
    palette : Palette
    photo : ndarray of uint8, shape (rows, columns, 3), optional
    title : str

    Returns
    -------
    Page
        200 mm wide, as high as it needs to be.
    """
    rows = math.ceil(len(palette.swatches) / 2)
    inner = _WIDTH - 2 * _PAD
    picture, stack = _places(photo, inner)
    high = max(stack.bottom, picture.bottom)
    headings = wrapped(title, HEADING_LARGE, inner - 40, most=2)
    top = _PAD + 14 + _HEADING_LINE * max(0, len(headings) - 1)
    height = top + high + 9 + rows * _row_high(palette, inner) + 10 + _PAD
    page = Page(width_mm=_WIDTH, height_mm=height)
    for line, words in enumerate(headings):
        page.text(_PAD, _PAD + 6.5 + _HEADING_LINE * line, words, HEADING_LARGE)
    count = len(palette.swatches)
    number = "1 colour" if count == 1 else f"{count} colours"
    page.text(_WIDTH - _PAD, _PAD + 6.5, number, CAPTION, ink=QUIET, align="right")
    if photo is not None:
        page.picture(_PAD, top, picture.wide, picture.high, photo)
    _stack(page, palette, _PAD + stack.x, top + stack.y, stack.wide, stack.high)
    _list(page, palette, top + high + 9, inner)
    page.text(_PAD, height - _PAD - 3.4, _GUIDE, CAPTION, ink=QUIET, room_mm=inner)
    page.text(_PAD, height - _PAD + 1, _GLOSS, SMALL, ink=QUIET, room_mm=inner)
    return page


class _Place(NamedTuple):
    """Where something stands below the heading, in millimetres."""

    x: float
    y: float
    wide: float
    high: float

    @property
    def bottom(self) -> float:
        return self.y + self.high


def _places(photo: NDArray[np.uint8] | None, inner: float) -> tuple[_Place, _Place]:
    """Places of the photograph and of the stack: side by side, a panorama above its stack."""
    if photo is None:
        return _Place(0, 0, 0, 0), _Place(0, 0, inner, _BAR_HIGH)
    tall, wide = photo.shape[:2]
    factor = min(_PICTURE_HIGH / tall, (inner - _LEAST_STACK - 4) / wide)
    if tall * factor >= _LEAST_BESIDE:
        picture = _Place(0, 0, wide * factor, tall * factor)
        rest = picture.wide + 4
        return picture, _Place(rest, 0, inner - rest, picture.high)
    picture = _Place(0, 0, inner, inner * tall / wide)
    return picture, _Place(0, picture.high + 4, inner, _BAR_HIGH)


def _stack(page: Page, palette: Palette, x: float, y: float, width: float, height: float) -> None:
    """Stack the swatches, each as high as its share; a tall stack lies down when it is wide."""
    lying = width > 1.6 * height
    before = 0.0
    for number, swatch in enumerate(palette.swatches, start=1):
        share = swatch.share
        if lying:
            page.box(x + before * width, y, share * width, height, fill=swatch.hex)
        else:
            page.box(x, y + before * height, width, share * height, fill=swatch.hex)
        room = share * (width if lying else height)
        if room >= 4:
            at = x + (before + share / 2) * width if lying else x + 4
            base = y + height - 3 if lying else y + (before + share / 2) * height + 1.2
            page.text(at, base, f"{number}", BOLD, ink=legible(swatch.hex), align="centre")
        before += share
    page.box(x, y, width, height, edge=INK, line_mm=0.15)


def _names(swatch: Swatch, inner: float) -> list[str]:
    """Lines of a swatch's name."""
    return wrapped(swatch.name, STRONG, inner / 2 - 17 - 22, most=2)


def _row_high(palette: Palette, inner: float) -> float:
    """Height of the rows of the list; higher where a name takes two lines."""
    lines = max(len(_names(swatch, inner)) for swatch in palette.swatches)
    return _ROW + _NAME_LINE * (lines - 1)


def _list(page: Page, palette: Palette, y: float, inner: float) -> None:
    """List every colour in two columns: number, name, per cent, its figures."""
    half, high = inner / 2, _row_high(palette, inner)
    rows = math.ceil(len(palette.swatches) / 2)
    parts = per_cents(tuple(swatch.share for swatch in palette.swatches))
    for index, (swatch, part) in enumerate(zip(palette.swatches, parts, strict=True)):
        x, top = _PAD + half * (index // rows), y + high * (index % rows)
        page.box(x, top, 14, high - 2, fill=swatch.hex, edge=INK, line_mm=0.12)
        ink = legible(swatch.hex)
        page.text(x + 7, top + high / 2 + 0.2, f"{index + 1}", BOLD, ink=ink, align="centre")
        names = _names(swatch, inner)
        for number, line in enumerate(names):
            page.text(x + 17, top + 3.4 + _NAME_LINE * number, line, STRONG)
        at = top + 7.0 + _NAME_LINE * (len(names) - 1)
        for line in wrapped(_figures(swatch), SMALL, half - 17 - 6, most=2):
            page.text(x + 17, at, line, SMALL, ink=QUIET)
            at += 2.9
        page.text(x + half - 5, top + 3.4, f"{part:.1f} %", STRONG, align="right")


def _figures(swatch: Swatch) -> str:
    lightness, a, b = swatch.lab
    figures = " ".join(f"{round(value):d}" for value in (lightness, a, b))
    words = [swatch.hex, f"CIELAB {figures}"]
    if swatch.munsell:
        words.append(f"Munsell {swatch.munsell}")
    if swatch.accent:
        words.append("accent")
    if not swatch.in_srgb:
        words.append("stronger than a screen shows")
    return ", ".join(words)


def swatch_card_png(
    palette: Palette,
    *,
    photo: NDArray[np.uint8] | None = None,
    title: str = "Palette",
    dpi: float = 150.0,
) -> bytes:
    """Draw the swatch card as PNG; takes what `swatch_card` takes."""
    return page_to_png(swatch_card(palette, photo=photo, title=title), dpi=dpi)


def swatch_card_svg(
    palette: Palette, *, photo: NDArray[np.uint8] | None = None, title: str = "Palette"
) -> bytes:
    """Draw the swatch card as SVG; takes what `swatch_card` takes."""
    return page_to_svg(swatch_card(palette, photo=photo, title=title), title=title)


def swatch_card_pdf(
    palette: Palette, *, photo: NDArray[np.uint8] | None = None, title: str = "Palette"
) -> bytes:
    """Print the swatch card as PDF; takes what `swatch_card` takes."""
    return pages_to_pdf([swatch_card(palette, photo=photo, title=title)], title=title)
