"""The dye day as the command ``dye`` reads and prints it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.dyeing.dye_day import DyeDay

__all__ = ["dye_text", "dye_wishes"]


def dye_wishes(
    *,
    fibre: str | None,
    natural: bool,
    depths: Sequence[str],
    undyed: Sequence[str],
    skein: str,
    margin: str,
    pots: Sequence[str],
) -> dict[str, object]:
    """Read what was typed as the values of a dye day; raises InputError."""
    from palette.measures import parse_mass, parse_share

    wishes: dict[str, object] = {
        "natural": natural,
        "depths": tuple(_depth(text) for text in depths),
        "undyed": tuple(undyed),
        "skein_g": parse_mass(skein, thing="--skein").g,
        "margin": parse_share(margin, thing="--margin"),
    }
    if fibre is not None:
        wishes["fibre"] = fibre
    if pots:
        wishes["pots_ml"] = tuple(map(_litres, pots))
    return wishes


def _depth(text: str) -> tuple[str, float]:
    from palette.errors import InputError

    name, mark, figure = text.rpartition("=")
    match = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*%\s*", figure)
    if not (mark and name.strip() and match):
        remedy = "Write it like moss=2%."
        raise InputError(
            "--depth", "must be a colour and a percentage", got=repr(text), remedy=remedy
        )
    return name.strip(), float(match[1].replace(",", "."))


def _litres(text: str) -> float:
    from palette.errors import UnitError

    match = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(l|litres?|liters?|ml)\s*", text, re.IGNORECASE)
    if match is None:
        rule = "must be a volume in l or ml"
        raise UnitError("--pot", rule, got=repr(text), remedy="Write it like 20l.")
    return float(match[1].replace(",", ".")) * (1.0 if match[2].lower() == "ml" else 1000.0)


def dye_text(day: DyeDay) -> str:
    """Set out the baths, what goes into each, and the cautions."""
    heads = ("bath", "colour", "skeins", "dry", "depth", "dye", "stock", "bath volume")
    rows = [
        (
            str(bath.number),
            bath.colour,
            str(bath.skeins),
            f"{bath.dry_g:.0f} g",
            f"{bath.depth_percent:g} %",
            f"{bath.dye_g:.2f} g",
            f"{bath.stock_ml:.0f} ml",
            f"{bath.volume_ml / 1000:.1f} l",
        )
        for bath in day.baths
    ]
    hexes = {lot.colour: lot.hex for lot in day.lots}
    parts = [table(heads, rows, hexes=[hexes[bath.colour] for bath in day.baths])]
    for mordant in day.mordant_baths:
        goes_in = ", ".join(
            f"{each.amount:.1f} {each.unit} {each.name}" for each in mordant.assistants
        )
        parts.append(f"Mordant bath {mordant.number} ({', '.join(mordant.colours)}): {goes_in}.")
    for bath in day.baths:
        goes_in = ", ".join(
            f"{each.amount:.1f} {each.unit} {each.name}" for each in bath.assistants
        )
        parts.append(f"Bath {bath.number}: {goes_in or 'nothing else'}. {bath.heat}")
    parts.append("Take care:\n" + "\n".join(f"- {caution.text}" for caution in day.cautions))
    return "\n\n".join(parts)
