"""The files of a palette: its JSON and a picture of its swatches."""

from __future__ import annotations

from pathlib import Path

from palette.plans.palette_contract import palette_to_json
from palette.sheets.pictures import palette_svg
from palette.sheets.writing import write_whole
from palette.swatches.palette import Palette

__all__ = ["write_palette_files"]


def write_palette_files(palette: Palette, path: Path, *, force: bool = False) -> tuple[Path, ...]:
    """Write a palette file and, beside it under the same name, a picture of the swatches.

    Raises
    ------
    OutputError
        A file is there already and `force` is false, or the place cannot be written.
    """
    picture = path.with_suffix(".svg")
    write_whole(path, palette_to_json(palette).encode(), force=force)
    write_whole(picture, palette_svg(palette), force=force)
    return path, picture
