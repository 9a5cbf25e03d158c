"""``leafweft blend``: fleece to card together, or dyes to mix, for a colour."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Json

Wanted = Annotated[
    str,
    typer.Argument(
        help="The colour that is wanted: #8a9a5b, 60 -12 32 (CIELAB), moss green; with --palette, "
        "the name of one of its colours.",
        metavar="COLOUR",
    ),
]
PaletteFile = Annotated[
    Path | None,
    typer.Option(
        "--palette",
        metavar="FILE",
        help="A palette or plan file that holds the colour.",
        show_default=False,
    ),
]
Fleece = Annotated[
    Path | None,
    typer.Option("--from", metavar="SHELF.csv", help="A table of dyed fleece.", show_default=False),
]
Samples = Annotated[
    Path | None,
    typer.Option(
        "--samples",
        metavar="FILE",
        help="A table of your own dye samples instead: a recipe in those dyes.",
        show_default=False,
    ),
]
Batch = Annotated[
    str | None,
    typer.Option(
        "--batch",
        metavar="MASS",
        help="Fleece to card, or dry yarn to dye: 200g, 8oz. Without it: shares only.",
        show_default=False,
    ),
]
Step = Annotated[
    str | None,
    typer.Option(
        "--step",
        metavar="MASS",
        help="What the scales can weigh of fleece: 0.5g. Without it: 1g (kitchen scales).",
        show_default=False,
    ),
]
Parts = Annotated[
    str, typer.Option("--parts", metavar="N", help="Most fleeces, or dyes, together: 1 to 4.")
]


def run(
    target: Wanted,
    *,
    palette: PaletteFile = None,
    shelf: Fleece = None,
    samples: Samples = None,
    batch: Batch = None,
    step: Step = None,
    parts: Parts = "3",
    json_: Json = False,
) -> None:
    """Find the parts of dyed fleece to card together for a colour, in grams that can be weighed.

    With --samples instead of --from: the recipe in your own dyes, learnt from your samples.

    Example: leafweft blend "#8a9a5b" --from fleece.csv --batch 200g
    """
    from cli.mixing import (
        BLEND_OPTIONS,
        blend_table,
        grams_asked,
        most_parts,
        photo_words,
        recipe_table,
        wanted_colour,
    )
    from cli.naming import options_named, refused
    from cli.output import as_json, result, talk, warn
    from palette.dyeing.blending import plan_blend
    from palette.dyeing.recipes import plan_recipe
    from palette.dyeing.samples import read_samples
    from palette.swatches.shelf import read_shelf

    if (shelf is None) == (samples is None):
        rule = "one of --from (fleece) and --samples (dyes) must be given"
        raise refused("blend", rule, got="none" if shelf is None else "both")
    wanted, most = wanted_colour(target, palette), most_parts(parts)
    batch_g, step_g = grams_asked(batch, step, fleece=shelf is not None)
    with options_named(BLEND_OPTIONS):
        if shelf is not None:
            blend = plan_blend(
                wanted,
                read_shelf(shelf),
                most_parts=most,
                batch_g=batch_g,
                step_g=step_g,
                target_from_photo=palette is not None,
            )
            warn(blend.warnings)
            result(as_json(blend) if json_ else blend_table(blend))
            talk(blend.guide)
        elif samples is not None:
            recipe = plan_recipe(
                wanted,
                read_samples(samples),
                most_dyes=most,
                goods_g=batch_g,
                target_from_photo=palette is not None,
            )
            warn((*recipe.warnings, *photo_words(palette)))
            result(as_json(recipe) if json_ else recipe_table(recipe))
            talk(recipe.guide)
