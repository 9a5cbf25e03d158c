"""The page of amounts: the yarn to have ready, the warp to wind, what to look at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from palette.loom.chains import chains
from palette.loom.treadling import lifts_in
from palette.measures import (
    format_density,
    format_length,
    format_mass,
    format_share,
    format_yarn_length,
)
from palette.plans.loom_words import (
    ends_words,
    heddle_words,
    reed_width_words,
    reed_words,
    selvedge_words,
    weave_words,
)
from palette.plans.plan import Plan
from palette.plans.skeins import skein_words
from palette.plans.spinning import spinning_rows
from palette.sheets.between import sampling_words
from palette.sheets.fonts import wrapped
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import legend, number_of
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.style import BODY, BOLD, INK, NOTE, QUIET, WARN

__all__ = ["GUIDE", "draw_amounts", "draw_notes", "spinning_lines", "warp_lines", "warp_order"]

_ROW_MM = 7.0
_LINE_MM = 6.0
_YARN = "Yarn to have ready"
GUIDE = (
    "Every colour here is a guide: a camera is no measuring instrument, and a screen is not yarn. "
    "Weave a sample before you dye or wind for the whole cloth."
)
"""What every sheet says about its colours."""


def warp_lines(plan: Plan) -> list[tuple[str, str]]:
    """List the warp's figures as (what it is, value)."""
    warp, units = plan.warp, plan.units
    lines = [
        ("Ends", ends_words(plan)),
        ("Sett", format_density(warp.ends_per_cm, units)),
        ("Width in the reed", reed_width_words(plan)),
        ("Width on the loom", format_length(warp.woven_width_mm, units)),
        ("Finished width", format_length(warp.finished_width_mm, units)),
        ("Warp to wind", format_length(warp.length_mm, units)),
        ("Draw-in", format_share(warp.draw_in)),
        ("Shrinkage in width", format_share(warp.shrinkage_width)),
        ("Warp take-up", format_share(warp.take_up)),
        ("Fringe at each end", format_length(warp.fringe_mm, units)),
        ("Loom waste", format_length(warp.loom_waste_mm, units)),
    ]
    if len(plan.cloths) > 1:
        lines.append(("Gap between cloths", format_length(warp.gap_mm, units)))
    if warp.sampling_mm:
        lines.append(("For sampling", format_length(warp.sampling_mm, units)))
    return lines + dressing_lines(plan)


def dressing_lines(plan: Plan) -> list[tuple[str, str]]:
    """List how the loom is dressed as (what it is, value): reed, heddles, edges, treadles."""
    treadles = lifts_in(plan.cloths, plan.draft)
    lines = [
        ("Reed and sley", reed_words(plan)),
        ("Heddles by shaft", heddle_words(plan)),
        ("Selvedge", selvedge_words(plan)),
        ("Treadling", weave_words(plan)),
        ("Lifts by treadle", ", ".join(f"{t.number}: {t.lifts}" for t in treadles if t.lifts)),
    ]
    return [line for line in lines if line[1]]


def warp_order(plan: Plan) -> list[str]:
    """Say how a striped warp lies, and the chains to wind; nothing for a warp of one colour."""
    if not plan.warp_stripes:
        return []
    order = ", ".join(f"{run.ends} {run.colour}" for run in plan.warp_stripes)
    wound = Counter((c.colour, c.ends) for c in chains(plan.warp_stripes, plan.warp))
    words = [
        f"{colour} {count} × {ends} ends" if count > 1 else f"{colour} {ends} ends"
        for (colour, ends), count in wound.items()
    ]
    return [f"Ends from the right: {order}.", f"Chains to wind: {', '.join(words)}."]


def spinning_lines(plan: Plan) -> list[str]:
    """Say what singles to spin of each yarn; nothing where no bobbin was named."""
    return [
        f"{colour}, {use}: one single of {length}, {mass}; bobbins to fill: {bobbins}."
        if count == "1"
        else f"{colour}, {use}: {count} singles of {length}, {mass} each; "
        f"bobbins to fill: {bobbins}."
        for colour, use, count, length, mass, bobbins in spinning_rows(plan)
    ]


def draw_amounts(flow: Flow, plan: Plan, notes: Sequence[str]) -> None:
    """Draw the yarn and warp tables and the notes, on the page at hand where they fit.

    Parameters
    ----------
    flow : Flow
    plan : Plan
    notes : sequence of str
        Those that have not been told on a page before.
    """
    needed = 40 + _ROW_MM * len(plan.yarns)
    aside = "allowance included, rounded up"
    if flow.pages and flow.y + needed <= flow.paper.bottom_mm:
        flow.heading(_YARN, room=needed, aside=aside)
    else:
        flow.begin(_YARN, aside=aside)
    _yarn(flow, plan)
    draw_notes(flow, "For sampling", list(filter(None, [sampling_words(plan)])))
    draw_notes(flow, "To spin", spinning_lines(plan))
    _warp(flow, plan)
    draw_notes(flow, "Warp stripes", warp_order(plan))
    draw_notes(flow, "Notes", [*notes, GUIDE], ink=WARN if notes else INK)


def _yarn(flow: Flow, plan: Plan) -> None:
    paper = flow.paper
    fixed = [
        Column(head="colour", width_mm=16),
        Column(head="", width_mm=44, type=BOLD),
        Column(head="use", width_mm=14),
        Column(head="picks", width_mm=17, align="right"),
        Column(head="length", width_mm=22, align="right"),
        Column(head="mass", width_mm=20, align="right", type=BOLD),
    ]
    skeins = skein_words(plan)
    if skeins:
        fixed.append(Column(head="whole skeins", width_mm=28, align="right", type=BOLD))
    rest = paper.inner_width_mm - sum(column.width_mm for column in fixed)
    columns = [*fixed, Column(head="yarn", width_mm=rest, ink=QUIET)]
    entries = legend(plan)
    numbers = number_of(entries)

    def draw(page: Page, row: int, y: float) -> None:
        yarn = plan.yarns[row]
        cells = [
            "",
            yarn.colour,
            yarn.use,
            f"{yarn.picks}" if yarn.use == "weft" else "",
            format_yarn_length(yarn.length_m, plan.units),
            format_mass(yarn.mass_g, plan.units),
            *skeins[row : row + 1],
            yarn.count,
        ]
        grid_row(page, columns, cells, paper.margin_mm, y, _ROW_MM)
        number = numbers.get((yarn.colour, yarn.hex))
        if number is None:
            page.box(paper.margin_mm, y + 1, 13, _ROW_MM - 2, fill=yarn.hex, edge=INK, line_mm=0.12)
        else:
            draw_swatch(page, entries[number - 1], paper.margin_mm, y + 1, 13, _ROW_MM - 2)

    flow.rows(columns, len(plan.yarns), draw, height=_ROW_MM, heading=_YARN)


def _warp(flow: Flow, plan: Plan) -> None:
    wide = dressing_lines(plan)
    lines = warp_lines(plan)[: -len(wide)]
    flow.heading("Warp", room=14 + _LINE_MM * (len(lines) // 2 + 1 + len(wide)))
    left, inner = flow.paper.margin_mm, flow.paper.inner_width_mm
    per_column = (len(lines) + 1) // 2
    columns = [Column(head="", width_mm=46, ink=QUIET), Column(head="", width_mm=inner / 2 - 52)]
    for index, cells in enumerate(lines):
        x = left + inner / 2 * (index // per_column)
        y = flow.y + _LINE_MM * (index % per_column)
        grid_row(flow.page, columns, cells, x, y, _LINE_MM)
    flow.y += _LINE_MM * per_column
    columns = [Column(head="", width_mm=46, ink=QUIET), Column(head="", width_mm=inner - 52)]
    for cells in wide:
        grid_row(flow.page, columns, cells, left, flow.y, _LINE_MM)
        flow.y += _LINE_MM


def draw_notes(
    flow: Flow, heading: str, notes: Sequence[str], *, ink: str = INK, dense: bool = False
) -> None:
    """Set notes as a list of sentences, flowing over pages.

    Parameters
    ----------
    flow : Flow
    heading : str
        Before the first; "" for none.
    notes : sequence of str
    ink : str
        Of the dashes.
    dense : bool
        Whether to set them smaller, for cautions that belong beside the figures.
    """
    if not notes:
        return
    style, lead = (NOTE, 3.9) if dense else (BODY, 4.4)
    left, width = flow.paper.margin_mm, flow.paper.inner_width_mm
    if heading:
        flow.heading(heading, room=34)
    for text in notes:
        lines = wrapped(text, style, width - 6)
        if flow.y + lead * len(lines) > flow.paper.bottom_mm:
            flow.begin(f"{heading or 'Notes'}, continued")
        flow.page.rule(left + 0.5, flow.y + 2, 2.4, ink=ink, line_mm=0.35)
        for line in lines:
            flow.page.text(left + 5, flow.y + 3, line, style)
            flow.y += lead
        flow.y += lead * 0.3
