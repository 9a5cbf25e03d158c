"""Amounts and volumes as a dyer weighs and measures them."""

from __future__ import annotations

import math

__all__ = ["DYE_GUIDE", "measured", "volume"]

DYE_GUIDE = (
    "Depths of shade and colours are a guide. Dye a sample skein first, rinse it, dry it, and "
    "judge it by daylight."
)


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
