"""The count of a yarn without a label: from a weighed skein, wraps, or a yarn balance."""

from __future__ import annotations

import math
from decimal import Decimal

from palette.errors import InputError
from palette.loom.fibres import FIBRES
from palette.loom.sett import WRAPS_READ_LOW
from palette.measures import MM_PER_INCH
from palette.yarn.count import YarnCount, parse_count

__all__ = [
    "count_from_balance",
    "count_from_skein",
    "count_from_wraps",
    "skein_length_m",
    "wraps_per_cm",
]

_BALANCE_YD_PER_LB = 100  # a yarn balance: inches that balance x 100 = yards per pound


def _check(**quantities: float) -> None:
    for name, value in quantities.items():
        if not 0 < value < math.inf:
            thing = name.replace("_", " ")
            raise InputError(thing, "must be more than 0, and finite", got=f"{value}")


def _plain(value: float, digits: int) -> str:
    """Write a number with so many digits and no exponent, as a count is written."""
    return f"{Decimal(f'{value:.{digits}g}'):f}"


def skein_length_m(round_m: float, strands: float) -> float:
    """Metres in a skein: once round x strands.

    Measure the finished, relaxed skein: tension and washing can shorten a yarn by a fifth.

    Examples
    --------
    >>> round(skein_length_m(2 * 0.9144, 100), 2)  # a two-yard niddy-noddy
    182.88
    """
    _check(once_round=round_m, strands=strands)
    return round_m * strands


def count_from_skein(length_m: float, mass_g: float) -> YarnCount:
    """Count of a yarn from the length and the mass of one skein.

    Parameters
    ----------
    length_m, mass_g : float
        Of the same skein, washed and dry.

    Returns
    -------
    YarnCount
        Its label is metres per 100 g.

    Examples
    --------
    >>> count_from_skein(240, 60).label
    '400 m/100 g'
    """
    _check(skein_length=length_m, skein_mass=mass_g)
    return parse_count(f"{_plain(length_m / mass_g * 100, 10)} m/100 g")


def wraps_per_cm(threads: float, width_mm: float) -> float:
    """Count wraps per cm: threads that lie just touching in a width.

    Examples
    --------
    >>> wraps_per_cm(20, 25)
    8.0
    """
    _check(threads=threads, width=width_mm)
    return threads / width_mm * 10


def count_from_wraps(wraps: float, *, fibre: str = "cotton") -> YarnCount:
    """Guess a count from measured wraps per cm; weigh a skein to know it.

    Ashenhurst's rule turned round, with wraps taken to read low as they do in practice: the
    root is taken of the count, so one wrap in ten wrong is a fifth of the count.

    Parameters
    ----------
    wraps : float
        Per cm.
    fibre : str
        One of `palette.loom.fibres.FIBRES`.

    Returns
    -------
    YarnCount
    """
    _check(wraps=wraps)
    if fibre not in FIBRES:
        raise InputError("fibre", f"must be one of {', '.join(FIBRES)}", got=repr(fibre))
    diameters_per_inch = wraps / WRAPS_READ_LOW * MM_PER_INCH / 10
    yd_per_lb = (diameters_per_inch / FIBRES[fibre].constant) ** 2
    return parse_count(f"{_plain(yd_per_lb, 4)} yd/lb")


def count_from_balance(length_mm: float) -> YarnCount:
    """Count from a yarn balance made for it: inches that balance x 100 = yards per pound.

    Examples
    --------
    >>> count_from_balance(9 * 25.4).label
    '900 yd/lb'
    """
    _check(length_that_balances=length_mm)
    return parse_count(f"{_plain(length_mm / MM_PER_INCH * _BALANCE_YD_PER_LB, 10)} yd/lb")
