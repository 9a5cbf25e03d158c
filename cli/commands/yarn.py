"""``leafweft yarn``: how much of each yarn a plan needs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, takes


@takes("loom", "yarn", "page")
def run(
    plan: Annotated[Path, typer.Argument(help="A plan file, or a plan's folder.")],
    *,
    asked: dict[str, object],
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon the metres and grams of every yarn, warp and weft.

    What is not given stays as the plan has it; with --out the new figures are written as a plan.

    Example: leafweft yarn scarf --weft "NeK 2/20" --allowance 15%
    """
    from cli.output import result
    from cli.refiguring import refigured
    from cli.summaries import yarn_table

    made = refigured(plan, asked, out=out, force=force, json_=json_)
    if not json_:
        result(yarn_table(made))
