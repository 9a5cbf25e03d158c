"""Sizes as people write them: ``5ft 2in``, ``1½ yd``, ``1 000 m``, as one number and one unit."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

__all__ = ["one_number"]

_SMALLEST: dict[str, tuple[int, str]] = {
    **dict.fromkeys(["in", "inch", "inches", '"', "″"], (1, "in")),
    **dict.fromkeys(["ft", "foot", "feet", "'", "′"], (12, "in")),
    **dict.fromkeys(["yd", "yds", "yard", "yards"], (36, "in")),
    **dict.fromkeys(["mm"], (1, "mm")),
    **dict.fromkeys(["cm"], (10, "mm")),
    **dict.fromkeys(["m", "metre", "metres", "meter", "meters"], (1000, "mm")),
    **dict.fromkeys(["oz", "ounce", "ounces"], (1, "oz")),
    **dict.fromkeys(["lb", "lbs", "pound", "pounds"], (16, "oz")),
    **dict.fromkeys(["g", "gram", "grams", "gramme", "grammes"], (1, "g")),
    **dict.fromkeys(["kg"], (1000, "g")),
}
"""How many of the smallest unit of its kind each unit has."""
_THOUSANDS = re.compile(r"(?<![\d.,/])\d{1,3}(?:[ \u00a0\u2009\u202f]\d{3})+(?![\d/])")
_POWER = re.compile(r"(\d+(?:\.\d+)?)e([+-]?\d{1,2})(?![\d.,])", re.IGNORECASE)
_PART = re.compile(
    r"\s*(\d{1,9}\s+\d{1,9}/\d{1,9}|\d{1,9}/\d{1,9}|\d{1,9}(?:[.,]\d{1,9})?)\s*([a-z]+|[\"'″′])",
    re.IGNORECASE,
)


def one_number(text: str) -> str:
    """Write a size that a person typed with one number and one unit; others stay as they are.

    Parameters
    ----------
    text : str
        ``5ft 2in``, ``5' 2"``, ``1½ yd``, ``1e3cm``, ``1 000 m``, ``1 lb 8 oz``.

    Examples
    --------
    >>> one_number("5ft 2in"), one_number("1½ yd"), one_number("1 000 m"), one_number("1e3cm")
    ('62 in', '1 1/2 yd', '1000 m', '1000cm')
    """
    plain = "".join(map(_fraction, text))
    plain = _THOUSANDS.sub(lambda found: re.sub(r"\D", "", found[0]), plain)
    plain = _POWER.sub(_written_out, plain)
    return _summed(plain) or plain


def _fraction(character: str) -> str:
    """Write ``½`` as a number of its own, ``1/2``."""
    if unicodedata.category(character) != "No" or "⁄" not in unicodedata.normalize(
        "NFKC", character
    ):
        return character
    return f" {unicodedata.normalize('NFKC', character).replace('⁄', '/')}"


def _written_out(found: re.Match[str]) -> str:
    value = Fraction(found[1]) * Fraction(10) ** int(found[2])
    return f"{value.numerator}" if value.denominator == 1 else f"{float(value):f}"


def _summed(text: str) -> str:
    """Add parts of one kind, the larger unit first; "" where the text is no such thing."""
    parts = list(_PART.finditer(text))
    if len(parts) < 2 or "".join(part[0] for part in parts) != text.rstrip():
        return ""
    units = [_SMALLEST.get(part[2].lower()) for part in parts]
    factors = [unit[0] for unit in units if unit]
    kinds = {unit[1] if unit else "" for unit in units}
    if kinds & {""} or len(kinds) > 1 or factors != sorted(set(factors), reverse=True):
        return ""
    try:
        total = sum(
            sum(map(Fraction, part[1].replace(",", ".").split())) * factor
            for part, factor in zip(parts, factors, strict=True)
        )
    except ZeroDivisionError:
        return ""
    return f"{total} {kinds.pop()}"
