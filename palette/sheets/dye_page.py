"""The dye page: what goes into which pot, beside the cautions."""

from __future__ import annotations

from collections.abc import Sequence

from palette.dyeing.dye_day import Bath, DyeDay, DyeLot, MordantBath
from palette.measures import Units, format_mass
from palette.plans.plan import Plan
from palette.sheets.dye_words import DYE_GUIDE, measured, volume
from palette.sheets.fonts import width_mm, wrapped
from palette.sheets.grid import Column, Flow, grid_head, grid_row
from palette.sheets.legend import legend
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.style import BOLD, HAIR, INK, NOTE, QUIET, SMALL, STRONG, WARN

__all__ = ["draw_dye_day"]

_HEADING = "Dye day"
_GUTTER_MM, _LEAD_MM = 7.0, 3.35
_LOT_MM, _LINE_MM, _WEIGH_MM = 5.6, 4.2, 4.4


def draw_dye_day(flow: Flow, plan: Plan, day: DyeDay) -> None:
    """Draw the cautions, the lots, what to weigh, the baths and the notes.

    Parameters
    ----------
    flow : Flow
    plan : Plan
    day : DyeDay
    """
    flow.begin(_HEADING, aside="yarn is weighed dry, in whole skeins")
    flow.y -= 4
    _sentences(flow, "Take care", [each.text for each in day.cautions], ink=WARN)
    _lots(flow, plan, day)
    _weigh(flow, day)
    _baths(flow, day)
    _sentences(flow, "Notes", _notes(day), ink=INK)


def _title(flow: Flow, words: str, *, room: float, aside: str = "") -> None:
    """Set a small heading, on a new page where what follows has no room."""
    if flow.y + 8 + room > flow.paper.bottom_mm:
        flow.begin(f"{_HEADING}, continued")
    flow.page.text(flow.paper.margin_mm, flow.y + 5, words, STRONG)
    if aside:
        right = flow.paper.right_mm
        flow.page.text(right, flow.y + 5, aside, SMALL, ink=QUIET, align="right", room_mm=130)
    flow.y += 7


def _sentences(flow: Flow, words: str, texts: Sequence[str], *, ink: str) -> None:
    """Set sentences in two columns, as even as they come; what has no room begins a page."""
    width = (flow.paper.inner_width_mm - _GUTTER_MM) / 2
    rest = [wrapped(text, SMALL, width - 4) for text in texts]
    while rest:
        _title(flow, words, room=6 * _LEAD_MM)
        room = (flow.paper.bottom_mm - flow.y) / _LEAD_MM
        count = len(rest)
        while count > 1 and max(map(_depth, _halves(rest[:count]))) > room:
            count -= 1
        top = flow.y
        columns = _halves(rest[:count])
        for place, column in enumerate(columns):
            flow.y = top
            _column(flow, column, flow.paper.margin_mm + place * (width + _GUTTER_MM), ink)
        flow.y = top + max(map(_depth, columns)) * _LEAD_MM + 1
        rest = rest[count:]
        if rest:
            flow.begin(f"{_HEADING}, continued")


def _column(flow: Flow, column: Sequence[Sequence[str]], x: float, ink: str) -> None:
    for lines in column:
        flow.page.rule(x, flow.y + 1.6, 2, ink=ink, line_mm=0.35)
        for line in lines:
            flow.page.text(x + 4, flow.y + 2.5, line, SMALL)
            flow.y += _LEAD_MM
        flow.y += _LEAD_MM * 0.3


def _halves(sentences: Sequence[list[str]]) -> tuple[Sequence[list[str]], Sequence[list[str]]]:
    """Split in two columns so that the longer one is as short as it can be."""
    cuts = range(1, len(sentences) + 1)
    cut = min(cuts, key=lambda at: max(_depth(sentences[:at]), _depth(sentences[at:])))
    return sentences[:cut], sentences[cut:]


def _depth(column: Sequence[Sequence[str]]) -> float:
    return sum(len(lines) + 0.3 for lines in column)


def _chip(flow: Flow, plan: Plan, lot: DyeLot, y: float, height: float) -> None:
    """Show a lot's colour, with its number where the palette has one."""
    x = flow.paper.margin_mm
    for entry in legend(plan):
        if (entry.name, entry.hex) == (lot.colour, lot.hex):
            draw_swatch(flow.page, entry, x, y + 0.6, 9, height - 1.2)
            return
    flow.page.box(x, y + 0.6, 9, height - 1.2, fill=lot.hex, edge=INK, line_mm=0.12)


def _lots(flow: Flow, plan: Plan, day: DyeDay) -> None:
    fixed = [
        Column(head="colour", width_mm=12),
        Column(head="", width_mm=32, type=BOLD),
        Column(head="needed", width_mm=18, align="right", type=NOTE),
        Column(head="to dye, dry", width_mm=26, align="right", type=BOLD),
        Column(head="skeins", width_mm=28, type=NOTE),
        Column(head="depth of shade", width_mm=31, type=NOTE),
    ]
    rest = flow.paper.inner_width_mm - sum(column.width_mm for column in fixed)
    fibres = {lot.fibre.text for lot in day.lots}
    alike = fibres.pop() if len(fibres) == 1 else ""
    columns = [
        *fixed,
        Column(head="baths" if alike else "fibre; baths", width_mm=rest, type=NOTE, ink=QUIET),
    ]
    _title(flow, "Yarn", room=10 + _LOT_MM, aside=alike)

    def draw(page: Page, row: int, y: float) -> None:
        lot = day.lots[row]
        asked = "" if lot.depth_asked else ", suggested"
        cells = [
            "",
            lot.colour,
            format_mass(lot.needed_g, plan.units),
            _dry(lot.dry_g, plan.units),
            " + ".join(f"{each.skeins} of {measured(each.skein_g)} g" for each in lot.skeins),
            f"{measured(lot.depth_percent)} %{asked}",
            ("" if alike else f"{lot.fibre.text}; ") + ", ".join(map(str, lot.baths)),
        ]
        grid_row(page, columns, cells, flow.paper.margin_mm, y, _LOT_MM)
        _chip(flow, plan, lot, y, _LOT_MM)

    flow.rows(columns, len(day.lots), draw, height=_LOT_MM, heading=_HEADING)
    flow.y += 1


def _dry(grams: float, units: Units) -> str:
    """Grams are what dyes are weighed by; ounces beside them where the plan is in inches."""
    text = f"{grams:.0f} g"
    return text if units is Units.METRIC else f"{text}, {format_mass(grams, units)}"


def _weigh(flow: Flow, day: DyeDay) -> None:
    """Set what the whole day needs in two columns: each thing, its amount, its stock."""
    things = [
        (dye, f"{measured(grams)} g", volume(stock) if stock else "")
        for dye, grams, stock in day.dyes_to_weigh
    ]
    things += [
        (_named(each.name, each.strength), f"{measured(each.amount)} {each.unit}", "")
        for each in day.totals
    ]
    strength = f"{day.asked.stock_percent:g}"
    stocked = any(stock for _, _, stock in things)
    aside = f"stock of {strength} %: {strength} g of dye in 100 ml" if stocked else ""
    rows = (len(things) + 1) // 2
    _title(flow, "To weigh for the whole day", room=rows * _WEIGH_MM, aside=aside)
    width = (flow.paper.inner_width_mm - _GUTTER_MM) / 2
    for index, (name, amount, stock) in enumerate(things):
        column, row = divmod(index, rows)
        x = flow.paper.margin_mm + column * (width + _GUTTER_MM)
        y = flow.y + row * _WEIGH_MM
        flow.page.text(x, y + 3, name, NOTE, room_mm=width - 40)
        flow.page.text(x + width - 20, y + 3, amount, BOLD, align="right", room_mm=18)
        flow.page.text(x + width, y + 3, stock, NOTE, align="right", room_mm=18)
        flow.page.rule(x, y + _WEIGH_MM, width, ink=HAIR, line_mm=0.1)
    flow.y += rows * _WEIGH_MM + 1


def _named(name: str, strength: str) -> str:
    return f"{name} ({strength})" if strength else name


def _bath_columns(flow: Flow) -> list[Column]:
    fixed = [
        Column(head="filling", width_mm=12, type=NOTE),
        Column(head="pot", width_mm=11, type=NOTE),
        Column(head="bath", width_mm=9, type=BOLD),
        Column(head="yarn, dry", width_mm=17, align="right", type=NOTE),
        Column(head="dye", width_mm=31, type=NOTE),
        Column(head="", width_mm=17, align="right", type=BOLD),
        Column(head="stock", width_mm=15, align="right", type=NOTE),
        Column(head="water", width_mm=14, align="right", type=NOTE),
        Column(head="fills", width_mm=13, align="right", type=NOTE),
    ]
    rest = flow.paper.inner_width_mm - sum(column.width_mm for column in fixed)
    return [*fixed[:3], Column(head="colour", width_mm=rest, type=BOLD), *fixed[3:]]


def _baths(flow: Flow, day: DyeDay) -> None:
    columns, x = _bath_columns(flow), flow.paper.margin_mm
    _title(flow, "Baths, in the order of the fillings", room=10 + 3 * _LINE_MM)
    flow.y = grid_head(flow.page, columns, x, flow.y + 3)
    fillings = [
        (each.round, 0, each.number, _mordant_lines(each), _mordant_words(each))
        for each in day.mordant_baths
    ]
    fillings += [
        (each.round, 1, each.number, _bath_lines(each), _beside(day, each)) for each in day.baths
    ]
    room = flow.paper.right_mm - x - sum(column.width_mm for column in columns[:3])
    for *_, lines, words in sorted(fillings, key=lambda each: each[:3]):
        under = wrapped(words, NOTE, room) if words else []
        height = _LINE_MM * (len(lines) + len(under)) + 0.8
        if flow.y + height > flow.paper.bottom_mm:
            flow.begin("Baths, continued")
            flow.y = grid_head(flow.page, columns, x, flow.y + 3)
        _draw_bath(flow, columns, lines, under)


def _draw_bath(
    flow: Flow, columns: Sequence[Column], lines: Sequence[Sequence[str]], under: Sequence[str]
) -> None:
    """Draw a bath: a line for each dye, then what else goes in, then one rule."""
    left = flow.paper.margin_mm
    for cells in lines:
        at = left
        for column, cell in zip(columns, cells, strict=True):
            room = column.width_mm - 2
            flow.page.text(
                column.place(at), flow.y + 3.3, cell, column.type, align=column.align, room_mm=room
            )
            at += column.width_mm
        flow.y += _LINE_MM
    start = left + sum(column.width_mm for column in columns[:3])
    narrow = columns[3].width_mm + 15
    beside = len(lines) > 1 and len(under) == 1 and width_mm(under[0], NOTE) < narrow
    flow.y -= _LINE_MM if beside else 0
    for words in under:
        flow.page.text(start, flow.y + 3.1, words, NOTE, ink=QUIET)
        flow.y += _LINE_MM
    flow.y += 0.8
    flow.page.rule(left, flow.y, flow.paper.inner_width_mm, ink=HAIR, line_mm=0.1)


def _beside(day: DyeDay, bath: Bath) -> str:
    """Class of the dye on mixed yarn, and what else goes in."""
    lot = next(lot for lot in day.lots if bath.number in lot.baths)
    kind = f"{bath.dye_class} dye" if lot.fibre.mixed and bath.dye_class != "natural" else ""
    things = ", ".join(
        f"{_named(each.name, each.strength)} {measured(each.amount)} {each.unit}"
        for each in bath.assistants
    )
    return ", ".join(part for part in (kind, f"with {things}" if things else "") if part)


def _bath_lines(bath: Bath) -> list[list[str]]:
    """One line for each dye; the bath itself stands on the first."""
    front = [
        f"{bath.round}",
        f"{measured(bath.pot_ml / 1000)} l",
        f"{bath.number}",
        bath.colour,
        f"{bath.dry_g:.0f} g",
    ]
    back = [volume(bath.water_ml), volume(bath.volume_ml)]
    what = "dyestuff" if bath.dye_class == "natural" else "dye"
    dyes = [(part.dye, part.percent, part.dye_g or 0.0, part.stock_ml) for part in bath.dyes]
    lines: list[list[str]] = []
    for dye, percent, grams, stock in dyes or [
        (what, bath.depth_percent, bath.dye_g, bath.stock_ml)
    ]:
        middle = [f"{dye} {measured(percent)} %", f"{measured(grams)} g"]
        middle.append(volume(stock) if stock else "")
        lines.append([*front, *middle, *back] if not lines else [*[""] * 5, *middle, *[""] * 2])
    return lines


def _mordant_lines(bath: MordantBath) -> list[list[str]]:
    """One line: a mordant bath has no dye, and is all water to begin with."""
    front = [f"{bath.round}", f"{measured(bath.pot_ml / 1000)} l", f"M{bath.number}", "mordant"]
    size = volume(bath.volume_ml)
    return [[*front, f"{bath.dry_g:.0f} g", "", "", "", size, size]]


def _mordant_words(bath: MordantBath) -> str:
    things = ", ".join(
        f"{each.name} {measured(each.amount)} {each.unit}" for each in bath.assistants
    )
    return f"with {things}; skeins of {', '.join(bath.colours)}"


def _notes(day: DyeDay) -> list[str]:
    """Heat, warnings, what is not dyed, and the guide."""
    notes: list[str] = []
    kinds = {"acid": "Acid dye", "reactive": "Fibre-reactive dye", "natural": "Natural dye"}
    notes += dict.fromkeys(f"{kinds[bath.dye_class]}: {bath.heat}" for bath in day.baths)
    notes += day.warnings
    if day.undyed:
        notes.append(f"Not dyed: {', '.join(day.undyed)}.")
    return [*notes, DYE_GUIDE]
