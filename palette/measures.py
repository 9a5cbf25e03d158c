"""Units: every conversion factor, and the reading and writing of quantities.

Base units: millimetres, metres for yarn, grams, tex, threads per centimetre, shares from 0 to 1.
What a person types carries its unit; what is printed follows the system that was typed.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from palette.errors import UnitError
from palette.typed_sizes import one_number

__all__ = [
    "G_PER_OUNCE",
    "G_PER_POUND",
    "MM_PER_CM",
    "MM_PER_INCH",
    "MM_PER_YARD",
    "M_PER_YARD",
    "Density",
    "Length",
    "Mass",
    "Units",
    "format_density",
    "format_length",
    "format_mass",
    "format_share",
    "format_yarn_length",
    "parse_density",
    "parse_length",
    "parse_mass",
    "parse_share",
    "per_cents",
]

MM_PER_CM = 10.0
MM_PER_M = 1000.0
MM_PER_INCH = 25.4  # exact: international inch
MM_PER_FOOT = 12 * MM_PER_INCH
MM_PER_YARD = 36 * MM_PER_INCH
M_PER_YARD = MM_PER_YARD / MM_PER_M
G_PER_POUND = 453.59237  # exact: international avoirdupois pound
G_PER_OUNCE = G_PER_POUND / 16
CM_PER_INCH = MM_PER_INCH / MM_PER_CM


class Units(StrEnum):
    """The two systems in which quantities are read and printed."""

    METRIC = "metric"
    IMPERIAL = "imperial"


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length in millimetres, the system it was typed in, and the text."""

    mm: float
    units: Units
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """Threads per centimetre, the system they were typed in, and the text."""

    per_cm: float
    units: Units
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """A mass in grams, the system it was typed in, and the text."""

    g: float
    units: Units
    text: str = ""


_METRIC, _IMPERIAL = Units.METRIC, Units.IMPERIAL
_LENGTHS: dict[str, tuple[float, Units]] = {
    **dict.fromkeys(["mm"], (1.0, _METRIC)),
    **dict.fromkeys(["cm"], (MM_PER_CM, _METRIC)),
    **dict.fromkeys(["m", "metre", "metres", "meter", "meters"], (MM_PER_M, _METRIC)),
    **dict.fromkeys(["in", "inch", "inches", '"', "″"], (MM_PER_INCH, _IMPERIAL)),
    **dict.fromkeys(["ft", "foot", "feet", "'", "′"], (MM_PER_FOOT, _IMPERIAL)),
    **dict.fromkeys(["yd", "yds", "yard", "yards"], (MM_PER_YARD, _IMPERIAL)),
}
_MASSES: dict[str, tuple[float, Units]] = {
    **dict.fromkeys(["g", "gram", "grams", "gramme", "grammes"], (1.0, _METRIC)),
    **dict.fromkeys(["kg"], (1000.0, _METRIC)),
    **dict.fromkeys(["oz", "ounce", "ounces"], (G_PER_OUNCE, _IMPERIAL)),
    **dict.fromkeys(["lb", "lbs", "pound", "pounds"], (G_PER_POUND, _IMPERIAL)),
}
_DENSITIES: dict[str, tuple[float, Units]] = {
    **dict.fromkeys(["/cm", "per cm"], (1.0, _METRIC)),
    **dict.fromkeys(["/10cm", "/10 cm", "per 10cm", "per 10 cm"], (0.1, _METRIC)),
    **dict.fromkeys(
        ["/in", "/inch", '/"', "per in", "per inch", "epi", "ppi", "dpi"],
        (1 / CM_PER_INCH, _IMPERIAL),
    ),
}
_DECIMAL = r"\d+(?:[.,]\d+)?|[.,]\d+|nan|inf(?:inity)?"
_SIZE = re.compile(
    rf"\s*(?P<number>[+-]?(?:\d+\s+\d+/\d+|\d+/\d+|{_DECIMAL}))\s*(?P<unit>.*?)\s*",
    re.IGNORECASE,
)
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
_RATE = re.compile(rf"\s*(?P<number>[+-]?(?:{_DECIMAL}))\s*(?P<unit>.*?)\s*", re.IGNORECASE)


def _number(text: str) -> float:
    """Value of ``2.5``, ``2,5``, ``1/2`` or ``2 1/2``."""
    if "/" in text:
        sign = -1 if text.startswith("-") else 1
        try:
            return sign * float(sum(Fraction(part) for part in text.lstrip("+-").split()))
        except (ZeroDivisionError, OverflowError):
            return math.nan
    return float(text.replace(",", "."))


def _read(
    text: str,
    table: dict[str, tuple[float, Units]],
    thing: str,
    example: str,
    *,
    zero: bool = False,
) -> tuple[float, Units]:
    """Value in the base unit, and the system; the number is finite and not negative."""
    match = _RATE.fullmatch(text) if table is _DENSITIES else _SIZE.fullmatch(one_number(text))
    if match is None or not match["unit"]:
        rule = "must carry a unit" if match else "must be a number with a unit"
        raise UnitError(thing, rule, got=repr(text), remedy=example)
    unit = match["unit"].lower()
    if unit not in table:
        firsts = {factor: name for name, (factor, _) in reversed(table.items())}
        rule = f"unit must be one of {', '.join(reversed(firsts.values()))}"
        raise UnitError(thing, rule, got=repr(text), remedy=example)
    if _THOUSANDS.fullmatch(match["number"]):
        raise UnitError(thing, "comma must not part thousands", got=repr(text), remedy=example)
    factor, units = table[unit]
    value = _number(match["number"]) * factor
    if not (math.isfinite(value) and value >= 0):
        raise UnitError(thing, "must be 0 or more, and finite", got=repr(text), remedy=example)
    if not (zero or value > 0):
        raise UnitError(thing, "must be more than 0", got=repr(text), remedy=example)
    return value, units


def parse_length(text: str, *, thing: str = "length", zero: bool = False) -> Length:
    """Read a length as a person types it.

    Parameters
    ----------
    text : str
        ``180cm``, ``72 in``, ``2.5 yd``, ``2 1/2 yd``, ``1½ yd``, ``5ft 2in``, ``1,8 m``.
    thing : str
        What is being read, for the message: the option's name.
    zero : bool
        Whether 0 is allowed.

    Raises
    ------
    UnitError
        Without a known unit, negative, not finite, or 0 where `zero` is false.

    Examples
    --------
    >>> parse_length("72 in").mm
    1828.8
    """
    example = "Write it like 180cm, 1.8 m, 72 in or 2.5 yd."
    value, units = _read(text, _LENGTHS, thing, example, zero=zero)
    return Length(mm=value, units=units, text=text.strip())


def parse_mass(text: str, *, thing: str = "mass", zero: bool = False) -> Mass:
    """Read a mass as a person types it: ``250 g``, ``1.2 kg``, ``8 oz``, ``2 lb``.

    Raises UnitError as `parse_length` does.

    Examples
    --------
    >>> parse_mass("1 lb").g
    453.59237
    """
    example = "Write it like 250 g, 1.2 kg, 8 oz or 2 lb."
    value, units = _read(text, _MASSES, thing, example, zero=zero)
    return Mass(g=value, units=units, text=text.strip())


def parse_density(text: str, *, thing: str = "sett") -> Density:
    """Read threads per length: ``8/cm``, ``20/in``, ``20 epi``, ``40/10cm``.

    Raises UnitError as `parse_length` does.

    Examples
    --------
    >>> round(parse_density("20/in").per_cm, 3)
    7.874
    """
    example = "Write it like 8/cm or 20/in."
    value, units = _read(text, _DENSITIES, thing, example)
    return Density(per_cm=value, units=units, text=text.strip())


def parse_share(text: str, *, thing: str = "share") -> float:
    """Read a percentage that must stay under 100: ``10%``, ``10 %``, ``6.5%``.

    Gives a float in [0, 1); raises UnitError without ``%``, or where it is out of range.

    Examples
    --------
    >>> parse_share("10 %")
    0.1
    """
    example = "Write it like 10%."
    match = _SIZE.fullmatch(text)
    if match is None or match["unit"] != "%":
        raise UnitError(thing, "must be a percentage", got=repr(text), remedy=example)
    value = _number(match["number"]) / 100
    if not 0 <= value < 1:
        raise UnitError(thing, "must be from 0 % to under 100 %", got=repr(text), remedy=example)
    return value


def format_length(mm: float, units: Units = Units.METRIC, *, decimals: int = 1) -> str:
    """Cloth length in cm, or inches.

    Examples
    --------
    >>> format_length(1828.8), format_length(1828.8, Units.IMPERIAL)
    ('182.9 cm', '72.0 in')
    """
    if units is Units.IMPERIAL:
        return f"{mm / MM_PER_INCH:.{decimals}f} in"
    return f"{mm / MM_PER_CM:.{decimals}f} cm"


def format_yarn_length(m: float, units: Units = Units.METRIC) -> str:
    """Yarn length in whole metres or yards, rounded up: never short."""
    if units is Units.IMPERIAL:
        return f"{math.ceil(round(m / M_PER_YARD, 6)):d} yd"
    return f"{math.ceil(round(m, 6)):d} m"


def format_mass(g: float, units: Units = Units.METRIC, *, held: bool = False) -> str:
    """Mass in grams or ounces, rounded up: never short; rounded down where it is `held`."""
    whole = math.floor if held else math.ceil
    if units is Units.IMPERIAL:
        return f"{whole(round(g / G_PER_OUNCE * 100, 6)) / 100:.2f} oz"
    return f"{whole(round(g, 6)):d} g"


def format_density(per_cm: float, units: Units = Units.METRIC, *, decimals: int = 2) -> str:
    """Threads per cm or per inch, without needless zeros.

    Examples
    --------
    >>> format_density(8.0), format_density(8.0, Units.IMPERIAL)
    ('8/cm', '20.32/in')
    """
    value, unit = (per_cm * CM_PER_INCH, "in") if units is Units.IMPERIAL else (per_cm, "cm")
    text = f"{value:.{decimals}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}/{unit}"


def format_share(share: float, *, decimals: int = 1) -> str:
    """Share as a percentage: ``12.5 %``."""
    return f"{share * 100:.{decimals}f} %"


def per_cents(shares: tuple[float, ...], *, decimals: int = 1) -> tuple[float, ...]:
    """Shares as rounded per cents whose printed sum is exactly 100.

    Largest remainder (Hamilton's method) on units of the last digit shown; ties go to the
    earlier share.

    Examples
    --------
    >>> per_cents((1 / 3, 1 / 3, 1 / 3))
    (33.4, 33.3, 33.3)
    """
    scale = 10**decimals
    total = math.fsum(shares)
    exact = [share / total * 100 * scale for share in shares]
    floors = [math.floor(round(value, 9)) for value in exact]
    left = 100 * scale - sum(floors)
    by_remainder = sorted(range(len(exact)), key=lambda i: (-round(exact[i] - floors[i], 9), i))
    for i in by_remainder[:left]:
        floors[i] += 1
    return tuple(floor / scale for floor in floors)
