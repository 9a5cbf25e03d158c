"""Blends and recipes as the command ``blend`` prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import block, table

if TYPE_CHECKING:
    from palette.dyeing.blend import BlendPlan
    from palette.dyeing.recipe import RecipePlan

__all__ = ["blend_table", "recipe_table"]


def blend_table(plan: BlendPlan) -> str:
    """Set out the parts of the best blend, its colour, and what fewer or more parts would give."""
    rows = [
        (part.name, f"{part.share:.1%}", "" if part.mass_g is None else f"{part.mass_g:g} g")
        for part in plan.best.parts
    ]
    text = table(("fleece", "share", "mass"), rows, hexes=[part.hex for part in plan.best.parts])
    others = ", ".join(f"{len(each.parts)}: {each.difference:.1f}" for each in plan.by_parts)
    return f"{text}\n\n{_colours(plan, plan.best.hex, plan.best.difference)}\nBy parts: {others}."


def recipe_table(plan: RecipePlan) -> str:
    """Set out the dyes of the best recipe, its colour, and the nearest sample."""
    rows = [
        (
            part.dye,
            f"{part.percent:.2f} %",
            "" if part.dye_g is None else f"{part.dye_g:.2f} g",
            "" if part.stock_ml is None else f"{part.stock_ml:.0f} ml",
        )
        for part in plan.best.parts
    ]
    heads = ("dye", "of dry weight", "dye", "1 % stock")
    return (
        f"{table(heads, rows)}\n\n{_colours(plan, plan.best.hex, plan.best.difference)}\n"
        f"Nearest sample: {plan.nearest_sample}, CIEDE2000 {plan.nearest_sample_difference:.1f}."
    )


def _colours(plan: BlendPlan | RecipePlan, made_hex: str, difference: float) -> str:
    return (
        f"Wanted {block(plan.target_hex)}{plan.target_hex}, predicted {block(made_hex)}{made_hex}: "
        f"CIEDE2000 {difference:.1f}, typical error {plan.typical_error:.1f}."
    )
