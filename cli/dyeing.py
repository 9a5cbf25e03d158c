"""The dye day as the command ``dye`` prints it."""

from __future__ import annotations

import json
import textwrap
from dataclasses import asdict
from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.dyeing.assistants import Assistant
    from palette.dyeing.dye_day import Bath, DyeDay, DyeLot

__all__ = ["dye_json", "dye_text"]

_CLASSES = {"acid": "Acid dye", "reactive": "Fibre-reactive dye", "natural": "Natural dye"}
_BESIDE = {"weigh": ("powder", "reactive"), "baths": ("acid", "strong acid", "alkali", "natural")}


def dye_json(day: DyeDay) -> str:
    """Give a dye day as JSON, with the total of each dye and the number of fillings."""
    totals = [
        {"dye": dye, "dye_g": grams, "stock_ml": stock} for dye, grams, stock in day.dyes_to_weigh
    ]
    content = {**asdict(day), "dyes_to_weigh": totals, "rounds": day.rounds}
    return json.dumps(content, indent=2, ensure_ascii=False)


def dye_text(day: DyeDay) -> str:
    """Set out lots, what to weigh, baths and what else goes in, the cautions beside them."""
    weigh = _weigh(day) + _care(day, _BESIDE["weigh"])
    baths = _baths(day) + _care(day, _BESIDE["baths"])
    parts = [_lots(day), weigh, _mordant(day), baths, _besides(day), _heat(day), _always(day)]
    return "\n\n".join(part for part in parts if part)


def _lots(day: DyeDay) -> str:
    from palette.measures import format_mass

    heads = ("colour", "fibre", "needed", "dry, to dye", "skeins", "depth", "", "baths")
    rows = [
        (
            lot.colour,
            lot.fibre.text,
            format_mass(lot.needed_g),
            f"{lot.dry_g:.0f} g",
            " + ".join(f"{each.skeins} x {_tidy(each.skein_g)} g" for each in lot.skeins),
            f"{lot.depth_percent:.3g} %",
            "" if lot.depth_asked else "suggested",
            ", ".join(map(str, lot.baths)),
        )
        for lot in day.lots
    ]
    dry = sum(lot.dry_g for lot in day.lots)
    text = f"Yarn to dye: {dry:.0f} g, weighed dry before it is wetted out\n"
    text += table(heads, rows, hexes=[lot.hex for lot in day.lots])
    return text + _undyed(day)


def _undyed(day: DyeDay) -> str:
    if not day.undyed:
        return ""
    dyed = {lot.colour for lot in day.lots}
    return "\nNot dyed: " + ", ".join(
        f"part of the {name}" if name in dyed else name for name in day.undyed
    )


def _weigh(day: DyeDay) -> str:
    """Everything to weigh and to measure, all baths together."""
    rows = [
        (dye, _dye_grams(grams), _millilitres(stock) if stock else "")
        for dye, grams, stock in day.dyes_to_weigh
    ]
    rows += [(_assistant(each), _amount(each), "") for each in day.totals]
    natural = not any(row[2] for row in rows)
    strength = f"{day.asked.stock_percent:g}"
    heads = ("", "amount") if natural else ("", "amount", f"as {strength} % stock")
    text = "To weigh or measure, all baths together\n"
    text += table(heads, [row[: len(heads)] for row in rows])
    return text if natural else f"{text}\nStock solution: {strength} g of dye in 100 ml."


def _mordant(day: DyeDay) -> str:
    if not day.mordant_baths:
        return ""
    heads = ("filling", "pot", "mordant", "yarn, dry", "fills", "with", "skeins of")
    rows = [
        (
            str(bath.round),
            f"{_tidy(bath.pot_ml / 1000)} l",
            str(bath.number),
            f"{bath.dry_g:.0f} g",
            _litres(bath.volume_ml),
            _goes_in(bath.assistants),
            ", ".join(bath.colours),
        )
        for bath in sorted(day.mordant_baths, key=lambda bath: (bath.round, bath.number))
    ]
    return "Mordant baths, before the dye\n" + table(heads, rows)


def _baths(day: DyeDay) -> str:
    """Every bath in the order of the fillings, each dye of a recipe on a line of its own."""
    hexes = {lot.colour: lot.hex for lot in day.lots}
    lots = {number: lot for lot in day.lots for number in lot.baths}
    heads = ["filling", "pot", "bath", "colour", "yarn, dry", "dye", "", "stock", "water", "fills"]
    left_out = set() if any(bath.stock_ml for bath in day.baths) else {"stock"}
    baths = sorted(day.baths, key=lambda bath: (bath.round, bath.number))
    kept = [place for place, head in enumerate(heads) if head not in left_out]
    rows, colours = [], []
    for bath in baths:
        for line in _bath_lines(bath, lots[bath.number]):
            rows.append([line[place] for place in kept])
            colours.append(hexes[bath.colour])
    return "Baths\n" + table([heads[place] for place in kept], rows, hexes=colours)


def _bath_lines(bath: Bath, lot: DyeLot) -> list[list[str]]:
    """One line for each dye; the bath itself stands on the first."""
    kind = f" ({bath.dye_class})" if lot.fibre.mixed and bath.dye_class != "natural" else ""
    front = [
        str(bath.round),
        f"{_tidy(bath.pot_ml / 1000)} l",
        str(bath.number),
        bath.colour + kind,
        f"{bath.dry_g:.0f} g",
    ]
    back = [_litres(bath.water_ml), _litres(bath.volume_ml)]
    what = "dyestuff" if bath.dye_class == "natural" else "dye"
    dyes = [(part.dye, part.percent, part.dye_g or 0.0, part.stock_ml or 0.0) for part in bath.dyes]
    dyes = dyes or [(what, bath.depth_percent, bath.dye_g, bath.stock_ml)]
    lines = []
    for number, (dye, percent, grams, stock) in enumerate(dyes):
        middle = [
            f"{dye} {percent:.3g} %",
            _dye_grams(grams),
            _millilitres(stock) if stock else "",
        ]
        first = number == 0
        lines.append([*(front if first else [""] * 5), *middle, *(back if first else [""] * 2)])
    return lines


def _besides(day: DyeDay) -> str:
    """Set out what else goes into each bath."""
    rows = [
        (
            str(bath.number),
            bath.colour,
            _goes_in(bath.assistants),
        )
        for bath in day.baths
        if bath.assistants
    ]
    return "Goes in besides the dye\n" + table(("bath", "colour", "with"), rows) if rows else ""


def _heat(day: DyeDay) -> str:
    heats = {bath.dye_class: bath.heat for bath in day.baths}
    return "Heat\n" + "\n".join(
        _wrapped(heat, f"{_CLASSES[kind]}: ") for kind, heat in heats.items()
    )


def _goes_in(assistants: tuple[Assistant, ...]) -> str:
    return ", ".join(f"{_assistant(each)} {_amount(each)}" for each in assistants)


def _care(day: DyeDay, matters: tuple[str, ...]) -> str:
    """Cautions that belong to one part of the work, to stand under its figures."""
    texts = [caution.text for caution in day.cautions if caution.matter in matters]
    return "".join(f"\n{_wrapped(text, '! ')}" for text in texts)


def _always(day: DyeDay) -> str:
    beside = {matter for matters in _BESIDE.values() for matter in matters}
    texts = [caution.text for caution in day.cautions if caution.matter not in beside]
    return "Take care\n" + "\n".join(_wrapped(text, "! ") for text in texts)


def _assistant(each: Assistant) -> str:
    """Name of a thing; vinegar says how strong it was taken."""
    return f"{each.name} ({each.strength})" if each.strength else each.name


def _wrapped(text: str, before: str) -> str:
    """Break a long sentence into lines, the later ones set in."""
    return textwrap.fill(text, 96, initial_indent=before, subsequent_indent="  ")


def _amount(each: Assistant) -> str:
    if each.unit == "ml":
        return _millilitres(each.amount)
    decimals = 2 if each.amount < 10 else 1 if each.amount < 100 else 0
    return f"{each.amount:.{decimals}f} g"


def _dye_grams(grams: float) -> str:
    return f"{grams:.2f} g" if grams < 100 else f"{grams:.0f} g"


def _millilitres(amount: float) -> str:
    return f"{amount:.1f} ml" if amount < 10 else f"{amount:.0f} ml"


def _litres(ml: float) -> str:
    return f"{ml:.0f} ml" if ml < 1000 else f"{ml / 1000:.2f} l"


def _tidy(amount: float) -> str:
    return f"{amount:.1f}".removesuffix(".0")
