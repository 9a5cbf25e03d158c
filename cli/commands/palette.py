"""``leafweft palette``: the colours of a photograph with their shares."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, takes


@takes("palette")
def run(
    photo: Annotated[list[Path], typer.Argument(help="A photograph; several give one palette.")],
    *,
    asked: dict[str, object],
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Take the colours of a photograph, each with its share.

    Writes a palette file and a picture of the swatches: without --out beside you, named after
    the photograph; with --json only where --out says.

    Example: leafweft palette hedge.jpg --colours 6
    """
    from cli.briefing import brief_from
    from cli.output import result, talk, warn
    from cli.summaries import palette_table
    from palette.plans.loading import is_contract_file
    from palette.plans.palette_contract import palette_to_json
    from palette.plans.taking import palette_of, photos_of
    from palette.sheets.palette_files import write_palette_files

    brief = brief_from(asked)
    photos = () if is_contract_file(photo[0]) else photos_of(tuple(photo), brief)
    taken = palette_of(tuple(photo), brief, photos=photos)
    warn(taken.warnings)
    target = out or (None if json_ else Path(f"{photo[0].stem}-palette.json"))
    if target is not None:
        shown = photos[0] if photos else None
        for path in write_palette_files(taken, target, photo=shown, force=force):
            talk(f"Wrote {path}.")
    result(palette_to_json(taken) if json_ else palette_table(taken))
    if taken.source.why and not json_:
        talk(taken.source.why)
