"""The folder of a plan: every file that goes to the loom, made together and written together."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import OutputError
from palette.photo.photo import Photo
from palette.plain_text import plain
from palette.plans.brief_file import brief_toml, paths_of, with_paths
from palette.plans.cloths import open_photos, plan_cloths
from palette.plans.making import plan_from_stripes
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_to_json
from palette.sheets.archive import archive_bytes
from palette.sheets.cloth_pictures import room_png
from palette.sheets.html import sheet_html
from palette.sheets.keeping import keeping
from palette.sheets.pdf import sheet_pdf
from palette.sheets.places import check_file, check_folder
from palette.sheets.tables import stripes_csv, yarn_csv
from palette.sheets.thumbnail import thumbnail_jpeg
from palette.sheets.woven_strip import woven_strip_pngs
from palette.sheets.writing import write_folder, write_whole

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["WrittenPlan", "plan_files", "write_plan_folder"]

_NAMES = (
    *("plan.json", "brief.toml", "stripes.csv", "yarn.csv"),
    *("cloth.png", "sheet.pdf", "sheet.html"),
)


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
    cloth = room_png(plan)
    strips = woven_strip_pngs(plan)
    return {
        "plan.json": plan_to_json(plan).encode(),
        "brief.toml": brief_toml(brief).encode(),
        "stripes.csv": stripes_csv(plan),
        "yarn.csv": yarn_csv(plan),
        "cloth.png": cloth,
        "sheet.pdf": sheet_pdf(plan, photo_jpeg=small, cloth_pngs=strips, paper=brief.paper),
        "sheet.html": sheet_html(plan, photo_jpeg=small, cloth_pngs=strips),
    }


def write_plan_folder(
    brief: Brief,
    *,
    folder: Path | None = None,
    force: bool = False,
    archive: bool = False,
) -> WrittenPlan:
    """Do the whole job: photograph to palette, stripes, warp and yarn, and write the files.

    Parameters
    ----------
    brief : Brief
        Everything that is asked.
    folder : Path, optional
        Where the files go; None: the plan is made and nothing is written.
    force : bool
        Whether files that are there may be replaced.
    archive : bool
        Whether the files are packed into one archive beside the folder too.

    Raises
    ------
    LeafweftError
        As the stages do, and `OutputError` where the folder cannot be written.
    """
    with keeping(paths_of(brief)):
        return _written(brief, folder=folder, force=force, archive=archive)


def _written(brief: Brief, *, folder: Path | None, force: bool, archive: bool) -> WrittenPlan:
    packed = _archive_of(folder) if folder and archive else None
    if folder is not None:
        check_folder(folder, force=force, names=_NAMES)
    if packed is not None:
        check_file(packed, force=force)
    photos = open_photos(brief)
    named = brief.changed({"name": brief.name or _name_of(brief)})
    plan = plan_from_stripes(named, plan_cloths(named, photos))
    if folder is None:
        return WrittenPlan(plan=plan)
    files = plan_files(plan, _moved(named, folder), photos[0] if photos else None)
    written = write_folder(folder, files, force=force)
    paths = sorted(map(str, written))
    if packed is not None:
        write_whole(packed, archive_bytes(files, folder=packed.stem), force=force)
        paths.append(str(packed))
    return WrittenPlan(plan=plan, written=tuple(paths))


def _archive_of(folder: Path) -> Path:
    """Path of the archive beside a folder, whichever way the folder is named."""
    place = folder if folder.name not in ("", "..") else folder.resolve()
    if not place.name:
        remedy = "Choose a folder with --out."
        raise OutputError(str(folder), "must lie in a folder", got="the whole disk", remedy=remedy)
    return place.with_name(f"{place.name}.zip")


def _name_of(brief: Brief) -> str | None:
    """Name of a plan that was given none: that of its photograph, palette or table of stripes."""
    files = filter(None, (brief.palette, brief.stripes))
    named = next(iter((*brief.photo, *files)), None)
    return plain(Path(named).stem.removesuffix("-palette")) or None if named else None


def _moved(brief: Brief, folder: Path) -> Brief:
    """Rewrite the paths of a brief so that they start from the folder it is written to."""
    values = {**dict(brief.values), "cloth": brief.cloth}
    return brief.changed(with_paths(values, lambda path: _from(folder, path)))


def _from(folder: Path, path: str) -> str:
    """Path as it reads from a folder; as it stands where no way leads there from the folder."""
    try:
        return Path(os.path.relpath(path, folder)).as_posix()
    except (OSError, ValueError):  # we are in no folder any more, or it is another disk
        return Path(path).as_posix()
