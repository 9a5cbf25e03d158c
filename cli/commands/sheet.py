"""``leafweft sheet``: one sheet or file of a plan."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, PlanPath


def run(
    plan: PlanPath,
    sheets: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="SHEET",
            help="sheet.pdf, sheet.html, loom-card.pdf, swatches.pdf, swatches.png, swatches.svg, "
            "winding.pdf, winding.png, winding.svg, cloth.png, stripes.png, stripes.svg, "
            "palette.svg, palette.css, stripes.csv, yarn.csv, plan.json, drawdown.wif. "
            "Without one: sheet.pdf.",
        ),
    ] = None,
    *,
    paper: Annotated[
        str | None,
        typer.Option(
            "--paper",
            metavar="A4|Letter",
            help="Paper of the printed sheet. Default: A4.",
            show_default=False,
        ),
    ] = None,
    photo: Annotated[
        Path | None,
        typer.Option(
            "--photo",
            metavar="FILE",
            help="The photograph to show small on the sheet.",
            show_default=False,
        ),
    ] = None,
    card_width: Annotated[
        str | None,
        typer.Option(
            "--card-width",
            metavar="LENGTH",
            help="Width of a winding card. Default: 10cm.",
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Write sheets of a plan into the folder --out, or beside you: printed, for the loom, to share.

    Example: leafweft sheet scarf loom-card.pdf winding.pdf drawdown.wif --out cards
    """
    import json

    from cli.output import result, talk, warn
    from palette.measures import parse_length
    from palette.photo.reading import read_photo
    from palette.plans.loading import load_plan
    from palette.sheets.any_sheet import SheetWish, idle_wishes, sheet_bytes
    from palette.sheets.style import paper_named
    from palette.sheets.writing import write_beside, write_folder

    planned = load_plan(plan)
    names = sheets or ["sheet.pdf"]
    wish = SheetWish(
        paper=paper_named(paper or "A4").name,
        photo=None if photo is None else read_photo(photo),
        card_width_mm=parse_length(card_width or "10cm", thing="--card-width").mm,
    )
    made = {name: sheet_bytes(planned, name, wish) for name in names}
    written = (
        write_beside(Path(), made, force=force)
        if out is None
        else write_folder(out, made, force=force)
    )
    given = {"paper": paper, "photo": photo, "card-width": card_width}
    warn(idle_wishes(names, [name for name, value in given.items() if value is not None]))
    for path in written:
        talk(f"Wrote {path}.")
    if json_:
        result(json.dumps({name: len(data) for name, data in made.items()}))
