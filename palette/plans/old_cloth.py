"""An old textile: its stripes read off a photograph, and the plan they make."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from palette.clusters.threads import one_thread
from palette.measures import MM_PER_CM, Units, format_density, format_share
from palette.plans.making import plan_from_stripes
from palette.plans.plan import Plan
from palette.plans.taking import photos_of
from palette.stripes.plan import StripePlan
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
    with one_thread():  # sums that are split among threads differ in the last digits
        return read_cloth(
            photo,
            picks_per_cm=brief.picks.per_cm if "picks" in given else None,
            width_mm=brief.width.mm if "width" in given else None,
            length_mm=brief.length.mm if "length" in given else None,
            upright=upright,
        )


def plan_of_reading(reading: ClothReading, brief: Brief) -> Plan:
    """Make a plan of what was read: its stripes and size as they are, warp and yarn by the brief.

    The old cloth has been washed: its size is the finished one, and its picks are beaten less
    close on the loom by what shrinkage will take.

    Raises
    ------
    InputError
        The reading has no scale.
    """
    cloth = plan_from_reading(
        reading, shrinkage_length=brief.shrinkage_along, name=brief.name or ""
    )
    cloth = replace(cloth, warnings=(*cloth.warnings, *_beat_note(reading, cloth, brief)))
    return plan_from_stripes(_as_measured(brief, reading, cloth), (cloth,), yarn_known=False)


def _as_measured(brief: Brief, reading: ClothReading, cloth: StripePlan) -> Brief:
    """Give the brief the size of the cloth, and the picks that it is beaten with."""
    length = cloth.true_finished_length_mm
    measured = {"picks": f"{cloth.picks_per_cm:.6g}/cm", "length": f"{length / MM_PER_CM:.6g}cm"}
    if reading.width_mm is not None:
        measured["width"] = f"{reading.width_mm / MM_PER_CM:.6g}cm"
    return brief.changed(measured)


def _beat_note(reading: ClothReading, cloth: StripePlan, brief: Brief) -> tuple[str, ...]:
    """Say what the picks counted on the finished cloth are on the loom."""
    if reading.picks_per_cm is None or not cloth.shrinkage_length:
        return ()
    units = brief.unit_system
    return (
        f"Size and picks are those of the washed cloth: beat {_dense(cloth.picks_per_cm, units)} "
        f"on the loom for its {_dense(reading.picks_per_cm, units)}, at "
        f"{format_share(cloth.shrinkage_length)} shrinkage.",
    )


def _dense(per_cm: float, units: Units) -> str:
    return format_density(per_cm, units, decimals=1)
