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
            help="A table of yarns: name, colour, fibre, count, grams.", metavar="SHELF.csv"
        ),
    ],
    *,
    reuse: Annotated[
        bool, typer.Option("--reuse", help="Let one yarn stand for several colours.")
    ] = False,
    near: Annotated[
        float,
        typer.Option(
            "--near", min=0.0, metavar="N", help="CIEDE2000 up to which a yarn counts as near."
        ),
    ] = 5.0,
    json_: Json = False,
) -> None:
    """Pair every colour of a palette with the nearest yarn in hand, best overall.

    Colours that nothing on the shelf comes near are named, with two yarns to ply or alternate.

    Example: leafweft match hedge-palette.json shelf.csv
    """
    from cli.output import as_json, result, table, warn
    from palette.plans.loading import load_palette
    from palette.swatches.match import match_shelf
    from palette.swatches.shelf import read_shelf
    from palette.yarn.count import parse_count

    yarns = read_shelf(shelf, read_count=lambda text: parse_count(text).tex)
    matched = match_shelf(load_palette(palette), yarns, reuse=reuse, near=near)
    warn((*yarns.warnings, *matched.warnings))
    if json_:
        result(as_json(matched))
        return
    rows = [
        (
            pair.colour,
            pair.yarn.name if pair.yarn else "none left",
            f"{pair.difference:.1f}" if pair.difference is not None else "",
            "yes" if pair.near else "no",
            pair.mixes[0].words if pair.mixes else "",
        )
        for pair in matched.pairings
    ]
    heads = ("colour", "yarn", "CIEDE2000", "near", "nearer together")
    result(table(heads, rows, hexes=[pair.colour_hex for pair in matched.pairings]))
