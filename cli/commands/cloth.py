"""``leafweft cloth``: what a planned cloth will look like."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cli.options import Force, Json, Out, PlanPath


def run(
    plan: PlanPath,
    *,
    wanted: Annotated[
        str | None,
        typer.Option(
            "--wanted",
            metavar="COLOUR",
            help="A colour the cloth should have: which weft to dye for it.",
            show_default=False,
        ),
    ] = None,
    samples: Annotated[
        Path | None,
        typer.Option(
            "--samples",
            metavar="FILE",
            help="A table of your own woven samples: warp, weft and cloth colours.",
            show_default=False,
        ),
    ] = None,
    weft_yarn: Annotated[
        list[str] | None,
        typer.Option(
            "--weft-yarn",
            metavar="COLOUR=YARN",
            help='A weft of several colours: "moss=#5d733a 50cm / #c8b45a 35cm" along its length, '
            'or "moss=#a3522b & #e8d9b0" plied.',
            show_default=False,
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Show what the cloth will look like: woven colours, and pictures into the folder --out.

    Example: leafweft cloth scarf --out scarf-pictures --wanted "#8a9a5b"
    """
    from cli.looks import dull_line, look_json, look_table, wanted_text, weft_yarns
    from cli.output import CIELAB, ERROR, result, talk, warn
    from palette.cloth.own_samples import fit_own_yarn, read_own_samples
    from palette.plans.loading import load_plan
    from palette.sheets.cloth_files import write_cloth_pictures
    from palette.sheets.cloth_pictures import look_of

    planned = load_plan(plan)
    yarns = weft_yarns(planned, weft_yarn or [])
    own = fit_own_yarn(read_own_samples(samples)) if samples else None
    looks = [look_of(planned, cloth, own=own) for cloth in planned.cloths]
    advice = "" if wanted is None else wanted_text(planned, looks[0], wanted, own)
    if out is not None:
        for path in write_cloth_pictures(planned, out, own=own, yarns=yarns, force=force):
            talk(f"Wrote {path}.")
    if own is not None:
        warn(own.warnings)
        talk(f"Your samples: error {own.before:.1f} before, {own.after:.1f} after (CIEDE2000).")
    if dull := dull_line(looks):
        warn([dull])
    if json_:
        result(look_json(planned, looks, wanted, own))
        return
    result("\n\n".join(map(look_table, looks)))
    if advice:
        result("\n" + advice)
    talk(f"{CIELAB} {ERROR}")
    talk("Every woven colour is a guide with its typical error beside it. Weave a sample.")
