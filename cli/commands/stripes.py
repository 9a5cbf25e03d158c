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
            help="The stripes of that plan, in this palette and to this length.",
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
    from cli.output import result, talk, warn
    from cli.summaries import cloth_line, stripe_table
    from palette.plans.idle import idle_notes
    from palette.plans.loading import load_plan
    from palette.plans.making import make_plan, plan_from_stripes, plan_like
    from palette.plans.plan_contract import plan_to_json
    from palette.plans.taking import palette_of
    from palette.sheets.drawdown_plan import is_drawdown, plan_of_drawdown
    from palette.sheets.writing import write_whole

    brief = brief_from({"name": source.stem.removesuffix("-palette"), **asked})
    if is_drawdown(source):
        plan = plan_of_drawdown(source, brief, picks_given="picks" in asked)
    elif like is None:
        plan = make_plan(brief, palette_of((source,), brief))
    else:
        cloth = plan_like(brief, palette_of((source,), brief), load_plan(like).cloths[0])
        plan = plan_from_stripes(brief, (cloth,))
    text = plan_to_json(plan)
    target = out or (None if json_ else Path(f"{plan.name}-plan.json"))
    if target is not None:
        write_whole(target, text.encode(), force=force)
        talk(f"Wrote {target}.")
    warn((*idle_notes(brief, source=source, like=like is not None), *plan.warnings))
    if json_:
        result(text)
        return
    cloth = plan.cloths[0]
    result(f"{cloth_line(cloth, plan.units)}\n\n{stripe_table(cloth, plan.units)}")
