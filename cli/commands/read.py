"""``leafweft read``: the stripes of an old textile, off its photograph."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out


def run(
    photo: Annotated[
        Path, typer.Argument(help="A photograph of a striped cloth.", metavar="CLOTH_PHOTO")
    ],
    *,
    width: Annotated[
        str | None,
        typer.Option(
            "--width",
            metavar="LENGTH",
            help="Width of the cloth across its warp.",
            show_default=False,
        ),
    ] = None,
    length: Annotated[
        str | None,
        typer.Option(
            "--length",
            metavar="LENGTH",
            help="Length of cloth along the warp that the photograph shows.",
            show_default=False,
        ),
    ] = None,
    picks: Annotated[
        str | None,
        typer.Option(
            "--picks",
            metavar="DENSITY",
            help="Picks per cm or inch, counted on the cloth as it is. Without it they are counted "
            "where the threads show.",
            show_default=False,
        ),
    ] = None,
    region: Annotated[
        str | None,
        typer.Option(
            "--region",
            metavar="L,T,R,B",
            help="Part of the picture that is cloth: left,top,right,bottom in %.",
            show_default=False,
        ),
    ] = None,
    upright: Annotated[
        bool | None,
        typer.Option(
            "--upright/--level",
            help="Whether the stripes stand upright or lie level. Without it that is found.",
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Read the stripe sequence off a photograph of a striped cloth, and write it as a plan.

    Skew, mild perspective and uneven light are taken out. Stripes that are unsure are named. The
    plan has the measured size once it is washed. It can be woven in another length or other
    colours: leafweft stripes PALETTE --like PLAN.

    Example: leafweft read old-shawl.jpg --width 45cm --picks 8/cm --out shawl.json
    """
    from cli.briefing import brief_from
    from cli.output import as_json, result, talk, warn
    from cli.reading import reading_table
    from palette.errors import InputError
    from palette.plain_text import plain
    from palette.plans.old_cloth import plan_of_reading, read_old_cloth
    from palette.plans.plan_contract import plan_to_json
    from palette.sheets.writing import write_whole
    from palette.stripes.reading_unsure import unsure_notes

    asked = {"width": width, "length": length, "picks": picks, "region": region}
    given = {key: value for key, value in asked.items() if value is not None}
    brief = brief_from({"name": plain(photo.stem), **given})
    reading = read_old_cloth(photo, brief, given=tuple(given), upright=upright)
    notes = reading.warnings
    target = out or (None if json_ else Path(f"{photo.stem}-plan.json"))
    if target is not None and reading.picks_per_cm is None:
        if out is not None:
            remedy = "Give --picks, and --width or --length."
            raise InputError("plan", "needs a scale", got="none", remedy=remedy)
        talk("Without a scale there is no plan: give --picks, and --width or --length.")
    elif target is not None:
        plan = plan_of_reading(reading, brief)
        write_whole(target, plan_to_json(plan).encode(), force=force)
        talk(f"Wrote {target}.")
        notes = plan.cloths[0].warnings
    shown = () if json_ else unsure_notes(reading.stripes, upright=reading.upright)
    warn(note for note in notes if note not in shown)  # the table has them
    result(as_json(reading) if json_ else reading_table(reading, brief.unit_system))
