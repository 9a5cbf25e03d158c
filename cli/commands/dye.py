"""``leafweft dye``: the dye day of a plan."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out


def run(
    plan: Annotated[Path, typer.Argument(help="A plan file, or a plan's folder.", metavar="PLAN")],
    *,
    fibre: Annotated[
        str | None,
        typer.Option(
            "--fibre",
            metavar="FIBRE",
            help='What the yarn is: wool, "60% wool 40% bamboo". Without it: as in the plan.',
            show_default=False,
        ),
    ] = None,
    natural: Annotated[
        bool, typer.Option("--natural", help="Natural dyes over an alum mordant.")
    ] = False,
    depth: Annotated[
        list[str] | None,
        typer.Option(
            "--depth",
            metavar="COLOUR=PERCENT",
            help="Depth of shade of a colour: moss=2%. Without it: a suggestion by lightness.",
            show_default=False,
        ),
    ] = None,
    undyed: Annotated[
        list[str] | None,
        typer.Option(
            "--undyed",
            metavar="COLOUR",
            help="A colour that is not dyed, or warp, or weft. Without it: warp.",
            show_default=False,
        ),
    ] = None,
    skein: Annotated[
        str, typer.Option("--skein", metavar="MASS", help="Dry mass of a skein.")
    ] = "100 g",
    margin: Annotated[
        str, typer.Option("--margin", metavar="PERCENT", help="Dyed beyond what the plan needs.")
    ] = "10%",
    pot: Annotated[
        list[str] | None,
        typer.Option(
            "--pot",
            metavar="LITRES",
            help="What a pot holds, brimful: 20l. Without it: 20l (common practice).",
            show_default=False,
        ),
    ] = None,
    paper: Annotated[
        str, typer.Option("--paper", metavar="A4|Letter", help="Paper of the printed page.")
    ] = "A4",
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon the dye day: dye, stock, baths and assistants for whole skeins that fit the pots.

    --out writes the page to print, with its cautions. Read the maker's data sheet first.

    Example: leafweft dye scarf --fibre wool --depth moss=2% --pot 12l --out dye-day.pdf
    """
    from cli.dyeing import dye_text, dye_wishes
    from cli.output import as_json, result, talk, warn
    from palette.plans.dye_day import dye_day_of
    from palette.plans.loading import load_plan
    from palette.sheets.dye_pdf import dye_page_pdf
    from palette.sheets.writing import write_whole

    planned = load_plan(plan)
    wishes = dye_wishes(
        fibre=fibre,
        natural=natural,
        depths=depth or [],
        undyed=undyed if undyed is not None else ["warp"],
        skein=skein,
        margin=margin,
        pots=pot or [],
    )
    day = dye_day_of(planned, wishes)
    warn(day.warnings)
    if out is not None:
        write_whole(out, dye_page_pdf(planned, day, paper=paper), force=force)
        talk(f"Wrote {out}.")
    result(as_json(day) if json_ else dye_text(day))
