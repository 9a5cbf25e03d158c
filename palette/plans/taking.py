"""Taking the palette that a brief asks for, from a file or from photographs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import InputError
from palette.perception.colour_text import parse_colour
from palette.plans.loading import is_contract_file, load_palette
from palette.swatches.palette import Palette

if TYPE_CHECKING:
    from palette.perception.light import Light
    from palette.photo.photo import Photo
    from palette.plans.brief import Brief

__all__ = ["light_of", "palette_of", "photos_of"]


def photos_of(paths: tuple[Path, ...], brief: Brief) -> tuple[Photo, ...]:
    """Open photographs as a brief asks: light corrected, what is not wanted left out.

    Raises
    ------
    PhotoError, InputError
        A picture that cannot be opened, or a wish that it cannot meet.
    """
    from palette.photo.reading import read_photo
    from palette.photo.selection import parse_region, within_mask, within_region

    photos = tuple(read_photo(path) for path in paths)
    if brief.region is not None:
        region = parse_region(brief.region)
        photos = tuple(within_region(photo, region) for photo in photos)
    if brief.mask is not None:
        mask = Path(brief.mask)
        photos = tuple(within_mask(photo, mask) for photo in photos)
    return photos


def light_of(photo: Photo, brief: Brief) -> Light | None:
    """Give the light whose cast a brief wants taken away: named, or read off a neutral place.

    Raises
    ------
    InputError
        Both are given, the light is unknown, or the place says nothing about the light.
    """
    from palette.perception.light import parse_light

    if brief.light is not None and brief.neutral is not None:
        remedy = "Give one of the two."
        raise InputError("--light", "must stand without --neutral", got="both", remedy=remedy)
    if brief.light is not None:
        return parse_light(brief.light)
    if brief.neutral is None:
        return None
    from palette.photo.selection import parse_point
    from palette.swatches.lighting import light_from_neutral

    return light_from_neutral(photo, parse_point(brief.neutral))


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
    return extract(
        opened,
        None if brief.colours == "auto" else brief.colours,
        shadows=brief.shadows,
        keep=tuple(parse_colour(text, thing="keep") for text in brief.keep),
        leave_out=tuple(parse_colour(text, thing="leave-out") for text in brief.leave_out),
        light=light_of(opened[0], brief),
    )
