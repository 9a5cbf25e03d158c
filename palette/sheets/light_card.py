"""A photograph before and after its light was corrected, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from palette.errors import InputError
from palette.sheets.page import Page
from palette.sheets.press import page_to_png
from palette.sheets.style import CAPTION, HEADING, INK, QUIET

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["light_card", "light_card_png"]

_PICTURE_WIDE = 92.0
_MOST_HIGH = 130.0
_PAD = 9.0
_MARK_MM = 3.0


def light_card(
    before: NDArray[np.uint8],
    after: NDArray[np.uint8],
    *,
    how: str = "",
    neutral: tuple[float, float] | None = None,
) -> Page:
    """Draw a photograph before and after.

    Parameters
    ----------
    before, after : ndarray of uint8, shape (rows, columns, 3)
        The same picture.
    how : str
        What was done, in a few words.
    neutral : tuple of 2 float, optional
        The point taken as grey, (across, down) in [0, 1]; ringed in both.

    Returns
    -------
    Page

    Raises
    ------
    InputError
        If the two pictures are not of one size.
    """
    if before.shape != after.shape:
        rule = "must have the size of the picture before"
        raise InputError("picture after", rule, got=f"{after.shape[1]} x {after.shape[0]}")
    rows, columns = before.shape[:2]
    factor = min(_PICTURE_WIDE / columns, _MOST_HIGH / rows)
    width, high = columns * factor, rows * factor
    page = Page(width_mm=2 * width + 5 + 2 * _PAD, height_mm=high + 2 * _PAD + 17)
    page.text(_PAD, _PAD + 5, "Light", HEADING)
    room = page.width_mm - 2 * _PAD - 22
    page.text(page.width_mm - _PAD, _PAD + 5, how, CAPTION, ink=QUIET, align="right", room_mm=room)
    top = _PAD + 10
    for x, pixels, words in (
        (_PAD, before, "as photographed"),
        (_PAD + width + 5, after, "corrected"),
    ):
        page.picture(x, top, width, high, pixels)
        page.text(x, top + high + 5, words, CAPTION)
        if neutral is not None:
            _ring(page, x + neutral[0] * width, top + neutral[1] * high)
    return page


def _ring(page: Page, x: float, y: float) -> None:
    """Mark a point so that it shows on light and on dark."""
    half = _MARK_MM / 2
    for ink, line in (("#ffffff", 0.8), (INK, 0.3)):
        page.box(
            x - half, y - half, _MARK_MM, _MARK_MM, edge=ink, line_mm=line, round_mm=half * 0.999
        )


def light_card_png(
    before: NDArray[np.uint8],
    after: NDArray[np.uint8],
    *,
    how: str = "",
    neutral: tuple[float, float] | None = None,
    dpi: float = 150.0,
) -> bytes:
    """Draw the light card as PNG; takes what `light_card` takes."""
    return page_to_png(light_card(before, after, how=how, neutral=neutral), dpi=dpi)
