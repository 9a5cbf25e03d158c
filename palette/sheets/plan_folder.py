"""The folder of a plan: every file that goes to the loom, made together and written together."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from palette.photo.photo import Photo
from palette.plans.brief_file import brief_toml
from palette.plans.making import make_plan
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_to_json
from palette.plans.taking import palette_of, photos_of
from palette.sheets.html import sheet_html
from palette.sheets.pdf import sheet_pdf
from palette.sheets.pictures import stripes_png
from palette.sheets.tables import stripes_csv, yarn_csv
from palette.sheets.thumbnail import thumbnail_jpeg
from palette.sheets.writing import write_folder

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["WrittenPlan", "plan_files", "write_plan_folder"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenPlan:
    """A plan, and the files that it was written to.

    Attributes
    ----------
    plan : Plan
    written : tuple of str
        Paths, in alphabetical order; empty where nothing was to be written.
    """

    plan: Plan
    written: tuple[str, ...] = ()


def plan_files(plan: Plan, brief: Brief, photo: Photo | None = None) -> dict[str, bytes]:
    """Make every file of a plan.

    Parameters
    ----------
    plan : Plan
    brief : Brief
        What it was made from, its paths as they are to stand in ``brief.toml``.
    photo : Photo, optional
        Shown small on the sheets.

    Returns
    -------
    dict of str to bytes
        Contents by file name; the same plan gives the same bytes.
    """
    small = thumbnail_jpeg(photo) if photo is not None else None
    cloth = stripes_png(plan.cloths[0], width_mm=plan.warp.finished_width_mm)
    return {
        "plan.json": plan_to_json(plan).encode(),
        "brief.toml": brief_toml(brief).encode(),
        "stripes.csv": stripes_csv(plan),
        "yarn.csv": yarn_csv(plan),
        "cloth.png": cloth,
        "sheet.pdf": sheet_pdf(plan, photo_jpeg=small, cloth_png=cloth, paper=brief.paper),
        "sheet.html": sheet_html(plan, photo_jpeg=small, cloth_png=cloth),
    }


def write_plan_folder(
    brief: Brief, *, base: Path = Path(), folder: Path | None = None, force: bool = False
) -> WrittenPlan:
    """Do the whole job: photograph to palette, stripes, warp and yarn, and write the files.

    Parameters
    ----------
    brief : Brief
        Everything that is asked.
    base : Path
        Folder that the brief's paths start from.
    folder : Path, optional
        Where the files go; None: the plan is made and nothing is written.
    force : bool
        Whether files that are there may be replaced.

    Raises
    ------
    LeafweftError
        As the stages do, and `OutputError` where the folder cannot be written.
    """
    paths = tuple(base / name for name in brief.photo)
    photos = () if any(path.suffix == ".json" for path in paths) else photos_of(paths, brief)
    named = brief.changed({"name": brief.name or (paths[0].stem if paths else None)})
    plan = make_plan(named, palette_of(paths, named, photos=photos))
    if folder is None:
        return WrittenPlan(plan=plan)
    kept = named.changed({"photo": [_from(folder, path) for path in paths]})
    files = plan_files(plan, kept, photos[0] if photos else None)
    written = write_folder(folder, files, force=force)
    return WrittenPlan(plan=plan, written=tuple(sorted(map(str, written))))


def _from(folder: Path, path: Path) -> str:
    """Path of a photograph as seen from the folder that the brief is written to."""
    return Path(os.path.relpath(path, folder)).as_posix()
