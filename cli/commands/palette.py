"""``leafweft palette``: the colours of a photograph with their shares."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, takes

_WORKERS_NEED = (
    "cli.application",
    "palette.plans.each",
    "palette.plans.brief",
    "palette.sheets.palette_files",
    "matplotlib.backends.backend_agg",
    "matplotlib.figure",
)


@takes("palette")
def run(
    photo: Annotated[
        list[Path],
        typer.Argument(
            help="A photograph; several give one palette; a folder gives one for each in it.",
            metavar="PHOTO",
        ),
    ],
    *,
    asked: dict[str, object],
    merge: Annotated[
        list[str] | None,
        typer.Option(
            "--merge",
            metavar="COLOUR+COLOUR",
            help="Colours to make into one, by name; may be repeated.",
            show_default=False,
        ),
    ] = None,
    munsell: Annotated[
        bool, typer.Option("--munsell", help="Add Munsell notation, about a second a colour.")
    ] = False,
    each: Annotated[bool, typer.Option("--each", help="One palette for each photograph.")] = False,
    jobs: Annotated[
        int, typer.Option("--jobs", min=1, metavar="N", help="Photographs at the same time.")
    ] = 1,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Take the colours of a photograph, each with its share.

    Writes a palette file and a card of the swatches: without --out beside you, named after the
    photograph; with --json only where --out says. For a folder --out is a folder.

    Example: leafweft palette hedge.jpg --colours 6
    """
    several = each or photo[0].is_dir()
    if several and jobs > 1:
        from palette.swatches.workers import make_ready

        make_ready(*_WORKERS_NEED)
    from cli.briefing import brief_from
    from cli.output import CIELAB, result, talk, warn
    from cli.palettes import alone, each_palette, edited, settled
    from cli.summaries import palette_table
    from palette.plans.loading import is_contract_file
    from palette.plans.palette_contract import palette_to_json
    from palette.plans.taking import light_of, palette_of, photos_of
    from palette.sheets.palette_files import check_palette_files, write_palette_files

    brief = brief_from(asked)
    if several:
        alone("--merge" if merge else "--munsell" if munsell else "")
        each_palette(photo, brief, jobs=jobs, out=out, force=force, json_=json_)
        return
    if is_contract_file(photo[0]):
        settled(asked, photo[0])
    target = out or (None if json_ else Path(f"{photo[0].stem}-palette.json"))
    if target is not None:
        lit = brief.light is not None or brief.neutral is not None
        check_palette_files(target, light=lit, force=force)
    photos = () if is_contract_file(photo[0]) else photos_of(tuple(photo), brief)
    taken = edited(palette_of(tuple(photo), brief, photos=photos), merge or [], munsell=munsell)
    if target is not None:
        shown = photos[0] if photos else None
        light = light_of(photos[0], brief) if photos else None
        for path in write_palette_files(taken, target, photo=shown, light=light, force=force):
            talk(f"Wrote {path}.")
    warn(taken.warnings)
    result(palette_to_json(taken) if json_ else palette_table(taken))
    if not json_:
        talk(CIELAB)
    if taken.source.why and not json_:
        talk(f"{len(taken.swatches)} colours: {taken.source.why}.")
