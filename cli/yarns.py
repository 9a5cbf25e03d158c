"""Yarn amounts as the commands print them: whole skeins, a closer beat, the shelf, the fleece."""

from __future__ import annotations

import math
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from cli.output import table
from palette.measures import (
    CM_PER_INCH,
    Units,
    format_mass,
    format_share,
    format_yarn_length,
)

if TYPE_CHECKING:
    from palette.plans.plan import Plan

__all__ = ["bobbin_table", "cost_line", "fleece_table", "shelf_table", "yarn_table"]


def yarn_table(plan: Plan) -> str:
    """Set out the yarn to have ready, and the mass that one pick more to the cm or inch takes."""
    from palette.plans.skeins import skein_words
    from palette.sheets.between import sampling_words
    from palette.yarn.drift import beat_drift

    imperial = plan.units is Units.IMPERIAL
    step = 1 / CM_PER_INCH if imperial else 1.0
    drift = {each.colour: each for each in beat_drift(plan.cloths, plan.yarns, more_per_cm=step)}
    skeins = skein_words(plan) or ("",) * len(plan.yarns)
    rows: list[tuple[str, ...]] = [
        (
            yarn.colour,
            yarn.use,
            yarn.count,
            str(yarn.picks) if yarn.picks else "",
            format_yarn_length(yarn.length_m, plan.units),
            format_mass(yarn.mass_g, plan.units),
            skeins[number],
            format_mass(drift[yarn.colour].extra_mass_g, plan.units) if yarn.use == "weft" else "",
        )
        for number, yarn in enumerate(plan.yarns)
    ]
    closer = f"+1 pick/{'in' if imperial else 'cm'}"
    heads: tuple[str, ...] = (
        *("yarn", "use", "count", "picks", "length", "mass"),
        *("whole skeins", closer),
    )
    if not any(skeins):
        heads = heads[:6] + heads[7:]
        rows = [row[:6] + row[7:] for row in rows]
    text = table(heads, rows, hexes=[yarn.hex for yarn in plan.yarns])
    sampling = sampling_words(plan)
    return f"{text}\n{textwrap.fill(sampling, 100)}" if sampling else text


def bobbin_table(plan: Plan) -> str:
    """Set out the singles to spin and the bobbins to fill; empty where no bobbin was named."""
    from palette.plans.spinning import spinning_rows

    rows = spinning_rows(plan)
    if not rows:
        return ""
    heads = ("to spin", "use", "singles", "each", "mass of each", "bobbins")
    size = dict(plan.asked)["bobbin"]
    note = (
        f"A bobbin takes {size}; allowance included, as in the yarn above. Singles are longer than "
        'the yarn where its count says what plying takes up: "Nm 2/8, contraction 5%".'
    )
    return f"{table(heads, rows)}\n{note}"


def cost_line(plan: Plan, price: str) -> str:
    """Say what all the yarn costs at one price, in whatever money it was typed in.

    Whole skeins are paid for where the plan has them, else the masses as the table shows them.
    """
    from palette.measures import parse_mass
    from palette.plans.skeins import skeins_of
    from palette.yarn.cost import parse_price

    skeins = skeins_of(plan)
    bought = skeins or plan.yarns
    shown = (parse_mass(format_mass(each.mass_g, plan.units), zero=True) for each in bought)
    whole = math.fsum(mass.g for mass in shown)
    cost = parse_price(price, thing="--price").of(whole)
    words = "All yarn together, in whole skeins" if skeins else "All yarn together"
    return f"{words}: {format_mass(whole, plan.units)}, {cost:.2f} at {price}."


def shelf_table(plan: Plan, path: Path) -> str:
    """Set out what is on the shelf, what is needed, and what is left or short."""
    from palette.plans.stocking import lines_of
    from palette.swatches.shelf import read_shelf

    def held(grams: float) -> str:
        return "any" if math.isinf(grams) else format_mass(grams, plan.units, held=True)

    rows = []
    for line in lines_of(plan, read_shelf(path)):
        left = line.held_g - line.needed_g
        state = f"{held(left)} left" if left >= 0 else f"{format_mass(-left, plan.units)} short"
        needed = format_mass(line.needed_g, plan.units)
        rows.append((line.colour, held(line.held_g), needed, state))
    return table(("yarn", "on the shelf", "needed", ""), rows)


def fleece_table(plan: Plan, kind: str) -> str:
    """Set out the raw fleece for handspun yarn, with the losses that were reckoned."""
    from cli.naming import options_named
    from palette.yarn.fleece import CARDING_LOSS, SPINNING_LOSS, fleece_needed, yield_of

    with options_named({"fleece": "--fleece"}):
        found = yield_of(kind)
    rows = []
    for yarn in plan.yarns:
        need = fleece_needed(yarn.mass_g, clean_yield=found.low)
        masses = (yarn.mass_g, need.clean_g, need.raw_g)
        rows.append((yarn.colour, yarn.use, *(format_mass(each, plan.units) for each in masses)))
    clean, carded, spun = (
        format_share(share, decimals=0)
        for share in (found.low, CARDING_LOSS.high, SPINNING_LOSS.high)
    )
    note = (
        f"Clean yield {clean} ({found.label}), carding loss {carded} and spinning loss {spun} "
        f"({CARDING_LOSS.label}): the careful ends of the ranges. "
        "Raw fleece can carry germs: gloves, and wash your hands."
    )
    heads = ("yarn", "use", "as yarn", "clean fleece", "raw fleece")
    return f"{table(heads, rows)}\n{note}"
