"""``leafweft plan``: a photograph to a folder with everything for the loom."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, takes

_BESIDE = "Name the folder that the archive is to lie beside."


@takes("palette", "stripes", "loom", "yarn", "page")
def run(
    photo: Annotated[
        list[Path] | None, typer.Argument(help="A photograph, or several; or a palette file.")
    ] = None,
    *,
    asked: dict[str, object],
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", help="Folder to make. Without it nothing is written.", show_default=False
        ),
    ] = None,
    brief: Annotated[
        Path | None,
        typer.Option(
            "--brief",
            metavar="FILE",
            help="A brief (TOML) to read every value from; what is typed wins.",
            show_default=False,
        ),
    ] = None,
    stripes: Annotated[
        Path | None,
        typer.Option(
            "--stripes",
            metavar="FILE",
            help="stripes.csv, edited by hand: these stripes instead. Without a photograph every "
            "colour needs its hex there; another name beside the same hex renames a colour.",
            show_default=False,
        ),
    ] = None,
    archive: Annotated[
        bool, typer.Option("--zip", help="Put the files into one archive beside the folder.")
    ] = False,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Make the whole plan: palette, stripes, warp, yarn, and the files to take to the loom.

    Example: leafweft plan hedge.jpg --length 180cm --width 25cm --out scarf
    """
    from cli.briefing import brief_from
    from cli.naming import refused
    from cli.output import CIELAB, result, talk, warn
    from cli.summaries import cloth_line, defaults_line, palette_table
    from cli.warps import warp_table
    from cli.yarns import yarn_table
    from palette.plans.cloths import cloth_briefs
    from palette.plans.idle import idle_notes
    from palette.plans.options import options_of
    from palette.sheets.plan_folder import write_plan_folder

    if archive and out is None:
        raise refused("--zip", "must go with --out", got="no --out", remedy=_BESIDE)
    wishes = {**asked}
    if photo:
        wishes["photo"] = [str(path) for path in photo]
    if stripes:
        wishes["stripes"] = str(stripes)
    checked = brief_from(wishes, file=brief)
    made = write_plan_folder(
        checked,
        folder=out,
        force=force,
        archive=archive,
    )
    plan = made.plan
    warn((*idle_notes(checked, cloth_briefs(checked)), *plan.warnings))
    if json_:
        from palette.plans.plan_contract import plan_to_json

        result(plan_to_json(plan))
        return
    for cloth in plan.cloths:
        result(f"{cloth.name or plan.name}: {cloth_line(cloth, plan.units)}\n\n")
        result(palette_table(cloth.palette) + "\n\n")
    result(warp_table(plan) + "\n\n")
    result(yarn_table(plan) + "\n\n")
    typed = wishes if brief is None else {**wishes, **dict(checked.values)}
    talk(defaults_line(options_of("stripes", "loom", "yarn"), typed, dict(plan.asked)))
    if made.written:
        talk(f"Wrote {', '.join(made.written)}.")
    talk(CIELAB)
    talk("Every colour here is a guide: a camera is no measuring instrument. Weave a sample.")
