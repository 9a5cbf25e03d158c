"""The dye day in words and figures, the same on paper and on the page at the loom."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.dyeing.assistants import Assistant
from palette.dyeing.dye_day import DyeDay

__all__ = [
    "DYE_GUIDE",
    "BathWords",
    "amount_words",
    "bath_words",
    "dye_notes",
    "measured",
    "volume",
]

DYE_GUIDE = (
    "Depths of shade and colours are a guide. Dye a sample skein first, rinse it, dry it, and "
    "judge it by daylight."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BathWords:
    """One bath as it is printed."""

    number: str
    colour: str
    dry: str
    dye: str
    stock: str
    water: str
    volume: str
    things: str


def measured(value: float) -> str:
    """Write an amount as finely as a dyer weighs: three figures, two decimals at most.

    Examples
    --------
    >>> measured(1.2), measured(26.42), measured(400.0)
    ('1.2', '26.4', '400')
    """
    digits = max(0, 2 - math.floor(math.log10(value))) if value > 0 else 0
    text = f"{value:.{min(digits, 2)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def volume(millilitres: float) -> str:
    """Write a volume in millilitres, or in litres from one litre up.

    Examples
    --------
    >>> volume(80), volume(3900)
    ('80 ml', '3.9 l')
    """
    if millilitres >= 1000:
        return f"{millilitres / 1000:.1f} l"
    return f"{millilitres:.0f} ml"


def amount_words(assistant: Assistant) -> str:
    """Name one thing that goes into a bath, with its amount."""
    return f"{assistant.name} {measured(assistant.amount)} {assistant.unit}"


def bath_words(day: DyeDay) -> list[BathWords]:
    """Put every bath of the day into words."""
    return [
        BathWords(
            number=f"{bath.number}",
            colour=bath.colour,
            dry=f"{bath.dry_g:.0f} g",
            dye=f"{measured(bath.dye_g)} g",
            stock=volume(bath.stock_ml) if bath.stock_ml else "",
            water=volume(bath.water_ml),
            volume=volume(bath.volume_ml),
            things=", ".join(amount_words(each) for each in bath.assistants),
        )
        for bath in day.baths
    ]


def dye_notes(day: DyeDay) -> list[str]:
    """List mordant baths, heat, warnings, totals and the guide, as sentences."""
    notes = []
    for mordant in day.mordant_baths:
        things = ", ".join(amount_words(each) for each in mordant.assistants)
        goods = f"{', '.join(mordant.colours)}, {mordant.dry_g:.0f} g"
        notes.append(
            f"Mordant bath {mordant.number}: {goods} in {volume(mordant.volume_ml)}: {things}."
        )
    notes += dict.fromkeys(f"For {bath.dye_class} dyes: {bath.heat}" for bath in day.baths)
    notes += day.warnings
    if day.undyed:
        notes.append(f"Not dyed: {', '.join(day.undyed)}.")
    if day.totals:
        notes.append(f"All baths together: {', '.join(map(amount_words, day.totals))}.")
    return [*notes, DYE_GUIDE]
