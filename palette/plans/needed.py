"""The colours that a palette or plan asks yarn for, and how much of each."""

from __future__ import annotations

from pathlib import Path

from palette.plans.json_text import kind_of
from palette.plans.loading import load_palette, load_plan, text_of
from palette.plans.plan import Plan
from palette.swatches.palette import Palette, Swatch

__all__ = ["colours_needed", "needed_of_plan"]


def colours_needed(path: Path) -> tuple[Palette, dict[str, float]]:
    """Read the colours of a palette file, or the wefts of a plan file with their grams.

    Parameters
    ----------
    path : Path
        Of a palette, a plan, or a plan's folder.

    Returns
    -------
    palette : Palette
    needed_g : dict of str to float
        Grams to have ready by colour; empty for a palette.

    Raises
    ------
    FileError, ContractError
        As `load_plan` does.
    """
    if kind_of(text_of(path), thing=str(path)) == "leafweft/plan":
        return needed_of_plan(load_plan(path))
    return load_palette(path), {}


def needed_of_plan(plan: Plan) -> tuple[Palette, dict[str, float]]:
    """Wefts of all the cloths of a plan as a palette, and the grams of each.

    Returns
    -------
    palette : Palette
        In the order of the first cloth's palette, then of the next ones; shares go by picks. A
        colour of a palette that is not woven is left out. That of the first cloth, whole, where no
        weft is reckoned.
    needed_g : dict of str to float
    """
    from palette.perception.spaces import hex_to_lab

    wefts = {yarn.colour: yarn for yarn in plan.yarns if yarn.use == "weft" and yarn.picks}
    if not wefts:
        return plan.palette, {}
    known: dict[str, Swatch] = {}
    for cloth in plan.cloths:
        for swatch in cloth.palette.swatches:
            yarn = wefts.get(swatch.name)
            if yarn is not None and yarn.hex == swatch.hex:
                known.setdefault(swatch.name, swatch)
    picks = sum(yarn.picks for yarn in wefts.values())
    swatches = tuple(
        Swatch(
            name=name,
            lab=known[name].lab if name in known else hex_to_lab(wefts[name].hex),
            hex=wefts[name].hex,
            share=wefts[name].picks / picks,
        )
        for name in dict.fromkeys((*known, *wefts))
    )
    return Palette(swatches=swatches), {name: yarn.mass_g for name, yarn in wefts.items()}
