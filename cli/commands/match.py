"""``leafweft match``: the palette in yarns from the shelf."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Json


def run(
    palette: Annotated[Path, typer.Argument(help="A palette or plan file.", metavar="PALETTE")],
    shelf: Annotated[
        Path,
        typer.Argument(
            help="A table of yarns and fleece: name, colour, fibre, count, grams, kind.",
            metavar="SHELF.csv",
        ),
    ],
    *,
    reuse: Annotated[
        bool, typer.Option("--reuse", help="Let one yarn stand for several colours.")
    ] = False,
    near: Annotated[
        str,
        typer.Option(
            "--near",
            metavar="N",
            help="CIEDE2000 up to which a yarn counts as near; two photographs are known to 3 "
            "to 5 (common practice).",
        ),
    ] = "5",
    json_: Json = False,
) -> None:
    """Pair every colour of a palette with the nearest yarn in hand, best overall.

    Near pairs come first: a colour that nothing comes near is left without a yarn, and fleece is
    taken only where it is near. Two yarns to ply or to alternate are named there, and how near
    they come. Of a plan the grams needed are shown beside what is in hand.

    Example: leafweft match hedge-palette.json shelf.csv
    """
    from cli.matching import match_text, nearness
    from cli.output import as_json, result, warn
    from palette.cloth.mixing_law import mix_lab
    from palette.plans.needed import colours_needed
    from palette.swatches.match import match_shelf
    from palette.swatches.shelf import read_shelf
    from palette.yarn.count import parse_count

    threshold = nearness(near)
    colours, needed_g = colours_needed(palette)
    yarns = read_shelf(shelf, read_count=lambda text: parse_count(text).tex)
    matched = match_shelf(
        colours, yarns, reuse=reuse, near=threshold, mixer=mix_lab, needed_g=needed_g
    )
    warn(matched.warnings)
    result(as_json(matched) if json_ else match_text(matched))
