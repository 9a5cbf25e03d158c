"""``leafweft check``: whether the yarn lasts, half way through a cloth."""

from __future__ import annotations

from typing import Annotated

import typer

from cli.options import Force, Json, Out, PlanPath


def run(
    plan: PlanPath,
    *,
    woven: Annotated[
        str,
        typer.Option(
            "--woven", metavar="LENGTH", help="Woven so far, measured with the tension slackened."
        ),
    ],
    left: Annotated[
        str,
        typer.Option(
            "--left",
            metavar="COLOUR=MASS,...",
            help="What is left of each colour on the scale, cores taken off.",
        ),
    ],
    had: Annotated[
        str,
        typer.Option(
            "--had",
            metavar="COLOUR=MASS,...",
            help="What there was of a colour at the start. Without it: the whole skeins of the "
            "plan, where it was made with --skein.",
        ),
    ] = "",
    picks_measured: Annotated[
        str | None,
        typer.Option(
            "--picks-measured",
            metavar="DENSITY",
            help="Picks per cm or inch counted on the loom. Without it: as planned.",
            show_default=False,
        ),
    ] = None,
    cloth: Annotated[
        int, typer.Option("--cloth", metavar="N", help="Which cloth of the warp is on the loom.")
    ] = 1,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon from what is on the loom and on the scale whether every colour lasts.

    Where one that was weighed does not, a new list for the rest ends in balance with the yarn
    there is; --out writes the whole cloth, woven part and rest, as a table of stripes. What was
    not weighed is reckoned as planned, and what it would be at the use of the weighed colours
    stands beside it.

    Example: leafweft check scarf --woven 80cm --left "moss=23g" --had "moss=50g"
    """
    from cli.lasting import lasting_table
    from cli.output import as_json, result, talk, warn
    from palette.measures import parse_density, parse_length
    from palette.plans.lasting import check_plan, woven_and_rest
    from palette.plans.loading import load_plan
    from palette.sheets.tables import stripes_csv
    from palette.sheets.writing import write_whole
    from palette.yarn.weighed import parse_weighed

    planned = load_plan(plan)
    wefts = tuple(yarn.colour for yarn in planned.yarns if yarn.use == "weft")
    density = parse_density(picks_measured, thing="--picks-measured") if picks_measured else None
    checked = check_plan(
        planned,
        cloth=cloth,
        woven_mm=parse_length(woven, thing="--woven").mm,
        left_g=parse_weighed(left, wefts, thing="--left"),
        had_g=parse_weighed(had, wefts, thing="--had") if had else {},
        picks_per_cm=density.per_cm if density else None,
    )
    if out is not None:
        whole = woven_and_rest(planned, checked, cloth=cloth)
        write_whole(out, stripes_csv(whole), force=force)
        talk(f"Wrote {out}.")
    warn(checked.warnings)
    result(as_json(checked) if json_ else lasting_table(checked, planned.units))
