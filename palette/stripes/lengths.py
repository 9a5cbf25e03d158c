"""From a finished length to whole picks, and back."""

from __future__ import annotations

import math

from palette.errors import InputError
from palette.measures import MM_PER_CM
from palette.whole import whole_number

__all__ = ["finished_length_mm", "picks_for_length", "shortest_finished_mm"]

_HALF_TOLERANCE = 1e-9  # keeps 0.5 picks from falling on either side by rounding noise


def _check(length_mm: float, picks_per_cm: float, shrinkage_length: float, step: int) -> None:
    """Refuse quantities out of range; NaN and infinity fail too."""
    for thing, value in (("finished length", length_mm), ("picks per cm", picks_per_cm)):
        if not (value > 0 and math.isfinite(value)):
            raise InputError(thing, "must be more than 0, and finite", got=f"{value}")
    if not 0 <= shrinkage_length < 1:
        rule = "must be from 0 to under 1 of the woven length"
        raise InputError("shrinkage in length", rule, got=f"{shrinkage_length}")
    whole_number("step", step, least=1)


def picks_for_length(
    length_mm: float, picks_per_cm: float, *, shrinkage_length: float = 0.0, step: int = 1
) -> int:
    """Give the picks that come nearest to a finished length.

    Parameters
    ----------
    length_mm : float
        Finished length in mm, after washing.
    picks_per_cm : float
        Counted on the loom.
    shrinkage_length : float
        Share of the woven length lost in washing, in [0, 1): woven = finished / (1 - shrinkage).
    step : int
        The result is a multiple of it; a half goes up.

    Returns
    -------
    int
        May be 0 where the cloth is shorter than half a step.

    Raises
    ------
    InputError
        A quantity is out of range.

    Examples
    --------
    >>> picks_for_length(1800, 20 / 2.54, shrinkage_length=0.1)
    1575
    >>> picks_for_length(1800, 20 / 2.54, shrinkage_length=0.1, step=2)
    1574
    """
    _check(length_mm, picks_per_cm, shrinkage_length, step)
    exact = length_mm / (1 - shrinkage_length) * picks_per_cm / MM_PER_CM / step
    if not math.isfinite(exact):
        raise InputError("finished length", "must be a length that cloth has", got=f"{length_mm}")
    return math.floor(exact + 0.5 + _HALF_TOLERANCE) * step


def finished_length_mm(picks: int, picks_per_cm: float, shrinkage_length: float = 0.0) -> float:
    """Finished length in mm that a number of picks gives.

    Examples
    --------
    >>> round(finished_length_mm(1575, 20 / 2.54, 0.1), 3)
    1800.225
    """
    return picks / picks_per_cm * MM_PER_CM * (1 - shrinkage_length)


def shortest_finished_mm(picks: int, picks_per_cm: float, shrinkage_length: float) -> float:
    """Finished length in mm, rounded up to a whole mm, that holds at least these picks.

    Examples
    --------
    >>> shortest_finished_mm(96, 8, 0.1)
    108.0
    """
    return float(math.ceil(round(finished_length_mm(picks, picks_per_cm, shrinkage_length), 6)))
