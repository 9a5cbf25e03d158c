"""The dye page: what goes into which pot, beside the cautions."""

from __future__ import annotations

from palette.dyeing.dye_day import DyeDay, DyeLot
from palette.measures import Units, format_mass
from palette.plans.plan import Plan
from palette.sheets.amounts_page import draw_notes
from palette.sheets.dye_words import bath_words, dye_notes, measured
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import legend
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.style import BODY, BOLD, INK, QUIET, SMALL, WARN

__all__ = ["draw_dye_day"]

_HEADING = "Dye day"


def draw_dye_day(flow: Flow, plan: Plan, day: DyeDay) -> None:
    """Draw the lots, the baths, the totals and the cautions.

    Parameters
    ----------
    flow : Flow
    plan : Plan
    day : DyeDay
    """
    flow.begin(_HEADING, aside="dry weights, whole skeins")
    _cautions(flow, day)
    _lots(flow, plan, day)
    _baths(flow, day)
    draw_notes(flow, "Notes for the dye day", dye_notes(day))


def _cautions(flow: Flow, day: DyeDay) -> None:
    draw_notes(flow, "Cautions first", [each.text for each in day.cautions], ink=WARN, dense=True)


def _chip(flow: Flow, plan: Plan, lot: DyeLot, y: float, height: float) -> None:
    """Show a lot's colour, with its number where the palette has one."""
    x = flow.paper.margin_mm
    for entry in legend(plan):
        if (entry.name, entry.hex) == (lot.colour, lot.hex):
            draw_swatch(flow.page, entry, x, y + 1, 12, height - 2)
            return
    flow.page.box(x, y + 1, 12, height - 2, fill=lot.hex, edge=INK, line_mm=0.12)


def _lots(flow: Flow, plan: Plan, day: DyeDay) -> None:
    if not day.lots:
        return
    fixed = [
        Column(head="colour", width_mm=15),
        Column(head="", width_mm=40, type=BOLD),
        Column(head="needed", width_mm=18, align="right"),
        Column(head="to dye, dry", width_mm=21, align="right", type=BOLD),
        Column(head="skeins", width_mm=15, align="right"),
        Column(head="depth of shade", width_mm=38),
    ]
    rest = flow.paper.inner_width_mm - sum(column.width_mm for column in fixed)
    columns = [*fixed, Column(head="baths", width_mm=rest, type=BODY, ink=QUIET)]
    flow.heading("Lots", room=30)

    def draw(page: Page, row: int, y: float) -> None:
        lot = day.lots[row]
        asked = "" if lot.depth_asked else ", a suggestion"
        cells = [
            "",
            f"{lot.colour}, {lot.fibre.text}",
            format_mass(lot.needed_g, plan.units),
            _dry(lot.dry_g, plan.units),
            f"{sum(each.skeins for each in lot.skeins)}",
            f"{measured(lot.depth_percent)} %{asked}",
            ", ".join(map(str, lot.baths)),
        ]
        grid_row(page, columns, cells, flow.paper.margin_mm, y, 8)
        _chip(flow, plan, lot, y, 8)

    flow.rows(columns, len(day.lots), draw, height=8, heading=_HEADING)


def _dry(grams: float, units: Units) -> str:
    """Grams are what dyes are weighed by; ounces beside them where the plan is in inches."""
    text = f"{grams:.0f} g"
    return text if units is Units.METRIC else f"{text}, {format_mass(grams, units)}"


def _baths(flow: Flow, day: DyeDay) -> None:
    fixed = [
        Column(head="bath", width_mm=11, type=BOLD),
        Column(head="colour", width_mm=32),
        Column(head="yarn, dry", width_mm=17, align="right"),
        Column(head="dye", width_mm=15, align="right", type=BOLD),
        Column(head="stock", width_mm=17, align="right"),
        Column(head="water", width_mm=16, align="right"),
        Column(head="bath", width_mm=16, align="right"),
    ]
    rest = flow.paper.inner_width_mm - sum(column.width_mm for column in fixed)
    columns = [*fixed, Column(head="with", width_mm=rest, type=SMALL)]
    flow.heading("Baths", room=30)

    baths = bath_words(day)

    def draw(page: Page, row: int, y: float) -> None:
        bath = baths[row]
        cells = [
            bath.number,
            bath.colour,
            bath.dry,
            bath.dye,
            bath.stock,
            bath.water,
            bath.volume,
            bath.things,
        ]
        grid_row(page, columns, cells, flow.paper.margin_mm, y, 8)

    flow.rows(columns, len(baths), draw, height=8, heading=_HEADING)
