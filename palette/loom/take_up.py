"""Take-up and shrinkage: measured ones turned into shares, and Taylor's estimate."""

from __future__ import annotations

import math

from palette.errors import InputError

__all__ = [
    "CLOSE_CLOTH",
    "MEDIUM_CLOTH",
    "crimp_from_take_up",
    "estimated_take_up",
    "share_lost",
    "size_before",
    "take_up_from_crimp",
]

CLOSE_CLOTH = 4.0
"""Taylor's factor for a closely woven cotton cloth."""

MEDIUM_CLOTH = 3.0
"""Taylor's factor for a cotton cloth of medium closeness."""


def take_up_from_crimp(crimp: float) -> float:
    """Share of the yarn's own length lost, from the crimp counted on the length of the cloth.

    t = c / (1 + c). A "regain" or "milling-up" that is added to the cloth is a crimp.

    Examples
    --------
    >>> round(take_up_from_crimp(5 / 90), 4)
    0.0526
    """
    if not 0 <= crimp < math.inf:
        raise InputError("crimp", "must be 0 or more, and finite", got=f"{crimp}")
    return crimp / (1 + crimp)


def crimp_from_take_up(take_up: float) -> float:
    """Crimp counted on the length of the cloth: c = t / (1 - t).

    Examples
    --------
    >>> round(crimp_from_take_up(0.08), 4)
    0.087
    """
    if not 0 <= take_up < 1:
        raise InputError("take-up", "must be from 0 to under 1", got=f"{take_up}")
    return take_up / (1 - take_up)


def estimated_take_up(
    picks_per_inch: float,
    weft_nec: float,
    *,
    interlacings_per_pick: float = 1.0,
    factor: float = MEDIUM_CLOTH,
) -> float:
    """Estimate the warp's take-up in a cotton cloth, as a share of the warp's own length.

    Taylor's rule gives the per cent of the cloth that the warp is longer, a crimp:
    interlacings per inch x factor / weft count. It is turned into a take-up here.

    Parameters
    ----------
    picks_per_inch : float
        The rule is printed for inches.
    weft_nec : float
        Resultant cotton count of the weft.
    interlacings_per_pick : float
        1 in plain weave; 2/5 in a five-end satin.
    factor : float
        `CLOSE_CLOTH` or `MEDIUM_CLOTH`.

    Returns
    -------
    float
        In [0, 1).

    References
    ----------
    Taylor, *Cotton Weaving and Designing*, 6th ed.

    Examples
    --------
    >>> round(crimp_from_take_up(estimated_take_up(60, 40)) * 100, 2)
    4.5
    """
    quantities = {"picks": picks_per_inch, "weft count": weft_nec, "factor": factor}
    for name, value in {**quantities, "interlacings": interlacings_per_pick}.items():
        if not 0 < value < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{value}")
    crimp = picks_per_inch * interlacings_per_pick * factor / weft_nec / 100
    return take_up_from_crimp(crimp)


def share_lost(before: float, after: float) -> float:
    """Measure a shrinkage, a draw-in or a take-up: (before - after) / before.

    Parameters
    ----------
    before, after : float
        The same length before and after, in one unit.

    Examples
    --------
    >>> share_lost(10, 8.5)
    0.15
    """
    if not 0 < after <= before < math.inf:
        rule = "size after must be more than 0, and at most the size before"
        raise InputError("share lost", rule, got=f"{before} before and {after} after")
    return (before - after) / before


def size_before(after: float, lost: float) -> float:
    """Size that is needed before a loss: after / (1 - lost). It divides, it does not add.

    Examples
    --------
    >>> size_before(10, 0.2)
    12.5
    """
    if not 0 <= lost < 1:
        raise InputError("share lost", "must be from 0 to under 1", got=f"{lost}")
    return after / (1 - lost)
