"""Whole numbers: picks, ends and steps are counted, never measured."""

from __future__ import annotations

import operator
from typing import SupportsIndex

from palette.errors import InputError

__all__ = ["whole_number"]


def whole_number(thing: str, value: SupportsIndex, *, least: int = 0) -> int:
    """Plain int of a whole number of any type, such as numpy's.

    Parameters
    ----------
    thing : str
        What it counts, for the refusal.
    value : int, or a number of a library that is one
    least : int

    Returns
    -------
    int

    Raises
    ------
    InputError
        Where it is no whole number (2.5, and 2.0 and True as well), or less than `least`.

    Examples
    --------
    >>> whole_number("picks", 12, least=1)
    12
    >>> whole_number("picks", 2.5)
    Traceback (most recent call last):
    palette.errors.InputError: picks: must be a whole number; got 2.5.
    """
    try:
        number = operator.index(value)
    except TypeError:
        raise InputError(thing, "must be a whole number", got=f"{value}") from None
    if isinstance(value, bool):
        raise InputError(thing, "must be a whole number", got=f"{value}")
    if number < least:
        raise InputError(thing, f"must be at least {least}", got=f"{number}")
    return number
