"""The check half way as the command prints it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.measures import Units
    from palette.yarn.check import Check

__all__ = ["lasting_table"]


def lasting_table(check: Check, units: Units) -> str:
    """Set out what each colour has and needs, then the rest of the stripes where it changed."""
    from palette.measures import format_density, format_length, format_mass

    rows = [
        (
            colour.colour,
            format_mass(colour.left_g, units),
            format_mass(colour.needed_g, units),
            "yes"
            if colour.runs_out_at_mm is None
            else f"no: out at {format_length(colour.runs_out_at_mm, units)}",
        )
        for colour in check.colours
    ]
    text = (
        f"{check.picks_woven} picks woven at {format_density(check.picks_per_cm, units)} "
        f"(planned {format_density(check.planned_picks_per_cm, units)}), "
        f"{sum(stripe.picks for stripe in check.rest_as_planned)} to go.\n\n"
        + table(
            ("colour", "left", "still needed", "lasts"),
            rows,
            hexes=[colour.hex for colour in check.colours],
        )
    )
    if check.rest == check.rest_as_planned:
        return text
    stripes = [
        (stripe.colour, str(stripe.picks), f"{stripe.first_pick}-{stripe.last_pick}")
        for stripe in check.rest
    ]
    return (
        f"{text}\n\nThe rest, in balance with the yarn there is; the cloth comes to "
        f"{format_length(check.woven_length_mm, units)} on the loom:\n"
        + table(("colour", "picks", "from-to"), stripes, hexes=[each.hex for each in check.rest])
    )
