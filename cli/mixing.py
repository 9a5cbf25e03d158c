"""Blends and recipes as the command ``blend`` reads and prints them."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING

from cli.naming import refused
from cli.output import block, table, warn

if TYPE_CHECKING:
    from palette.dyeing.blend import BlendPlan
    from palette.dyeing.recipe import RecipePlan

__all__ = [
    "BLEND_OPTIONS",
    "blend_table",
    "grams_asked",
    "most_parts",
    "photo_words",
    "recipe_table",
    "wanted_colour",
]

BLEND_OPTIONS = {"batch": "--batch", "goods": "--batch", "step": "--step", "shelf": "--from"}
"""Options by the words with which the library's refusals of a blend begin."""

_MOST_PARTS = 4
_COUNTS = {1: "one", 2: "two", 3: "three", 4: "four"}


def wanted_colour(text: str, palette: Path | None) -> tuple[float, float, float]:
    """Read the colour that is wanted: as typed, or by its name in a palette or plan file."""
    from palette.perception.colour_text import parse_colour
    from palette.plans.loading import load_palette

    if palette is None:
        return parse_colour(text, thing="COLOUR")
    swatches = load_palette(palette).swatches
    for swatch in swatches:
        if swatch.name == text.strip():
            return swatch.lab
    names = ", ".join(swatch.name for swatch in swatches)
    rule = f"must be one of {palette.name}"
    raise refused("COLOUR", rule, got=repr(text), remedy=f"It has: {names}.")


def most_parts(text: str) -> int:
    """Read the number of fleeces or dyes; raises InputError."""
    if text not in map(str, range(1, _MOST_PARTS + 1)):
        rule = f"must be a whole number from 1 to {_MOST_PARTS}"
        raise refused("--parts", rule, got=repr(text))
    return int(text)


def grams_asked(batch: str | None, step: str | None, *, fleece: bool) -> tuple[float | None, float]:
    """Read the batch and what the scales can weigh, in grams.

    Ounces of fleece go up to what the scales can weigh, and a note says so; InputError where
    something cannot be read.
    """
    from palette.measures import Units, parse_mass

    if step is not None and (batch is None or not fleece):
        raise refused("--step", "must go with --from and --batch", got=repr(step))
    step_g = 1.0 if step is None else parse_mass(step, thing="--step").g
    if batch is None:
        return None, step_g
    asked = parse_mass(batch, thing="--batch")
    if asked.units is Units.METRIC or not fleece:
        return asked.g, step_g
    batch_g = math.ceil(round(asked.g / step_g, 6)) * step_g
    warn([f"{asked.text} is {asked.g:.1f} g; a batch of {batch_g:g} g is reckoned."])
    return batch_g, step_g


def photo_words(palette: Path | None) -> tuple[str, ...]:
    """Say how well a colour of a palette is known, and that the typical error has it."""
    from palette.dyeing.blend import CAMERA_ERROR_CIEDE2000

    if palette is None:
        return ()
    return (
        f"The colour is from a photograph, known to about CIEDE2000 {CAMERA_ERROR_CIEDE2000:g} "
        "(common practice); the typical error holds that too.",
    )


def blend_table(plan: BlendPlan) -> str:
    """Set out the parts of the best blend, its colour, and what fewer or more parts would give."""
    best = plan.best
    weighed = best.batch_g is not None
    heads = ("fleece", "share", "mass") if weighed else ("fleece", "share")
    rows = [
        (part.name, f"{part.share * 100:.1f} %", f"{part.mass_g or 0:g} g")[: len(heads)]
        for part in best.parts
    ]
    text = table(heads, rows, hexes=[part.hex for part in best.parts])
    total = f"\nBatch {best.batch_g:g} g." if weighed else ""
    others = [(len(each.parts), each.difference) for each in plan.by_parts]
    return f"{text}{total}\n\n{_colours(plan)}\n{_by_number('fleece', others)}"


def recipe_table(plan: RecipePlan) -> str:
    """Set out the dyes of the best recipe, its colour, and how well her samples are predicted."""
    parts = [_dyes(plan), f"{_colours(plan)}\n{_nearest(plan)}", _left_out(plan)]
    return "\n\n".join(parts)


def _dyes(plan: RecipePlan) -> str:
    from palette.dyeing.defaults import STOCK_PERCENT

    if not plan.best.parts:
        return "No dye: nothing in these dyes comes nearer than the undyed yarn."
    heads = ["dye", "of dry yarn", "to weigh", f"as {STOCK_PERCENT.value:g} % stock"]
    rows = [
        [
            part.dye,
            f"{part.percent:.2f} %",
            "" if part.dye_g is None else f"{part.dye_g:.2f} g",
            "" if part.stock_ml is None else f"{part.stock_ml:.0f} ml",
        ]
        for part in plan.best.parts
    ]
    if plan.best.parts[0].dye_g is None:
        heads, rows = heads[:2], [row[:2] for row in rows]
    return table(heads, rows)


def _nearest(plan: RecipePlan) -> str:
    others = [(len(each.parts), each.difference) for each in plan.by_dyes]
    return (
        f"{_by_number('dye', others)}\n"
        f"Nearest of your samples: {plan.nearest_sample}, "
        f"CIEDE2000 {plan.nearest_sample_difference:.1f}."
    )


def _left_out(plan: RecipePlan) -> str:
    """How far each sample is off when it is predicted from all the others."""
    rows = [(name, f"{error:.1f}") for name, error in plan.sample_errors]
    worst = max(error for _, error in plan.sample_errors)
    mean = math.fsum(error for _, error in plan.sample_errors) / len(plan.sample_errors)
    return (
        "Each of your samples, predicted from the others\n"
        + table(("sample", "off by CIEDE2000"), rows)
        + f"\nMean {mean:.1f}, worst {worst:.1f}."
    )


def _by_number(what: str, others: list[tuple[int, float]]) -> str:
    said = [
        f"{_COUNTS.get(number, 'no')} {what}{'' if number == 1 else 's'} {difference:.1f}"
        for number, difference in others
    ]
    return f"CIEDE2000 with {', with '.join(said)}."


def _colours(plan: BlendPlan | RecipePlan) -> str:
    wanted, made = plan.target_hex, plan.best.hex
    return (
        f"Wanted {block(wanted)}{wanted}, predicted {block(made)}{made}: "
        f"CIEDE2000 {plan.best.difference:.1f}, typical error {plan.typical_error:.1f}."
    )
