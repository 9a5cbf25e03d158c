"""Reading a yarn count from text, and refusing the ones that could mean two yarns."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace

from palette.errors import CountError
from palette.measures import G_PER_OUNCE, G_PER_POUND, M_PER_YARD
from palette.yarn.systems import SYSTEMS, CountSystem, system_named

__all__ = ["Reading", "read_count"]

MOST_PLIES = 12
"""More plies than this is no reading of a count: common practice."""

_EXAMPLE = (
    "Write it like NeC 8/2, NeK 2/20, NeL 16/2, Nm 2/28, tex 74x2, R 74 tex/2, 840 yd/lb "
    "or 400 m/100 g."
)
_NUMBER = r"\d+(?:[.,]\d+)?|[.,]\d+"
_CONTRACTION = re.compile(rf"(.*?)\s*,?\s*contraction\s+({_NUMBER})\s*%\s*", re.IGNORECASE)
_LENGTH_UNITS = {"m": 1.0, "km": 1000.0, "yd": M_PER_YARD, "yds": M_PER_YARD}
_MASS_UNITS = {"g": 1.0, "kg": 1000.0, "oz": G_PER_OUNCE, "lb": G_PER_POUND}
_GRIST = re.compile(
    rf"({_NUMBER})\s*(m|km|yds?)\s*(?:/|per)\s*({_NUMBER})?\s*(g|kg|oz|lb)", re.IGNORECASE
)
_RESULTANT = re.compile(
    rf"R(?:\s*({_NUMBER})\s*([a-z]+)|\s+([a-z]+)\s*({_NUMBER}))\s*/\s*(\d+)", re.IGNORECASE
)
_S = r"(?:\s*s(?![a-z]))?"
_SIZES = rf"(?P<first>{_NUMBER}){_S}(?:\s*(?P<mark>[/x×])\s*(?P<second>{_NUMBER}){_S})?"
_NAMED = re.compile(
    rf"(?:(?P<before>[a-z][a-z /]*?)\s*)?{_SIZES}(?:\s*(?P<after>[a-z][a-z /]*?))?"
    rf"(?:\s*(?P<late_mark>[/x×])\s*(?P<late>\d+))?",
    re.IGNORECASE,
)
_AMBIGUOUS_NAMES = {"ne": ("NeC", "NeL", "NeK")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a count says, before the contraction is worked in.

    Attributes
    ----------
    label : str
        The count in its usual form.
    singles_tex : tuple of float
    resultant : bool
        True where the figure given is that of the finished yarn.
    contraction : float
        Share named in the text, 0 where there was none.
    """

    label: str
    singles_tex: tuple[float, ...]
    resultant: bool = False
    contraction: float = 0.0


def _value(text: str) -> float:
    return float(text.replace(",", "."))


def _tex(system: CountSystem, number: float) -> float:
    return system.factor * number if system.direct else system.factor / number


def _plain(number: float) -> str:
    return f"{number:.10g}"


def _plied(system: CountSystem, size: float, plies: int) -> Reading:
    """Read `plies` equal singles in the usual written form of the system."""
    if system.direct:
        text = f"{_plain(size)}x{plies}" if plies > 1 else _plain(size)
    elif plies == 1:
        text = _plain(size)
    elif not _in_order(size, plies):  # the usual form could be read the other way round
        text = f"{_plain(size)}x{plies}"
    else:
        text = f"{_plain(size)}/{plies}" if system.size_first else f"{plies}/{_plain(size)}"
    return Reading(label=f"{system.key} {text}", singles_tex=(_tex(system, size),) * plies)


def _in_order(size: float, plies: float) -> bool:
    return plies <= size


def _figures(reading: Reading) -> str:
    tex = sum(reading.singles_tex)
    shown = f"{tex:.0f}" if tex >= 100 else f"{tex:.3g}"
    return f"{reading.label} ({shown} tex, {1e6 / tex:.0f} m/kg)"


def _choices(readings: list[Reading]) -> str:
    said = [_figures(reading) for reading in readings]
    return f"{', '.join(said[:-1])} or {said[-1]}" if len(said) > 1 else said[0]


def _refuse(text: str, thing: str, rule: str, readings: list[Reading]) -> CountError:
    remedy = f"It could be {_choices(readings)}: write one of these."
    return CountError(thing, rule, got=repr(text), remedy=remedy)


def _pairs(first: float, second: float) -> list[tuple[float, int]]:
    """Each way to read two numbers as (size, plies)."""
    ways = [(first, second), (second, first)]
    return [
        (size, int(plies))
        for size, plies in dict.fromkeys(ways)
        if plies.is_integer() and 1 <= plies <= MOST_PLIES
    ]


def _slashed(text: str, system: CountSystem, first: float, second: float, thing: str) -> Reading:
    """Read two numbers with a slash in a named system."""
    if system.direct:
        plies = _whole_plies(text, second, thing)
        ways = [_plied(system, first, plies), _resultant(system, first, plies)]
        raise _refuse(text, thing, "must say which figure it gives", ways)
    pairs = _pairs(first, second)
    if not pairs:
        rule = f"must have from 1 to {MOST_PLIES} plies"
        raise CountError(thing, rule, got=repr(text), remedy=_EXAMPLE)
    usual = (first, second) if system.size_first else (second, first)
    if len(pairs) > 1 and not _in_order(*usual):
        ways = [
            replace(_plied(system, size, plies), label=f"{system.key} {_plain(size)}x{plies}")
            for size, plies in pairs
        ]
        raise _refuse(text, thing, "must say which number is the plies", ways)
    size, count = pairs[0] if len(pairs) == 1 else usual
    return _plied(system, size, int(count))


def _crossed(text: str, system: CountSystem, first: float, second: float, thing: str) -> Reading:
    """Read ``37x2``: the single, then how many; ``2x37`` where only that makes sense."""
    if not _is_plies(second) and _is_plies(first):
        first, second = second, first
    return _plied(system, first, _whole_plies(text, second, thing))


def _is_plies(number: float) -> bool:
    return number.is_integer() and 1 <= number <= MOST_PLIES


def _whole_plies(text: str, number: float, thing: str) -> int:
    if not _is_plies(number):
        rule = f"must have a whole number of plies from 1 to {MOST_PLIES}"
        raise CountError(thing, rule, got=repr(text), remedy=_EXAMPLE)
    return int(number)


def _resultant(system: CountSystem, number: float, plies: int) -> Reading:
    tex = _tex(system, number)
    label = f"R {_plain(number)} {system.key}/{plies}"
    return Reading(label=label, singles_tex=(tex / plies,) * plies, resultant=True)


def _bare(text: str, thing: str, first: float, mark: str, second: float | None) -> CountError:
    """Refusal of numbers without a system, with what they could be."""
    usual = [SYSTEMS[key] for key in ("NeC", "NeL", "NeK", "Nm")]
    if second is None:
        readings = [_plied(system, first, 1) for system in (*usual, SYSTEMS["tex"])]
    elif mark == "/":
        pairs = _pairs(first, second)
        likely = [pair for pair in pairs if _in_order(*pair)] or pairs
        readings = [_plied(system, *pair) for pair in likely for system in usual]
    elif _is_plies(second):
        readings = [_plied(system, first, int(second)) for system in (SYSTEMS["tex"], *usual)]
    else:
        readings = []
    if not readings:
        return CountError(thing, "must name its system", got=repr(text), remedy=_EXAMPLE)
    return _refuse(text, thing, "must name its system", readings)


def _grist(match: re.Match[str], text: str, thing: str) -> Reading:
    """Read a length per weight."""
    number, length_unit, per, mass_unit = match.groups()
    length = _positive(number, text, thing)
    mass = _positive(per, text, thing) if per else 1.0
    length_unit = length_unit.lower().removesuffix("s")
    mass_unit = mass_unit.lower()
    tex = 1000 * mass * _MASS_UNITS[mass_unit] / (length * _LENGTH_UNITS[length_unit])
    weight = f"{_plain(mass)} {mass_unit}" if per else mass_unit
    label = f"{_plain(length)} {length_unit}/{weight}"
    return Reading(label=label, singles_tex=(tex,), resultant=True)


def _positive(number: str, text: str, thing: str) -> float:
    value = _value(number)
    if not 0 < value < math.inf:
        raise CountError(thing, "must be more than 0", got=repr(text), remedy=_EXAMPLE)
    return value


def _named(name: str, text: str, numbers: str, thing: str) -> CountSystem:
    """System of this name; a name that several systems share is refused."""
    found = system_named(name)
    if found is not None:
        return found
    shared = _AMBIGUOUS_NAMES.get(name.lower())
    if shared:
        rule = f"system {name!r} must be one of {', '.join(shared)}"
        remedy = f"Write {' or '.join(f'{key} {numbers}' for key in shared)}."
        raise CountError(thing, rule, got=repr(text), remedy=remedy)
    rule = f"system must be one of {', '.join(SYSTEMS)}"
    raise CountError(thing, rule, got=repr(text), remedy=_EXAMPLE)


def _component(text: str, thing: str, inherited: CountSystem | None) -> Reading:
    """Read one yarn of a plied one, or of the whole."""
    grist = _GRIST.fullmatch(text)
    if grist:
        return _grist(grist, text, thing)
    resultant = _RESULTANT.fullmatch(text)
    if resultant:
        number, name = resultant[1] or resultant[4], resultant[2] or resultant[3]
        system = _named(name, text, number, thing)
        plies = _whole_plies(text, float(resultant[5]), thing)
        _positive(number, text, thing)
        return _resultant(system, _value(number), plies)
    return _numbered(text, thing, inherited)


def _numbered(text: str, thing: str, inherited: CountSystem | None) -> Reading:
    """Read a count in a numbered system, the name before or after the number."""
    match = _NAMED.fullmatch(text)
    if match is None or (match["second"] and match["late"]):
        raise CountError(thing, "cannot be read", got=repr(text), remedy=_EXAMPLE)
    if match["before"] and match["after"]:
        raise CountError(thing, "must name one system", got=repr(text), remedy=_EXAMPLE)
    first = _positive(match["first"], text, thing)
    mark, later = match["mark"] or match["late_mark"] or "", match["second"] or match["late"]
    second = _positive(later, text, thing) if later else None
    name = match["before"] or match["after"]
    numbers = f"{match['first']}{mark}{later or ''}"
    system = _named(name, text, numbers, thing) if name else inherited
    if system is None:
        raise _bare(text, thing, first, mark, second)
    if second is None:
        return _plied(system, first, 1)
    read = _slashed if mark == "/" else _crossed
    return read(text, system, first, second, thing)


def read_count(text: str, thing: str) -> Reading:
    """Read a count; see `palette.yarn.count.parse_count` for the notations and refusals.

    Examples
    --------
    >>> read_count("20s cotton", "yarn").label
    'NeC 20'
    """
    body, contraction = text.strip(), 0.0
    match = _CONTRACTION.fullmatch(body)
    if match:
        body, contraction = match[1], _value(match[2]) / 100
    readings: list[Reading] = []
    system: CountSystem | None = None
    for part in (piece.strip() for piece in body.split("+")):
        reading = _component(part, thing, system)
        system = system_named(reading.label.rsplit(" ", 1)[0]) or system
        readings.append(reading)
    if len(readings) == 1:
        return replace(readings[0], contraction=contraction)
    return Reading(
        label=" + ".join(reading.label for reading in readings),
        singles_tex=tuple(tex for reading in readings for tex in reading.singles_tex),
        contraction=contraction,
    )
