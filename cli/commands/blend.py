"""``leafweft blend``: fleece to card together, or dyes to mix, for a colour."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Json


def run(
    target: Annotated[str, typer.Argument(help="The colour that is wanted.", metavar="COLOUR")],
    *,
    shelf: Annotated[
        Path | None,
        typer.Option(
            "--from", metavar="SHELF.csv", help="A table of dyed fleece.", show_default=False
        ),
    ] = None,
    samples: Annotated[
        Path | None,
        typer.Option(
            "--samples",
            metavar="FILE",
            help="A table of your own dye samples instead: a recipe in those dyes.",
            show_default=False,
        ),
    ] = None,
    batch: Annotated[
        str | None,
        typer.Option("--batch", metavar="MASS", help="Mass to make.", show_default=False),
    ] = None,
    parts: Annotated[
        int, typer.Option("--parts", min=1, max=4, metavar="N", help="Most fleeces, or dyes.")
    ] = 3,
    json_: Json = False,
) -> None:
    """Find the parts of dyed fleece to card together for a colour, in whole grams.

    With --samples instead of --from: the recipe in your own dyes, learnt from your samples.

    Example: leafweft blend "#8a9a5b" --from fleece.csv --batch 200g
    """
    from cli.mixing import blend_table, recipe_table
    from cli.output import as_json, result, talk, warn
    from palette.dyeing.blending import plan_blend
    from palette.dyeing.recipes import plan_recipe
    from palette.dyeing.samples import read_samples
    from palette.errors import InputError
    from palette.measures import parse_mass
    from palette.perception.colour_text import parse_colour
    from palette.swatches.shelf import read_shelf

    wanted = parse_colour(target, thing="colour")
    grams = parse_mass(batch, thing="--batch").g if batch else None
    if (shelf is None) == (samples is None):
        rule = "one of --from (fleece) and --samples (dyes) must be given"
        raise InputError("blend", rule, got="none" if shelf is None else "both")
    if shelf is not None:
        blend = plan_blend(wanted, read_shelf(shelf), most_parts=parts, batch_g=grams)
        warn(blend.warnings)
        result(as_json(blend) if json_ else blend_table(blend))
        talk(blend.guide)
    elif samples is not None:
        recipe = plan_recipe(wanted, read_samples(samples), most_dyes=parts, goods_g=grams)
        warn(recipe.warnings)
        result(as_json(recipe) if json_ else recipe_table(recipe))
        talk(recipe.guide)
