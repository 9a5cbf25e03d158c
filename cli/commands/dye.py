"""``leafweft dye``: the dye day of a plan."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from cli.options import Force, Json, Out, PlanPath
from palette.dyeing import defaults
from palette.loom.defaults import Default


def _option(flag: str, form: str, text: str, *taken: Default, which: str = "{}") -> Any:  # noqa: ANN401
    """Make an option whose help ends in its default and where that comes from."""
    help_text = text
    if taken:
        said = (f"{each.text} ({each.label})" for each in taken)
        help_text = f"{text} Without it: {which.format(*said)}."
    return typer.Option(flag, metavar=form, help=help_text, show_default=False)


Texts = list[str] | None
Text = str | None
Fibre = Annotated[
    Texts,
    _option(
        "--fibre",
        "FIBRE",
        'What the yarn is: wool, "60% wool 40% bamboo"; warp=cotton or moss=silk for some of it. '
        "May be repeated. Without it: as in the plan.",
    ),
]
Natural = Annotated[bool, typer.Option("--natural", help="Natural dyes over an alum mordant.")]
Depth = Annotated[
    Texts,
    _option(
        "--depth",
        "COLOUR=PERCENT",
        "Depth of shade of a colour: moss=2%. May be repeated. Without it: a suggestion by "
        f"lightness; with --natural {defaults.NATURAL_DEPTH.text} "
        f"({defaults.NATURAL_DEPTH.label}).",
    ),
]
Recipe = Annotated[
    Texts,
    _option(
        "--recipe",
        "COLOUR=DYES",
        'Several dyes for a colour, of the dry yarn: "moss=yellow 1% + blue 0.7%". May be '
        "repeated.",
    ),
]
Samples = Annotated[
    Path | None,
    _option(
        "--samples",
        "FILE",
        "A table of your own dye samples: recipes for every colour without a --depth or --recipe.",
    ),
]
Undyed = Annotated[
    Texts,
    _option(
        "--undyed",
        "COLOUR",
        "A colour that is not dyed either, or weft. The warp is not dyed, unless it has a --depth "
        "or --recipe, or this is none: then all is dyed but what else is named. May be repeated.",
    ),
]
Skein = Annotated[
    Texts,
    _option(
        "--skein",
        "MASS",
        "Dry mass of a skein: 100g, 4oz; moss=25g or warp=200g for some of them. May be repeated.",
        defaults.SKEIN_G,
        which="as in the plan, else {}",
    ),
]
Margin = Annotated[
    Text, _option("--margin", "PERCENT", "Dyed beyond what the plan needs.", defaults.MARGIN)
]
Pot = Annotated[
    Texts,
    _option(
        "--pot",
        "VOLUME",
        "What a pot holds, brimful: 20l. May be repeated.",
        defaults.POT_ML,
    ),
]
Fill = Annotated[
    Text, _option("--fill", "PERCENT", "How full a pot may be, of its brim.", defaults.FILL)
]
LiquorRatio = Annotated[
    Text,
    _option(
        "--liquor-ratio",
        "RATIO",
        "Millilitres of bath for each gram of dry yarn.",
        defaults.ACID_LIQUOR_RATIO,
        defaults.REACTIVE_LIQUOR_RATIO,
        defaults.NATURAL_LIQUOR_RATIO,
        which="acid {}, reactive {}, natural {}",
    ),
]
Stock = Annotated[
    Text,
    _option("--stock", "PERCENT", "Strength of the stock solutions.", defaults.STOCK_PERCENT),
]
Acid = Annotated[
    Text,
    _option(
        "--acid",
        "citric|vinegar",
        "Acid for the acid dyes. Without it: citric, with Glauber's salt (a dyers' leaflet).",
    ),
]
Vinegar = Annotated[
    Text,
    _option(
        "--vinegar",
        "PERCENT",
        "Acetic acid in the vinegar; with it --acid is vinegar.",
        defaults.VINEGAR_PERCENT,
    ),
]
Reactive = Annotated[
    Text,
    _option(
        "--reactive",
        "cold|hot",
        "Fibre-reactive dyes for 24 to 35 °C or for 70 °C. Without it: cold (common practice).",
    ),
]
Alum = Annotated[
    Text,
    _option(
        "--alum",
        "PERCENT",
        "Alum for natural dyes on wool or silk, of the dry yarn; cotton and linen get 25 % "
        "(dye books).",
        defaults.ALUM_PERCENT,
    ),
]
Tartar = Annotated[
    Text,
    _option(
        "--tartar",
        "PERCENT",
        "Cream of tartar with the alum on wool or silk.",
        defaults.TARTAR_PERCENT,
    ),
]
Paper = Annotated[
    str, typer.Option("--paper", metavar="A4|Letter", help="Paper of the printed page.")
]


def run(
    plan: PlanPath,
    *,
    fibre: Fibre = None,
    natural: Natural = False,
    depth: Depth = None,
    recipe: Recipe = None,
    samples: Samples = None,
    undyed: Undyed = None,
    skein: Skein = None,
    margin: Margin = None,
    pot: Pot = None,
    fill: Fill = None,
    liquor_ratio: LiquorRatio = None,
    stock: Stock = None,
    acid: Acid = None,
    vinegar: Vinegar = None,
    reactive: Reactive = None,
    alum: Alum = None,
    tartar: Tartar = None,
    paper: Paper = "A4",
    out: Out = None,
    force: Force = False,
    json_: Json = False,
) -> None:
    """Reckon the dye day: dye, stock, baths and assistants for whole skeins that fit the pots.

    Yarn is weighed dry, in grams. --out writes the page to print, with its cautions. Read the
    maker's data sheet first.

    Example: leafweft dye scarf --fibre wool --skein 50g --pot 12l --pot 6l --out dye-day.pdf
    """
    from cli.dye_asked import DYE_OPTIONS, dye_wishes, idle_options, warned_of_warp
    from cli.dyeing import dye_json, dye_text
    from cli.naming import options_named
    from cli.output import result, talk, warn
    from palette.dyeing.samples import read_samples
    from palette.plans.dye_day import dye_day_of
    from palette.plans.loading import load_plan
    from palette.sheets.dye_pdf import dye_page_pdf
    from palette.sheets.style import paper_named
    from palette.sheets.writing import write_whole

    with options_named(DYE_OPTIONS):
        paper_named(paper)
    planned = load_plan(plan)
    texts = {
        "fill": fill,
        "liquor-ratio": liquor_ratio,
        "stock": stock,
        "acid": "vinegar" if acid is None and vinegar is not None else acid,
        "vinegar": vinegar,
        "reactive": reactive,
        "alum": alum,
        "tartar": tartar,
    }
    wishes = dye_wishes(
        colours=tuple(dict.fromkeys(yarn.colour for yarn in planned.yarns)),
        fibre=fibre or (),
        natural=natural,
        depth=depth or (),
        recipe=recipe or (),
        undyed=undyed or (),
        skein=skein or (),
        margin=margin,
        pot=pot or (),
        texts=texts,
    )
    with options_named(DYE_OPTIONS):
        day = dye_day_of(planned, wishes, samples=read_samples(samples) if samples else None)
    day = warned_of_warp(day, planned.yarns, undyed or ())
    warn((*idle_options({**texts, "acid": acid}, day), *day.warnings))
    if out is not None:
        write_whole(out, dye_page_pdf(planned, day, paper=paper), force=force)
        talk(f"Wrote {out}.")
    result(dye_json(day) if json_ else dye_text(day))
