"""Reeds numbered in the ways of the trade, and what they are in dents per centimetre."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError
from palette.measures import MM_PER_CM, MM_PER_INCH

__all__ = ["REED_SYSTEMS", "ReedSystem", "dents_per_cm", "ends_for_width"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReedSystem:
    """One way of numbering reeds.

    Attributes
    ----------
    name : str
    dents : float
        Dents that one unit of the number stands for.
    width_mm : float
        In this width.
    label : str
        What the number counts, and the source.
    """

    name: str
    dents: float
    width_mm: float
    label: str


_SYSTEMS = (
    ReedSystem(name="dents per inch", dents=1, width_mm=MM_PER_INCH, label="dents in 1 in"),
    ReedSystem(name="dents per 10 cm", dents=1, width_mm=100.0, label="dents in 10 cm"),
    ReedSystem(
        name="Stockport",
        dents=1,
        width_mm=2 * MM_PER_INCH,
        label="dents in 2 in, so ends in 1 in at two to a dent (Taylor)",
    ),
    ReedSystem(
        name="Bradford",
        dents=20,
        width_mm=36 * MM_PER_INCH,
        label="beers of 20 dents in 36 in (a dictionary of textile terms)",
    ),
    ReedSystem(
        name="Leeds",
        dents=19,
        width_mm=9 * MM_PER_INCH,
        label="porters of 38 ends, two to a dent, in 9 in (a dictionary of textile terms)",
    ),
    ReedSystem(
        name="Scotch porter",
        dents=20,
        width_mm=37 * MM_PER_INCH,
        label="porters of 40 ends, two to a dent, in 37 in (a dictionary of textile terms)",
    ),
    ReedSystem(
        name="Scotch ell",
        dents=1,
        width_mm=37 * MM_PER_INCH,
        label="splits (dents) in 37 in (Brooks, Cotton Manufacturing)",
    ),
)
REED_SYSTEMS: dict[str, ReedSystem] = {system.name: system for system in _SYSTEMS}
"""Reed numberings by name."""


def dents_per_cm(number: float, system: str) -> float:
    """Dents per cm of a reed numbered in one of `REED_SYSTEMS`.

    Parameters
    ----------
    number : float
        As it is stamped on the reed.
    system : str

    Examples
    --------
    >>> round(dents_per_cm(60, "Stockport") * 2.54, 6)
    30.0
    """
    found = REED_SYSTEMS.get(system)
    if found is None:
        rule = f"must be one of {', '.join(REED_SYSTEMS)}"
        raise InputError("reed numbering", rule, got=repr(system))
    if not 0 < number < math.inf:
        raise InputError("reed number", "must be more than 0, and finite", got=f"{number}")
    return number * found.dents / found.width_mm * MM_PER_CM


def ends_for_width(width_mm: float, dents_per_cm: float, *, ends_per_dent: float = 2) -> int:
    """Count the ends that a width of reed holds, whole dents only, to the nearest dent.

    Examples
    --------
    >>> ends_for_width(38 * 25.4, 60 / 2 / 2.54)
    2280
    """
    return round(round(width_mm / 10 * dents_per_cm, 6)) * round(ends_per_dent)
