"""The cloths of a plan drawn to scale, in weaving order from below, along a ruler."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from palette.measures import MM_PER_CM, MM_PER_INCH, Units
from palette.plans.plan import Plan
from palette.sheets.fonts import wrapped
from palette.sheets.legend import cloth_title, legend, number_of, stripe_key
from palette.sheets.page import Page
from palette.sheets.style import CAPTION, HAIR, INK, QUIET, SMALL, TINY

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["draw_cloths", "drawing_width_mm"]

_RULER_ROOM_MM = 13.0
_NUMBER_ROOM_MM = 5.0
_NUMBER_PITCH_MM = 2.3
_BETWEEN_MM = 7.0
_FRINGE_THREADS = 24
_FOOT_MM = 9.0
_CAPTION_MM = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layout:
    """How the cloths are laid out.

    `factor` is paper millimetres for each millimetre of finished cloth, `where` the place of the
    woven picture, `foot` the room for words below, `used` the height of the drawing above them.
    """

    factor: float
    where: Literal["none", "beside", "above"]
    foot: float
    used: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    """Scale and place of the cloths on the page."""

    factor: float
    cloth_x: float
    width: float


def _sides(columns: int) -> float:
    """Room beside the cloth: ruler, stripe numbers, the gap before the picture."""
    return _RULER_ROOM_MM + _NUMBER_ROOM_MM + (columns - 1) * 3


def _layouts(plan: Plan, width: float, height: float, pictures: bool) -> list[_Layout]:
    """Every way to lay the cloths out in this room."""
    across = plan.warp.finished_width_mm
    lengths = [cloth.true_finished_length_mm for cloth in plan.cloths]
    total = math.fsum(lengths) + 2 * plan.warp.fringe_mm * len(lengths)
    gaps = _BETWEEN_MM * (len(lengths) - 1)
    found = []

    def add(where: Literal["none", "beside", "above"], foot: float, total: float) -> float:
        columns = 2 if where == "beside" else 1
        extra = gaps + (_FOOT_MM if where == "above" else 0)
        room = height - foot - extra
        factor = min(room / total, (width - _sides(columns)) / across / columns)
        used = factor * total + extra
        found.append(_Layout(factor=factor, where=where, foot=foot, used=used))
        return factor * plan.warp.fringe_mm

    if not pictures:
        add("none", _FOOT_MM, total)
        return found
    if add("beside", _FOOT_MM, total) < _CAPTION_MM:  # no fringe beside which to set the words
        found.clear()
        add("beside", _FOOT_MM + _CAPTION_MM, total)
    if len(lengths) == 1:
        add("above", _FOOT_MM, total + lengths[0])
    return found


def _layout(plan: Plan, width: float, height: float, pictures: bool) -> _Layout:
    """Choose the layout in which the cloth comes out largest."""
    return max(_layouts(plan, width, height, pictures), key=lambda layout: layout.factor)


def drawing_width_mm(plan: Plan, *, height: float, most: float, pictures: bool = False) -> float:
    """Width on paper that `draw_cloths` needs for a height, at most `most`."""
    layout = _layout(plan, most, height, pictures)
    columns = 2 if layout.where == "beside" else 1
    return min(most, columns * layout.factor * plan.warp.finished_width_mm + _sides(columns))


def draw_cloths(
    page: Page,
    plan: Plan,
    *,
    x: float,
    y: float,
    width: float,
    height: float,
    pictures: Sequence[NDArray[np.uint8]] = (),
) -> None:
    """Draw every cloth in finished size, the first pick at the bottom.

    Parameters
    ----------
    page : Page
    plan : Plan
    x, y, width, height : float
        Room on the page, mm.
    pictures : sequence of ndarray of uint8, shape (rows, columns, 3)
        Each cloth as it may look when woven, its first pick at the bottom, drawn beside it, or
        above where one wide cloth is alone; empty for none.
    """
    layout = _layout(plan, width, height, bool(pictures))
    factor = layout.factor
    columns = 2 if layout.where == "beside" else 1
    drawn = factor * plan.warp.finished_width_mm
    left = x + _RULER_ROOM_MM + max(width - _sides(columns) - columns * drawn, 0)
    scale = _Scale(factor=factor, cloth_x=left, width=drawn)
    fringe = plan.warp.fringe_mm * factor
    base = y + layout.used
    below = base
    for index, cloth in enumerate(plan.cloths):
        _cloth(page, plan, index, scale, below - fringe)
        if pictures:
            high = cloth.true_finished_length_mm * factor
            beside = layout.where == "beside"
            at = left + drawn + _NUMBER_ROOM_MM + 3 if beside else left
            top = below - fringe - high if beside else y
            _woven(page, pictures[index], at, top, drawn, high, words=index == 0)
        below -= cloth.true_finished_length_mm * factor + 2 * fringe + _BETWEEN_MM
    right, words = x + width, base + layout.foot
    note = f"finished size, 1 : {1 / factor:.3g}"
    page.text(right, words - 3.4, note, CAPTION, ink=QUIET, align="right")
    page.text(right, words, "first pick at the bottom", CAPTION, ink=QUIET, align="right")


def _woven(
    page: Page,
    picture: NDArray[np.uint8],
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    words: bool,
) -> None:
    """Place a woven picture, and the words under the lowest one."""
    page.picture(x, y, width, height, picture)
    page.box(x, y, width, height, edge=INK, line_mm=0.15)
    lines = wrapped("as it may look, a guide", CAPTION, width, most=2) if words else []
    for number, line in enumerate(lines):
        middle = x + width / 2
        page.text(middle, y + height + 4 + 3.6 * number, line, CAPTION, align="centre")


def _cloth(page: Page, plan: Plan, index: int, scale: _Scale, below: float) -> None:
    """Draw one cloth upwards from its first pick."""
    cloth = plan.cloths[index]
    numbers = number_of(legend(plan))
    per_pick = 10 / cloth.picks_per_cm * (1 - cloth.shrinkage_length) * scale.factor
    top = below - cloth.total_picks * per_pick
    _fringe(page, scale, top, below, plan.warp.fringe_mm * scale.factor)
    free = math.inf
    for stripe in cloth.stripes:
        high = stripe.picks * per_pick
        upper = below - stripe.last_pick * per_pick
        page.box(scale.cloth_x, upper, scale.width, high, fill=stripe.hex)
        middle = upper + high / 2
        if high >= 1.0 and free - middle >= _NUMBER_PITCH_MM:
            number = f"{numbers[stripe_key(stripe)]}"
            page.text(scale.cloth_x + scale.width + 1.2, middle + 0.75, number, TINY)
            free = middle
    page.box(scale.cloth_x, top, scale.width, below - top, edge=INK, line_mm=0.2)
    right = scale.cloth_x + scale.width
    edges = {round(below - stripe.last_pick * per_pick, 2) for stripe in cloth.stripes}
    page.line(*(((right, at), (right + 0.8, at)) for at in sorted(edges)), line_mm=0.1)
    _ruler(page, plan, scale, below, cloth.true_finished_length_mm)
    if len(plan.cloths) > 1:
        x = scale.cloth_x - _RULER_ROOM_MM + 2.5
        title = cloth_title(plan, index)
        page.text(x, (top + below) / 2, title, CAPTION, align="centre", angle=90)


def _fringe(page: Page, scale: _Scale, top: float, below: float, length: float) -> None:
    if length < 0.5:
        return
    step = scale.width / (_FRINGE_THREADS - 1)
    places = [scale.cloth_x + thread * step for thread in range(_FRINGE_THREADS)]
    page.line(
        *(((place, top), (place, top - length)) for place in places),
        *(((place, below), (place, below + length)) for place in places),
        ink=HAIR,
        line_mm=0.12,
    )


def _ruler(page: Page, plan: Plan, scale: _Scale, below: float, length: float) -> None:
    """Ticks up the left side, labelled as widely as they can be read."""
    unit = MM_PER_INCH if plan.units is Units.IMPERIAL else MM_PER_CM
    steps = (1, 2, 5, 10, 20, 50, 100) if plan.units is Units.METRIC else (1, 2, 4, 6, 12, 24, 36)
    small = next((s for s in steps if s * unit * scale.factor >= 1.6), steps[-1])
    large = next((s for s in steps if s % small == 0 and s * unit * scale.factor >= 7), steps[-1])
    x = scale.cloth_x - 1.5
    count = int(length / unit + 1e-6)
    ticks = []
    for value in range(0, count + 1, small):
        at = below - value * unit * scale.factor
        labelled = value % large == 0
        ticks.append(((x, at), (x - (2.2 if labelled else 1.1), at)))
        if labelled:
            page.text(x - 3, at + 0.75, f"{value}", TINY, ink=QUIET, align="right")
    page.line(*ticks, ((x, below), (x, below - length * scale.factor)), ink=QUIET, line_mm=0.15)
    name = "in" if plan.units is Units.IMPERIAL else "cm"
    page.text(x - 3, below - length * scale.factor - 1.6, name, SMALL, ink=QUIET, align="right")
