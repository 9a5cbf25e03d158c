"""A colour as a person types it."""

from __future__ import annotations

import math
import re

from palette.errors import InputError
from palette.perception.spaces import hex_to_lab

__all__ = ["parse_colour"]

_HEX = re.compile(r"#?[0-9a-fA-F]{6}|#[0-9a-fA-F]{3}")
_FIGURE = r"([+-]?\d+(?:\.\d+)?)"
_LAB = re.compile(rf"(?:lab\s*)?\(?\s*{_FIGURE}[\s,]+{_FIGURE}[\s,]+{_FIGURE}\s*\)?", re.IGNORECASE)
_WAYS = "Write it like #5d733a, 45 -15 29 (CIELAB) or moss green."


def parse_colour(text: str, *, thing: str = "colour") -> tuple[float, float, float]:
    """Read a colour: a hex code, three CIELAB numbers, or a name that people use.

    Parameters
    ----------
    text : str
        ``#5d733a``, ``45 -15 29``, ``lab(45, -15, 29)``, ``moss green``.
    thing : str
        What is being read, for the message.

    Returns
    -------
    tuple of 3 float
        CIELAB, illuminant D65, 2 degree observer.

    Raises
    ------
    InputError
        None of these, or a lightness outside 0 to 100.

    Notes
    -----
    Names are those of a survey of 222 500 naming sessions (Munroe, 2010) that matplotlib carries.

    Examples
    --------
    >>> parse_colour("45 -15 29")
    (45.0, -15.0, 29.0)
    """
    text = text.strip()
    if match := _HEX.fullmatch(text):
        return hex_to_lab(match[0])
    if match := _LAB.fullmatch(text):
        lightness, a, b = map(float, match.groups())
        if not (0 <= lightness <= 100 and math.hypot(a, b) <= 200):
            rule = "CIELAB must have L from 0 to 100 and a chroma up to 200"
            raise InputError(thing, rule, got=repr(text))
        return lightness, a, b
    from matplotlib.colors import XKCD_COLORS

    code = XKCD_COLORS.get(f"xkcd:{text.lower()}")
    if code is None:
        raise InputError(thing, "must be a colour", got=repr(text), remedy=_WAYS)
    return hex_to_lab(code)
