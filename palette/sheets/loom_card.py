"""The loom card: one index card that says how to dress the loom and begin."""

from __future__ import annotations

from palette.loom.draft import Draft
from palette.loom.heddles import heddles_per_shaft, lifts_per_treadle
from palette.loom.sley import Sley, nearest_reeds
from palette.measures import format_density, format_length, parse_density
from palette.plans.plan import Plan
from palette.sheets.fonts import wrapped
from palette.sheets.grid import Column, Flow, grid_row
from palette.sheets.legend import legend, number_of, stripe_key
from palette.sheets.overview import draw_swatch
from palette.sheets.page import Page
from palette.sheets.press import pages_to_pdf
from palette.sheets.style import BODY, BOLD, CAPTION, HAIR, HEADING, INK, QUIET, SMALL, TINY

__all__ = ["CARD_MM", "draw_loom_card", "loom_card_on_sheet", "loom_card_pdf", "plan_sley"]

CARD_MM = (152.4, 101.6)
"""An index card, 6 by 4 inches."""
_PAD = 7.0
_ROW = 4.9
_FIRST_STRIPES = 8
_CELL = 3.6
_MOST_GRID = 12


def plan_sley(plan: Plan) -> Sley | None:
    """Sley order of the plan, or in the best of the reeds that its brief names; else None."""
    if plan.sley is not None:
        return plan.sley
    asked = dict(plan.asked).get("reed")
    if not asked:
        return None
    texts = asked if isinstance(asked, tuple) else (str(asked),)
    reeds = [parse_density(text, thing="reed").per_cm for text in texts]
    return nearest_reeds(plan.warp.ends_per_cm, reeds)[0]


def card_lines(plan: Plan) -> list[tuple[str, str]]:
    """List what the card says about the warp, as (what it is, value)."""
    warp, units = plan.warp, plan.units
    doubled = f", {warp.doubled_ends} of them doubled" if warp.doubled_ends else ""
    needed = heddles_per_shaft(plan.draft, warp.working_ends)
    heddles = ", ".join(f"{shaft}: {count}" for shaft, count in enumerate(needed, start=1))
    beats = {format_density(cloth.picks_per_cm, units) for cloth in plan.cloths}
    picks = " + ".join(str(cloth.total_picks) for cloth in plan.cloths[:6])
    order = plan_sley(plan)
    lines = [
        ("Warp to wind", format_length(warp.length_mm, units)),
        ("Ends", f"{warp.ends}{doubled}"),
        ("Width in the reed", format_length(warp.width_in_reed_mm, units)),
        ("Sett", format_density(warp.ends_per_cm, units)),
    ]
    if order:
        reed = format_density(order.dents_per_cm, units)
        lines.append(("Reed and sley", f"{reed}, {order.text} to a dent"))
    return [
        *lines,
        ("Heddles by shaft", heddles),
        ("Picks", f"{picks}{' + ...' if len(plan.cloths) > 6 else ''}"),
        ("Beat", ", ".join(sorted(beats))),
        ("To weave", _to_weave(plan)),
    ]


def _to_weave(plan: Plan) -> str:
    lengths = [format_length(cloth.woven_length_mm, plan.units) for cloth in plan.cloths]
    if len(set(lengths)) == 1:
        return lengths[0] if len(lengths) == 1 else f"{len(lengths)} × {lengths[0]}"
    return ", ".join(lengths)


def draw_loom_card(page: Page, plan: Plan, x: float, y: float) -> None:
    """Draw the card with its top left corner at (x, y).

    Parameters
    ----------
    page : Page
    plan : Plan
    x, y : float
        Millimetres on the page.
    """
    width, height = CARD_MM
    left, right = x + _PAD, x + width - _PAD
    page.text(left, y + _PAD + 4.5, plan.name, HEADING, room_mm=width - 2 * _PAD - 46)
    draft = plan.draft.name
    page.text(right, y + _PAD + 4.5, draft, CAPTION, ink=QUIET, align="right", room_mm=44)
    page.rule(left, y + _PAD + 7.5, width - 2 * _PAD, ink=INK, line_mm=0.3)
    columns = [
        Column(head="", width_mm=29, ink=QUIET, type=SMALL),
        Column(head="", width_mm=48, type=BODY),
    ]
    at = y + _PAD + 9
    for cells in card_lines(plan):
        grid_row(page, columns, cells, left, at, _ROW)
        at += _ROW
    _draft(page, plan, left + 83, y + _PAD + 9, right - left - 83)
    _first_stripes(page, plan, left, y + height - _PAD - 15, width - 2 * _PAD)


def _draft(page: Page, plan: Plan, x: float, y: float, width: float) -> None:
    """Draw tie-up, threading and treadling."""
    draft = plan.draft
    picks = sum(cloth.total_picks for cloth in plan.cloths)
    page.text(x, y + 2.8, "Tie-up: shafts that rise", SMALL, ink=QUIET)
    treadles = lifts_per_treadle(draft, picks)
    used = max(max(draft.treadling), 1)
    if draft.shafts <= _MOST_GRID and len(treadles) <= _MOST_GRID:
        below = _tie_up_grid(page, draft, x + 4, y + 5)
    else:
        below = y + 5
    lifts = ", ".join(f"{t.number}: {t.lifts}" for t in treadles[:used])
    for label, words in (
        ("Threading from the right, shaft 1 in front", _run(draft.threading)),
        ("Treadling from the first pick", _run(draft.treadling)),
        ("Lifts by treadle", lifts),
    ):
        page.text(x, below + 3.4, label, SMALL, ink=QUIET)
        below += 3.6
        for line in wrapped(words, BODY, width, most=2):
            page.text(x, below + 3.4, line, BODY)
            below += 3.7
        below += 0.6


def _tie_up_grid(page: Page, draft: Draft, x: float, y: float) -> float:
    """Draw shafts upwards, treadles across; a filled cell lifts."""
    shafts, treadles = draft.shafts, len(draft.tie_up)
    cell = min(_CELL, 22 / max(shafts, treadles))
    for treadle, lifted in enumerate(draft.tie_up):
        for shaft in range(1, shafts + 1):
            top = y + (shafts - shaft) * cell
            fill = INK if shaft in lifted else "#ffffff"
            page.box(x + treadle * cell, top, cell, cell, fill=fill, edge=INK, line_mm=0.12)
        number = f"{treadle + 1}"
        middle = x + (treadle + 0.5) * cell
        page.text(middle, y + shafts * cell + 2.6, number, TINY, ink=QUIET, align="centre")
    for shaft in range(1, shafts + 1):
        base = y + (shafts - shaft + 0.5) * cell + 0.75
        page.text(x - 1, base, f"{shaft}", TINY, ink=QUIET, align="right")
    return y + shafts * cell + 3.2


def _run(numbers: tuple[int, ...]) -> str:
    """Write a repeat: ``1 2 3 4, repeated``."""
    return f"{' '.join(map(str, numbers))}, repeat"


def _first_stripes(page: Page, plan: Plan, x: float, y: float, width: float) -> None:
    """Show the first stripes: number and picks of each."""
    cloth = plan.cloths[0]
    entries = legend(plan)
    numbers = number_of(entries)
    page.text(x, y - 1.5, "First stripes: colour and picks", SMALL, ink=QUIET)
    step = width / _FIRST_STRIPES
    for index, stripe in enumerate(cloth.stripes[:_FIRST_STRIPES]):
        at = x + index * step
        draw_swatch(page, entries[numbers[stripe_key(stripe)] - 1], at, y, step - 2, 5.5)
        page.text(at, y + 9.3, f"{stripe.picks}", BOLD)
        for line, name in enumerate(wrapped(stripe.colour, TINY, step - 1.5, most=2)):
            page.text(at, y + 12.4 + 2.5 * line, name, TINY, ink=QUIET)


def loom_card_pdf(plan: Plan) -> bytes:
    """Print the loom card by itself, on a page of its size."""
    page = Page(width_mm=CARD_MM[0], height_mm=CARD_MM[1])
    draw_loom_card(page, plan, 0.0, 0.0)
    return pages_to_pdf([page], title=f"{plan.name}: loom card")


def loom_card_on_sheet(flow: Flow, plan: Plan) -> None:
    """Put the card on the sheet, with a line to cut along."""
    width, height = CARD_MM
    flow.heading("Loom card", room=height + 24, aside="cut out along the dashes")
    x, y = (flow.paper.width_mm - width) / 2, flow.y
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y))
    flow.page.line(corners, ink=HAIR, line_mm=0.25, dash_mm=(2.0, 1.5))
    draw_loom_card(flow.page, plan, x, y)
    flow.y += height
