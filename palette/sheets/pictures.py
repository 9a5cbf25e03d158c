"""Pictures of palette and stripes: PNG at true size, and SVG for drawing programs."""

from __future__ import annotations

import io
import math
from typing import Literal
from xml.etree import ElementTree as ET

from palette.errors import InputError
from palette.measures import MM_PER_CM, MM_PER_INCH
from palette.stripes.plan import StripePlan
from palette.swatches.palette import Palette

__all__ = ["palette_css", "palette_svg", "pixels_png", "stripes_png", "stripes_svg"]

_SVG = "http://www.w3.org/2000/svg"
_CONTROL = dict.fromkeys([*range(0x20), 0x7F, 0xFFFE, 0xFFFF])
_MOST_PX = 12_000
_COMPRESSION = 4  # threads hardly compress: 6 takes three times as long for a file 6 % smaller


def pixels_png(pixels: object, *, dpi: float = 100.0) -> bytes:
    """Pack 8-bit RGB pixels as a PNG that prints at its true size.

    Parameters
    ----------
    pixels : ndarray of uint8, shape (rows, columns, 3)
    dpi : float
        Pixels per inch of the printed picture.

    Returns
    -------
    bytes
    """
    import numpy as np
    from PIL import Image

    stream = io.BytesIO()
    image = Image.fromarray(np.ascontiguousarray(pixels, dtype=np.uint8))
    image.save(stream, format="PNG", dpi=(dpi, dpi), compress_level=_COMPRESSION)
    return stream.getvalue()


def stripes_png(
    cloth: StripePlan, *, width_mm: float, dpi: float = 100.0, first_pick: str = "bottom"
) -> bytes:
    """Draw the stripes of a cloth in finished size, in the colours of the yarn.

    Parameters
    ----------
    cloth : StripePlan
    width_mm : float
        Finished width.
    dpi : float
        Pixels per inch; lowered where the cloth would come out over 12 000 pixels long.
    first_pick : {"bottom", "top"}
        Where the first pick lies: at the bottom, as on the loom.

    Returns
    -------
    bytes
        PNG of few colours, with its resolution, so that it prints at true size.

    Raises
    ------
    InputError
        If the width is not more than 0.
    """
    import numpy as np
    from PIL import Image

    if not width_mm > 0:
        raise InputError("cloth width", "must be more than 0", got=f"{width_mm} mm")
    length_mm = cloth.true_finished_length_mm
    dpi = min(dpi, _MOST_PX * MM_PER_INCH / max(length_mm, width_mm))
    rows = max(1, round(length_mm / MM_PER_INCH * dpi))
    columns = max(1, round(width_mm / MM_PER_INCH * dpi))
    hexes = tuple(dict.fromkeys(stripe.hex for stripe in cloth.stripes))
    ends = np.array([stripe.last_pick for stripe in cloth.stripes])
    picks = (np.arange(rows) + 0.5) * cloth.total_picks / rows
    stripe_of_row = np.searchsorted(ends, picks)
    place = np.array([hexes.index(stripe.hex) for stripe in cloth.stripes])
    lines = place[stripe_of_row][:: -1 if first_pick == "bottom" else 1]
    stream = io.BytesIO()
    if len(hexes) <= 256:
        image = Image.fromarray(np.repeat(lines[:, None], columns, axis=1).astype(np.uint8), "P")
        image.putpalette(b"".join(bytes.fromhex(code[1:]) for code in hexes))
    else:
        colours = np.array([list(bytes.fromhex(code[1:])) for code in hexes], np.uint8)
        image = Image.fromarray(np.repeat(colours[lines][:, None], columns, axis=1))
    image.save(stream, format="PNG", dpi=(dpi, dpi), optimize=False)
    return stream.getvalue()


def _svg(width_mm: float, height_mm: float, title: str) -> ET.Element:
    root = ET.Element(
        "svg",
        {
            "xmlns": _SVG,
            "width": f"{_short(width_mm)}mm",
            "height": f"{_short(height_mm)}mm",
            "viewBox": f"0 0 {_short(width_mm)} {_short(height_mm)}",
            "role": "img",
        },
    )
    ET.SubElement(root, "title").text = _plain(title)
    return root


def _plain(text: str) -> str:
    """Text without the characters that XML 1.0 cannot carry."""
    return text.translate(_CONTROL)


def _short(value: float) -> str:
    """Millimetres to a thousandth, without needless zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _bytes(root: ET.Element) -> bytes:
    ET.indent(root)
    text = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()


def stripes_svg(cloth: StripePlan, *, width_mm: float, title: str = "Stripes") -> bytes:
    """Draw the stripes in finished millimetres as SVG, the first pick at the bottom.

    Each stripe is a rectangle of its own whose title tells its number, colour and picks.

    Parameters
    ----------
    cloth : StripePlan
    width_mm : float
        Finished width.
    title : str

    Returns
    -------
    bytes
    """
    if not width_mm > 0:
        raise InputError("cloth width", "must be more than 0", got=f"{width_mm} mm")
    length = cloth.true_finished_length_mm
    per_pick = MM_PER_CM / cloth.picks_per_cm * (1 - cloth.shrinkage_length)
    root = _svg(width_mm, length, title)
    for number, stripe in enumerate(cloth.stripes, start=1):
        attributes = {
            "y": _short(length - stripe.last_pick * per_pick),
            "width": _short(width_mm),
            "height": _short(stripe.picks * per_pick),
            "fill": stripe.hex,
        }
        rectangle = ET.SubElement(root, "rect", attributes)
        picks = f"picks {stripe.first_pick} to {stripe.last_pick}"
        ET.SubElement(rectangle, "title").text = _plain(f"{number}: {stripe.colour}, {picks}")
    return _bytes(root)


def palette_svg(
    palette: Palette,
    *,
    width_mm: float = 160.0,
    height_mm: float = 40.0,
    title: str = "Palette",
    by: Literal["share", "equal"] = "share",
) -> bytes:
    """Draw a palette as one bar of swatches, each as wide as its share, as SVG.

    Parameters
    ----------
    palette : Palette
    width_mm, height_mm : float
    title : str
    by : {"share", "equal"}
        Width of the swatches.

    Returns
    -------
    bytes
    """
    root = _svg(width_mm, height_mm, title)
    shares = [swatch.share for swatch in palette.swatches]
    if by == "equal":
        shares = [1 / len(shares)] * len(shares)
    for index, swatch in enumerate(palette.swatches):
        before = math.fsum(shares[:index])
        attributes = {
            "x": _short(before * width_mm),
            "width": _short(shares[index] * width_mm),
            "height": _short(height_mm),
            "fill": swatch.hex,
        }
        rectangle = ET.SubElement(root, "rect", attributes)
        words = f"{index + 1}: {swatch.name}, {100 * swatch.share:.1f} %, {swatch.hex}"
        ET.SubElement(rectangle, "title").text = _plain(words)
    return _bytes(root)


def palette_css(palette: Palette) -> bytes:
    """Write a palette as CSS custom properties, for web pages and drawing programs.

    Parameters
    ----------
    palette : Palette

    Returns
    -------
    bytes
        One ``:root`` rule: ``--weft-1-moss-green: #5d733a;`` and the share beside it.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> print(palette_css(Palette(swatches=(moss,))).decode())
    :root {
      --weft-1-moss: #5d733a;
      --weft-1-moss-share: 100%;
    }
    <BLANKLINE>
    """
    lines = []
    for number, swatch in enumerate(palette.swatches, start=1):
        letters = [c if c.isalnum() and c.isascii() else "-" for c in swatch.name.lower()]
        word = "-".join(part for part in "".join(letters).split("-") if part)
        key = f"--weft-{number}-{word}" if word else f"--weft-{number}"
        lines += [f"  {key}: {swatch.hex};", f"  {key}-share: {_short(100 * swatch.share)}%;"]
    return ("\n".join([":root {", *lines, "}"]) + "\n").encode()
