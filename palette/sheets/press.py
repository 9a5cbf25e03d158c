"""From pages to bytes: PDF, SVG and PNG, the same bytes every time.

The only module that draws with matplotlib.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from palette.sheets.fonts import MM_PER_POINT, properties
from palette.sheets.page import Box, Page, Picture, Polyline, Words

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["page_to_png", "page_to_svg", "pages_to_pdf"]

_MM_PER_INCH = 25.4
_SETTINGS = {
    "pdf.fonttype": 42,  # TrueType, embedded: sharp everywhere and searchable
    "svg.fonttype": "path",
    "svg.hashsalt": "leafweft",
    "hatch.linewidth": 0.4,
}
_NOT_DRAWN = frozenset(["backend", "backend_fallback", "date.epoch", "interactive", "toolbar"])


class _Player:
    """Plays a page's marks to a renderer; one for each drawing of a page."""

    def __init__(self, renderer: Any, page: Page) -> None:  # noqa: ANN401
        self.renderer = renderer
        self.page = page
        self.unit = renderer.points_to_pixels(1) / MM_PER_POINT  # renderer units in 1 mm
        self.flips = renderer.flipy()
        self.height = page.height_mm * self.unit

    def play(self) -> None:
        from matplotlib.path import Path

        self.path = Path
        for mark in self.page.marks:
            match mark:
                case Box():
                    self.box(mark)
                case Polyline():
                    self.polyline(mark)
                case Words():
                    self.words(mark)
                case Picture():
                    self.picture(mark)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Give the renderer's place, from its lower left corner."""
        return x * self.unit, self.height - y * self.unit

    def context(self, ink: str, line_mm: float) -> Any:  # noqa: ANN401
        context = self.renderer.new_gc()
        context.set_foreground(ink or "#000000")
        context.set_linewidth(line_mm * self.unit)
        context.set_joinstyle("miter")
        context.set_antialiased(True)
        return context

    def box(self, mark: Box) -> None:
        from matplotlib.colors import to_rgb
        from matplotlib.transforms import IdentityTransform

        context = self.context(mark.edge, mark.line_mm)
        if mark.hatch:
            context.set_hatch(mark.hatch)
            context.set_hatch_color(mark.edge or "#000000")
        x0, y0 = self.at(mark.x, mark.y + mark.height)
        x1, y1 = self.at(mark.x + mark.width, mark.y)
        path = self.path([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)], closed=True)
        if mark.round_mm:
            path = _rounded(x0, y0, x1, y1, mark.round_mm * self.unit)
        fill = to_rgb(mark.fill) if mark.fill else None
        self.renderer.draw_path(context, path, IdentityTransform(), fill)
        context.restore()

    def polyline(self, mark: Polyline) -> None:
        from matplotlib.colors import to_rgb
        from matplotlib.transforms import IdentityTransform

        context = self.context(mark.ink, mark.line_mm)
        if mark.dash_mm:
            context.set_dashes(0, [part * self.unit for part in mark.dash_mm])
        points = [self.at(*point) for path in mark.paths for point in path]
        codes = [
            self.path.MOVETO if first == 0 else self.path.LINETO
            for path in mark.paths
            for first in range(len(path))
        ]
        fill = to_rgb(mark.fill) if mark.fill else None
        self.renderer.draw_path(context, self.path(points, codes), IdentityTransform(), fill)
        context.restore()

    def words(self, mark: Words) -> None:
        context = self.context(mark.ink, 0.0)
        x, y = self.at(mark.x, mark.y)
        y = self.height - y if self.flips else y
        font = properties(mark.text, mark.type)
        self.renderer.draw_text(context, x, y, mark.text, font, mark.angle, mtext=_text_settings())
        context.restore()

    def picture(self, mark: Picture) -> None:
        import numpy as np
        from matplotlib.transforms import Affine2D

        context = self.context("", 0.0)
        x, y = self.at(mark.x, mark.y + mark.height)
        width, height = mark.width * self.unit, mark.height * self.unit
        pixels = mark.pixels
        if self.flips and not self.renderer.option_scale_image():  # a raster: its own pixels
            from PIL import Image

            size = (max(round(width), 1), max(round(height), 1))
            pixels = np.asarray(Image.fromarray(pixels).resize(size))
        opaque = np.full((*pixels.shape[:2], 1), 255, np.uint8)
        rgba = np.concatenate([pixels, opaque], axis=2)[::-1]
        if self.flips and not self.renderer.option_scale_image():
            self.renderer.draw_image(context, round(x), round(y), rgba)
        else:
            scale = Affine2D().scale(width, height)
            self.renderer.draw_image(context, x, y, rgba, scale)
        context.restore()


@lru_cache(maxsize=1)
def _text_settings() -> Any:  # noqa: ANN401
    """Turn ligatures off: they would need a second copy of each face in the file."""
    from matplotlib.text import Text

    text = Text()
    if not hasattr(text, "set_fontfeatures"):
        return None  # matplotlib before 3.11 sets no ligatures
    text.set_fontfeatures(["-liga", "-clig"])
    return text


def _rounded(x0: float, y0: float, x1: float, y1: float, radius: float) -> Any:  # noqa: ANN401
    """Path of a rectangle with round corners."""
    from matplotlib.path import Path

    bend = radius * 0.4477  # 1 - 0.5523, the usual Bezier quarter circle
    corners = [
        ((x0 + radius, y0), (x1 - radius, y0), (x1 - bend, y0), (x1, y0 + bend), (x1, y0 + radius)),
        ((x1, y0 + radius), (x1, y1 - radius), (x1, y1 - bend), (x1 - bend, y1), (x1 - radius, y1)),
        ((x1 - radius, y1), (x0 + radius, y1), (x0 + bend, y1), (x0, y1 - bend), (x0, y1 - radius)),
        ((x0, y1 - radius), (x0, y0 + radius), (x0, y0 + bend), (x0 + bend, y0), (x0 + radius, y0)),
    ]
    points = [corners[0][0]]
    codes = [Path.MOVETO]
    for _, straight, first, second, end in corners:
        points += [straight, first, second, end]
        codes += [Path.LINETO, Path.CURVE4, Path.CURVE4, Path.CURVE4]
    return Path([*points, points[0]], [*codes, Path.CLOSEPOLY])


def _figure(page: Page) -> Figure:
    """Figure of the page's size that holds one artist."""
    from matplotlib.artist import Artist
    from matplotlib.figure import Figure

    class Marks(Artist):  # type: ignore[misc]
        """Everything on the page."""

        def draw(self, renderer: Any) -> None:  # noqa: ANN401
            _Player(renderer, page).play()

    size = (page.width_mm / _MM_PER_INCH, page.height_mm / _MM_PER_INCH)
    figure = Figure(figsize=size, facecolor="white", edgecolor="white")
    figure.add_artist(Marks())
    return figure


@contextmanager
def _plain_settings() -> Iterator[None]:
    """Draw with the settings of the library itself and ours, whatever a person has set for it."""
    import matplotlib as mpl

    usual = {key: value for key, value in mpl.rcParamsDefault.items() if key not in _NOT_DRAWN}
    with mpl.rc_context({**usual, **_SETTINGS}):
        yield


def pages_to_pdf(pages: Sequence[Page], *, title: str) -> bytes:
    """Print pages as one PDF: vector, fonts embedded, no dates.

    Parameters
    ----------
    pages : sequence of Page
    title : str
        For the document's properties.

    Returns
    -------
    bytes
    """
    from matplotlib.backends.backend_pdf import PdfPages

    stream = io.BytesIO()
    about = {"Title": title, "Creator": "Leafweft", "Producer": None, "CreationDate": None}
    with _plain_settings(), PdfPages(stream, metadata=about) as pdf:
        for page in pages:
            pdf.savefig(_figure(page))
    return stream.getvalue()


def page_to_png(page: Page, *, dpi: float = 200.0) -> bytes:
    """Draw one page as a PNG that prints at its true size.

    Parameters
    ----------
    page : Page
    dpi : float
        Pixels per inch.

    Returns
    -------
    bytes
    """
    stream = io.BytesIO()
    with _plain_settings():
        about = {"Software": None}
        _figure(page).savefig(stream, format="png", dpi=dpi, metadata=about)
    return stream.getvalue()


def page_to_svg(page: Page, *, title: str) -> bytes:
    """Draw one page as an SVG without dates, texts as outlines.

    Parameters
    ----------
    page : Page
    title : str

    Returns
    -------
    bytes
    """
    stream = io.BytesIO()
    about = {"Title": title, "Date": None, "Creator": "Leafweft"}
    with _plain_settings():
        _figure(page).savefig(stream, format="svg", metadata=about)
    return stream.getvalue()
