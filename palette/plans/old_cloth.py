"""An old textile: its stripes read off a photograph, and the plan they make."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from palette.plans.making import plan_from_stripes
from palette.plans.plan import Plan
from palette.plans.taking import photos_of
from palette.stripes.reading import read_cloth
from palette.stripes.reading_plan import plan_from_reading
from palette.stripes.reading_values import ClothReading

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["plan_of_reading", "read_old_cloth"]


def read_old_cloth(
    path: Path, brief: Brief, *, given: tuple[str, ...] = (), upright: bool | None = None
) -> ClothReading:
    """Read the stripes off a photograph of a cloth.

    Parameters
    ----------
    path : Path
    brief : Brief
        `width` and `length` are those of the cloth in the picture, `picks` its density.
    given : tuple of str
        Which of width, length and picks are known; the others are the brief's defaults.
    upright : bool, optional
        Whether the stripes stand upright in the picture; None: found.

    Raises
    ------
    PhotoError, WeavingError
        A picture that cannot be opened, or shows no stripes.
    """
    (photo,) = photos_of((path,), brief)
    return read_cloth(
        photo,
        picks_per_cm=brief.picks.per_cm if "picks" in given else None,
        width_mm=brief.width.mm if "width" in given else None,
        length_mm=brief.length.mm if "length" in given else None,
        upright=upright,
    )


def plan_of_reading(reading: ClothReading, brief: Brief) -> Plan:
    """Make a plan of what was read: its stripes as they are, warp and yarn by the brief.

    Raises
    ------
    InputError
        The reading has no scale.
    """
    cloth = plan_from_reading(
        reading, shrinkage_length=brief.shrinkage_along, name=brief.name or ""
    )
    return plan_from_stripes(brief, (cloth,))
