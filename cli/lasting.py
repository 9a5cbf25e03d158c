"""The check half way as the command prints it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.measures import Units
    from palette.yarn.check import Check, ColourCheck

__all__ = ["lasting_table"]


def lasting_table(check: Check, units: Units) -> str:
    """Set out what each colour has and needs, then the rest of the stripes where it changed."""
    from palette.measures import format_density, format_length

    rows = [_row(colour, units) for colour in check.colours]
    heads: tuple[str, ...] = ("colour", "left", "still needed", "lasts", _guess_head(check))
    if not any(row[-1] for row in rows):
        heads, rows = heads[:-1], [row[:-1] for row in rows]
    text = (
        f"{check.picks_woven} picks woven at {format_density(check.picks_per_cm, units)} "
        f"(planned {format_density(check.planned_picks_per_cm, units)}), "
        f"{sum(stripe.picks for stripe in check.rest_as_planned)} to go.\n\n"
        + table(heads, rows, hexes=[colour.hex for colour in check.colours])
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


def _guess_head(check: Check) -> str:
    source = check.borrowed_from
    return f"at the use of {' and '.join(source) if len(source) <= 2 else 'those weighed'}"


def _row(colour: ColourCheck, units: Units) -> tuple[str, ...]:
    """One colour: what is left and how that is known, what is needed, and both answers."""
    from palette.yarn.check_notes import scale_mass

    known = "" if colour.weighed else ", not weighed" if colour.begun else ", not begun"
    answer = _answer(colour.runs_out_at_mm, units, lasts=colour.lasts)
    guess = colour.guess
    other = "" if guess is None else _answer(guess.runs_out_at_mm, units, lasts=guess.lasts)
    return (
        colour.colour,
        f"{scale_mass(colour.left_g, units)}{known}",
        scale_mass(colour.needed_g, units),
        answer if colour.own_use else f"{answer} (as planned)",
        other if guess is None else f"{other} ({scale_mass(guess.needed_g, units)} needed)",
    )


def _answer(runs_out_at_mm: float | None, units: Units, *, lasts: bool) -> str:
    from palette.measures import format_length

    if runs_out_at_mm is not None:
        return f"no: out at {format_length(runs_out_at_mm, units)}"
    return "yes" if lasts else "no: short for the cloths after this one"
