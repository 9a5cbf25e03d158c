"""``leafweft stripes``: a palette to a weft stripe sequence in whole picks."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, takes


@takes("palette", "stripes", "loom", "yarn", "page")
def run(
    source: Annotated[
        Path,
        typer.Argument(
            help="A palette file, a photograph, or a drawdown file (.wif).",
            metavar="PALETTE|PHOTO",
        ),
    ],
    *,
    asked: dict[str, object],
    like: Annotated[
        Path | None,
        typer.Option(
            "--like",
            metavar="PLAN",
            help="The stripes of that plan, in this palette and to this length. A repeat found in "
            "an old cloth is woven at its own width as often as fits; --repeats N makes N of them "
            "fill the length, and --repeats 1 scales all the stripes to it.",
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Arrange a palette in stripes of whole picks, and write the plan.

    Example: leafweft stripes hedge-palette.json --length "180 cm" --picks 8/cm --order mirrored
    """
    from cli.briefing import brief_from
    from cli.colourways import colourway_table
    from cli.planned import show_plan
    from palette.plain_text import plain
    from palette.plans.idle import idle_notes
    from palette.plans.like import cloth_like
    from palette.plans.loading import load_plan
    from palette.plans.making import make_plan, plan_from_stripes
    from palette.plans.taking import palette_of
    from palette.sheets.drawdown_plan import is_drawdown, plan_of_drawdown

    below = ""
    brief = brief_from({"name": plain(source.stem.removesuffix("-palette")), **asked})
    if is_drawdown(source):
        given = {"picks_given": "picks" in asked, "sett_given": "sett" in asked}
        plan = plan_of_drawdown(source, brief, **given)
    elif like is None:
        plan = make_plan(brief, palette_of((source,), brief))
    else:
        made = cloth_like(brief, palette_of((source,), brief), load_plan(like).cloths[0])
        plan = plan_from_stripes(brief, (made.cloth,))
        below = colourway_table(made)
    notes = (*idle_notes(brief, source=source, like=like is not None), *plan.warnings)
    show_plan(plan, notes, below=below, out=out, force=force, json_=json_)
