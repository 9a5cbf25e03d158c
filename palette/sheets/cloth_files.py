"""The files of ``leafweft cloth``: the pictures of a planned cloth."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from palette.cloth.own_samples import OwnYarn
from palette.cloth.weft_yarns import WeftYarn
from palette.plans.plan import Plan
from palette.sheets.cloth_pictures import beside_png, close_up_png, room_png
from palette.sheets.places import check_folder
from palette.sheets.writing import write_folder

__all__ = ["write_cloth_pictures"]


def write_cloth_pictures(
    plan: Plan,
    folder: Path,
    *,
    own: OwnYarn | None = None,
    yarns: Mapping[str, WeftYarn] | None = None,
    force: bool = False,
) -> tuple[Path, ...]:
    """Write the pictures of every cloth: across the room, close up, and wefts side by side.

    Raises
    ------
    OutputError
        A file is there already and `force` is false, or the place cannot be written.
    """
    check_folder(folder, force=force)
    files = {"across-the-room.png": room_png(plan, own=own, yarns=yarns, pixels_per_cm=12)}
    for number, cloth in enumerate(plan.cloths, 1):
        ending = f"-{number}" if len(plan.cloths) > 1 else ""
        files[f"close-up{ending}.png"] = close_up_png(plan, cloth, yarns=yarns)
        files[f"wefts-beside{ending}.png"] = beside_png(plan, cloth, own=own)
    return write_folder(folder, files, force=force)
