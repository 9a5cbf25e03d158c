"""Page 1 of the sheet: name, photograph, palette, the cloth to scale, key figures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from palette.measures import format_density, format_length, format_mass, format_yarn_length
from palette.plans.plan import Plan
from palette.sheets.cloth_drawing import draw_cloths, drawing_width_mm
from palette.sheets.contrast import legible
from palette.sheets.fonts import clean, width_mm, wrapped
from palette.sheets.legend import LegendEntry, legend
from palette.sheets.page import Page
from palette.sheets.style import (
    BODY,
    BOLD,
    CAPTION,
    FAINT,
    FIGURE,
    HAIR,
    HEADING,
    HEADING_LARGE,
    INK,
    LEDE,
    QUIET,
    SMALL,
    TITLE,
    WARN,
    Paper,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["draw_swatch", "key_figures", "overview_page", "plan_lede"]

_GUTTER = 9.0
_LEAST_DRAWING = 40.0
_MOST_DRAWING = 84.0


def plan_lede(plan: Plan) -> str:
    """One line that says what the plan is."""
    wefts = len({(stripe.colour, stripe.hex) for cloth in plan.cloths for stripe in cloth.stripes})
    stripes = sum(len(cloth.stripes) for cloth in plan.cloths)
    cloths = "one cloth" if len(plan.cloths) == 1 else f"{len(plan.cloths)} cloths on one warp"
    colours = "1 weft colour" if wefts == 1 else f"{wefts} weft colours"
    runs = "1 stripe" if stripes == 1 else f"{stripes} stripes"
    return f"{cloths}, {plan.draft.name}, {colours} in {runs}"


def key_figures(plan: Plan) -> list[tuple[str, str]]:
    """List the figures that a weaver asks for first, as (value, what it is)."""
    warp, units = plan.warp, plan.units
    first = plan.cloths[0]
    width = format_length(warp.finished_width_mm, units)
    lengths = {round(cloth.true_finished_length_mm, 3) for cloth in plan.cloths}
    long = format_length(first.true_finished_length_mm, units)
    size = f"{width.rsplit(' ', 1)[0]} × {long}" if len(lengths) == 1 else width
    weft = [yarn for yarn in plan.yarns if yarn.use == "weft"]
    warps = [yarn for yarn in plan.yarns if yarn.use == "warp"]
    picks = sum(cloth.total_picks for cloth in plan.cloths)
    beats = {round(cloth.picks_per_cm, 6) for cloth in plan.cloths}
    beat = format_density(first.picks_per_cm, units) if len(beats) == 1 else "see each cloth"
    woven = format_length(math.fsum(cloth.woven_length_mm for cloth in plan.cloths), units)
    return [
        (size, "finished size" if len(lengths) == 1 else "finished width"),
        (woven, "to weave, tension slackened"),
        (f"{picks:,}".replace(",", "\u00a0"), f"picks, at {beat}"),
        (f"{warp.ends}", f"ends, at {format_density(warp.ends_per_cm, units)}"),
        (format_length(warp.width_in_reed_mm, units), "width in the reed"),
        (format_length(warp.length_mm, units), "warp to wind"),
        (_yarn_total(plan, weft), "weft yarn to have"),
        (_yarn_total(plan, warps), "warp yarn to have"),
    ]


def _yarn_total(plan: Plan, yarns: list) -> str:  # type: ignore[type-arg]
    metres = math.fsum(yarn.length_m for yarn in yarns)
    grams = math.fsum(yarn.mass_g for yarn in yarns)
    return f"{format_yarn_length(metres, plan.units)}, {format_mass(grams, plan.units)}"


def draw_swatch(
    page: Page, entry: LegendEntry, x: float, y: float, width: float, height: float
) -> None:
    """Draw a colour with its number on it."""
    page.box(x, y, width, height, fill=entry.hex, edge=INK, line_mm=0.12)
    ink = legible(entry.hex)
    page.text(x + width / 2, y + height / 2 + 1.1, f"{entry.number}", BOLD, ink=ink, align="centre")


def overview_page(
    plan: Plan,
    paper: Paper,
    *,
    photo: NDArray[np.uint8] | None = None,
    cloth_pictures: Sequence[NDArray[np.uint8]] = (),
) -> tuple[Page, tuple[str, ...]]:
    """Draw page 1, and give back the notes that it had no room for.

    Parameters
    ----------
    plan : Plan
    paper : Paper
    photo : ndarray of uint8, shape (rows, columns, 3), optional
    cloth_pictures : sequence of ndarray of uint8, shape (rows, columns, 3)
        One for each cloth, or none.

    Returns
    -------
    tuple of (Page, tuple of str)
    """
    page = Page(width_mm=paper.width_mm, height_mm=paper.height_mm)
    left, top = paper.margin_mm, paper.margin_mm
    _title(page, plan.name, left, top + 8, paper.inner_width_mm)
    page.text(left, top + 15, plan_lede(plan), LEDE, ink=QUIET, room_mm=paper.inner_width_mm)
    band = paper.bottom_mm - 30
    body, high = top + 22, band - 10 - (top + 22)
    right = drawing_width_mm(plan, height=high, most=_MOST_DRAWING, pictures=bool(cloth_pictures))
    width = paper.inner_width_mm - max(right, _LEAST_DRAWING) - _GUTTER
    x = left + width + _GUTTER
    room = paper.right_mm - x
    draw_cloths(page, plan, x=x, y=body, width=room, height=high, pictures=cloth_pictures)
    below = body
    if photo is not None:
        below = _photo(page, photo, left, body, width, high * 0.45) + 5
    below = _palette(page, plan, left, below, width, body + high - below)
    told = _look_at(page, plan, left, below + 6, width, body + high - below - 6)
    _figures(page, plan, paper, band)
    return page, plan.warnings[told:]


def _title(page: Page, name: str, x: float, y: float, width: float) -> None:
    """Set the name large; a long one smaller, then on two lines."""
    style = next(
        (s for s in (TITLE, HEADING_LARGE, HEADING) if width_mm(name, s) <= width), HEADING
    )
    lines = wrapped(clean(name), style, width, most=2)
    for number, line in enumerate(reversed(lines)):
        page.text(x, y - 6.2 * number, line, style, room_mm=width)


def _photo(
    page: Page, photo: NDArray[np.uint8], x: float, y: float, width: float, height: float
) -> float:
    """Place the photograph; give back where it ends."""
    rows, columns = photo.shape[:2]
    factor = min(width / columns, height / rows)
    page.picture(x, y, columns * factor, rows * factor, photo)
    return float(y + rows * factor)


def _palette(page: Page, plan: Plan, x: float, y: float, width: float, height: float) -> float:
    """Draw the shares as a bar and list the colours; give back where the list ends."""
    entries = legend(plan)
    total = sum(cloth.total_picks for cloth in plan.cloths)
    at, edges = x, []
    for entry in entries:
        part = width * sum(entry.picks) / total
        page.box(at, y, part, 9, fill=entry.hex)
        if part >= 4:
            ink = legible(entry.hex)
            page.text(at + part / 2, y + 5.6, f"{entry.number}", BOLD, ink=ink, align="centre")
        at += part
        edges.append(((at, y), (at, y + 9)))
    page.line(*edges[:-1], ink="#ffffff", line_mm=0.3)
    page.box(x, y, width, 9, edge=INK, line_mm=0.15)
    page.text(x + width - 15, y + 14, "asked", SMALL, ink=QUIET, align="right")
    page.text(x + width, y + 14, "woven", SMALL, ink=QUIET, align="right")
    top = y + 15
    pitch = min(8.0, (height - 17) / len(entries))
    for entry in entries:
        base = top + pitch / 2 + 1.1
        draw_swatch(page, entry, x, top + 0.5, 14, pitch - 1)
        page.text(x + 17, base, entry.name, BODY, room_mm=width - 17 - 36)
        wanted = [part for part in entry.wanted if part is not None]
        asked = f"{100 * sum(wanted) / len(plan.cloths):.1f} %" if wanted else ""
        page.text(x + width - 15, base, asked, BODY, ink=QUIET, align="right")
        woven = f"{100 * sum(entry.picks) / total:.1f} %"
        page.text(x + width, base, woven, BOLD, align="right")
        top += pitch
        page.rule(x, top, width, ink=HAIR, line_mm=0.08)
    return top


def _look_at(page: Page, plan: Plan, x: float, y: float, width: float, height: float) -> int:
    """Put the warnings on the first page, as far as there is room; give back how many were."""
    if not plan.warnings or height < 9:
        return 0
    page.text(x, y + 2, "Before you begin", CAPTION, ink=WARN)
    at, most = y + 7, y + height
    for number, warning in enumerate(plan.warnings):
        lines = wrapped(warning, BODY, width)
        more = len(plan.warnings) - number
        if at + 4.2 * len(lines) > most - (4.2 if more > 1 else 0):
            words = f"and {more} more, in the notes" if number else _all_in_the_notes(more)
            page.text(x, at, words, CAPTION, ink=WARN, room_mm=width)
            return number
        for line in lines:
            page.text(x, at, line, BODY)
            at += 4.2
        at += 1.2
    return len(plan.warnings)


def _all_in_the_notes(count: int) -> str:
    """Point to the notes where this page has room for none of them."""
    return "read the note at the end" if count == 1 else f"read the {count} notes at the end"


def _figures(page: Page, plan: Plan, paper: Paper, y: float) -> None:
    """Set the key figures in two rows of four."""
    left, width = paper.margin_mm, paper.inner_width_mm
    page.box(left, y - 3, width, 31, fill=FAINT)
    column = (width - 8) / 4
    for index, (value, label) in enumerate(key_figures(plan)):
        x = left + 4 + column * (index % 4)
        base = y + 5 + 14 * (index // 4)
        page.text(x, base, value, FIGURE, room_mm=column - 3)
        page.text(x, base + 4, label, SMALL, ink=QUIET, room_mm=column - 3)
    page.rule(left, y - 3, width, ink=HAIR)
