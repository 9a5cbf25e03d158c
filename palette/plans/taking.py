"""Taking the palette that a brief asks for, from a file or from photographs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import InputError
from palette.plans.loading import is_contract_file, load_palette
from palette.swatches.palette import Palette

if TYPE_CHECKING:
    from palette.photo.photo import Photo
    from palette.plans.brief import Brief

__all__ = ["palette_of", "photos_of"]


def photos_of(paths: tuple[Path, ...], brief: Brief) -> tuple[Photo, ...]:
    """Open photographs as a brief asks: light corrected, what is not wanted left out.

    Raises
    ------
    PhotoError, InputError
        A picture that cannot be opened, or a wish that it cannot meet.
    """
    from palette.photo.reading import read_photo

    return tuple(read_photo(path) for path in paths)


def palette_of(paths: tuple[Path, ...], brief: Brief, *, photos: tuple[Photo, ...] = ()) -> Palette:
    """Take one palette, from a palette or plan file or from photographs.

    Parameters
    ----------
    paths : tuple of Path
        One file that holds a palette, or photographs.
    brief : Brief
        How many colours, which part, which light.
    photos : tuple of Photo
        The photographs where they are open already.

    Raises
    ------
    InputError
        No path, or a palette file among several.
    FileError
        A file that cannot be used.
    """
    if not paths:
        remedy = 'Name one: leafweft plan PHOTO, or photo = "hedge.jpg" in the brief.'
        raise InputError("photograph", "must be given", got="none", remedy=remedy)
    if any(map(is_contract_file, paths)):
        if len(paths) > 1:
            rule = "a palette file must stand alone"
            raise InputError("photographs", rule, got=", ".join(map(str, paths)))
        return load_palette(paths[0])
    from palette.swatches.extraction import extract

    opened = photos or photos_of(paths, brief)
    colours = None if brief.colours == "auto" else brief.colours
    return extract(opened[0], colours)
