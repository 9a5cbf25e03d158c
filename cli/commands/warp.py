"""``leafweft warp``: the warp of a plan."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import Force, Json, Out, PlanPath, takes


@takes("loom", "yarn", "page")
def run(
    plan: PlanPath,
    *,
    asked: dict[str, object],
    wraps: Annotated[
        str | None,
        typer.Option(
            "--wraps",
            metavar="DENSITY",
            help="Wraps measured per cm or inch: a sett is offered from them too.",
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon the warp: ends, width in the reed, length to wind, sley and heddles.

    What is not given stays as the plan has it; with --out the new figures are written as a plan.

    Example: leafweft warp scarf --reed 40/10cm --loom-waste 90cm
    """
    from cli.refiguring import refigured, show_refigured
    from cli.warps import dressing_text, warp_table

    made = refigured(plan, asked)
    text = f"{warp_table(made)}\n\n{dressing_text(made, wraps)}"
    show_refigured(made, text, out=out, force=force, json_=json_)
