"""Quantities of a brief as they are typed: with a unit, and within what a hand loom holds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from palette.errors import BriefError, UnitError
from palette.measures import Density, Length, parse_density, parse_length, parse_share
from palette.plans.brief_faults import said

if TYPE_CHECKING:
    from pydantic import ValidationInfo

__all__ = [
    "check_lengths",
    "read_density",
    "read_length",
    "read_length_or_zero",
    "read_share",
    "thing_of",
]

_LONGEST_M, _WIDEST_M = 50, 10  # no hand loom holds more: common practice
_MOST_PER_CM = 400  # the finest silk has some 100 to 150: common practice
_LONGEST_TEXT = 4000  # a draft typed out for 700 ends has 1400


def thing_of(info: ValidationInfo) -> str:
    """Name a key as a person writes it."""
    return (info.field_name or "value").replace("_", "-")


def _text(value: object, info: ValidationInfo, example: str) -> str:
    if not isinstance(value, str):
        remedy = f'Write it like "{example}", in quotes.'
        raise UnitError(thing_of(info), "must be text with a unit", got=said(value), remedy=remedy)
    return value


def read_length(value: object, info: ValidationInfo, *, zero: bool = False) -> Length:
    """Read a length that a loom can hold."""
    length = parse_length(_text(value, info, "180cm"), thing=thing_of(info), zero=zero)
    most = _WIDEST_M if info.field_name == "width" else _LONGEST_M
    if length.mm > most * 1000:
        rule = f"must be at most {most} m"
        raise UnitError(thing_of(info), rule, got=repr(length.text), remedy="Look at its unit.")
    return length


def read_length_or_zero(value: object, info: ValidationInfo) -> Length:
    """Read a length that may be none."""
    return read_length(value, info, zero=True)


def read_density(value: object, info: ValidationInfo) -> Density:
    """Read a density that threads can have."""
    density = parse_density(_text(value, info, "8/cm"), thing=thing_of(info))
    if density.per_cm > _MOST_PER_CM:
        rule = f"must be at most {_MOST_PER_CM}/cm"
        got, remedy = repr(density.text), "Look at its unit."
        raise UnitError(thing_of(info), rule, got=got, remedy=remedy)
    return density


def read_share(value: object, info: ValidationInfo) -> float:
    """Read a per cent."""
    return parse_share(_text(value, info, "10%"), thing=thing_of(info))


def check_lengths(asked: Mapping[str, object], where: Callable[[str], str]) -> None:
    """Refuse a text of a brief that is longer than anything that can be meant."""
    for key, value in asked.items():
        for text in value if isinstance(value, list | tuple) else (value,):
            if isinstance(text, str) and len(text) > _LONGEST_TEXT:
                rule = f"must be at most {_LONGEST_TEXT:,} characters"
                raise BriefError(where(key), rule, got=f"{len(text):,}")
