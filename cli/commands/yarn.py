"""``leafweft yarn``: how much of each yarn a plan needs."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from cli.options import Force, Json, Out, PlanPath, takes

_SHELF = "Add --shelf SHELF.csv."


@takes("loom", "yarn", "page")
def run(
    plan: PlanPath,
    *,
    asked: dict[str, object],
    shelf: Annotated[
        Path | None,
        typer.Option(
            "--shelf",
            metavar="SHELF.csv",
            help="Yarn in hand, by the names in the plan: what is used, left and short.",
            show_default=False,
        ),
    ] = None,
    fit: Annotated[
        Literal["nearest", "longest"] | None,
        typer.Option(
            "--fit",
            help="With --shelf: the plan nearest to the wish that it allows, or the longest.",
            show_default=False,
        ),
    ] = None,
    price: Annotated[
        str | None,
        typer.Option(
            "--price", metavar="PRICE", help="Price of the yarn: 24/kg.", show_default=False
        ),
    ] = None,
    fleece: Annotated[
        str | None,
        typer.Option(
            "--fleece",
            metavar="KIND",
            help="Handspun: raw fleece of this kind to begin with (merino, alpaca, wool ...).",
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon the metres and grams of every yarn, warp and weft, and what a closer beat takes.

    What is not given stays as the plan has it; with --out the new figures are written as a plan.

    Example: leafweft yarn scarf --weft "NeK 2/20" --allowance 15% --skein 50g
    """
    from cli.refiguring import refigured, show_refigured
    from cli.summaries import cloth_line
    from cli.yarns import bobbin_table, cost_line, fleece_table, shelf_table, yarn_table
    from palette.errors import InputError

    if fit is not None and shelf is None:
        raise InputError("--fit", "needs the yarn in hand", got="no --shelf", remedy=_SHELF)
    made = refigured(plan, asked, shelf=shelf, fit=fit)
    lines = [cloth_line(cloth, made.units) for cloth in made.cloths] if fit else []
    tables = ["\n".join(lines)] * bool(lines) + [yarn_table(made)]
    if spun := bobbin_table(made):
        tables.append(spun)
    if price is not None:
        tables.append(cost_line(made, price))
    if shelf is not None:
        tables.append(shelf_table(made, shelf))
    if fleece is not None:
        tables.append(fleece_table(made, fleece))
    show_refigured(made, "\n\n".join(tables), out=out, force=force, json_=json_)
