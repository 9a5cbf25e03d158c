"""``leafweft choices``: many arrangements of one palette beside each other."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, takes


@takes("palette", "stripes", "loom", "yarn", "page")
def run(
    source: Annotated[
        Path, typer.Argument(help="A palette file or a photograph.", metavar="PALETTE|PHOTO")
    ],
    *,
    asked: dict[str, object],
    pick: Annotated[
        int | None,
        typer.Option(
            "--pick", metavar="N", help="Turn arrangement N into a plan.", show_default=False
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", help="Where to write: a folder, or with --pick a file.", show_default=False
        ),
    ] = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Draw at least twelve arrangements of a palette to scale, each with a number.

    The same palette, options and seed give the same arrangement for a number; the same command
    with --pick 7 makes a plan of number 7.

    Example: leafweft choices hedge-palette.json --length 180cm
    """
    from cli.briefing import brief_from
    from cli.choosing import choices_json, choices_table
    from cli.output import result, talk, warn
    from cli.planned import show_plan
    from palette.plain_text import plain
    from palette.plans.choosing import arrangements_of, plan_of_choice
    from palette.plans.idle import idle_beside_choices
    from palette.plans.taking import palette_of
    from palette.sheets.choice_files import write_choices

    name = plain(source.stem.removesuffix("-palette"))
    brief = brief_from({"name": name, **asked})
    made = arrangements_of(brief, palette_of((source,), brief))
    if pick is None:
        folder = out or (None if json_ else Path(f"{name}-choices"))
        if folder is not None:
            for path in write_choices(made, brief, folder, force=force):
                talk(f"Wrote {path}.")
        warn(idle_beside_choices(brief, source))
        result(choices_json(made) if json_ else choices_table(made, brief.unit_system))
        return
    plan = plan_of_choice(brief, made, pick)
    notes = (*idle_beside_choices(brief, source), *plan.warnings)
    show_plan(plan, notes, out=out, force=force, json_=json_)
