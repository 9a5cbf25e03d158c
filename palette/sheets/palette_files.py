"""The files of a palette: its JSON and a picture of its swatches."""

from __future__ import annotations

from pathlib import Path

from palette.perception.light import Light
from palette.photo.photo import Photo
from palette.plans.palette_contract import palette_to_json
from palette.sheets.light_card import light_card_png
from palette.sheets.swatch_card import swatch_card_png
from palette.sheets.thumbnail import thumbnail_pixels
from palette.sheets.writing import write_beside, write_whole
from palette.swatches.palette import Palette

__all__ = ["palette_files", "write_light_card", "write_palette_files"]


def palette_files(palette: Palette, path: Path, *, photo: Photo | None = None) -> dict[str, bytes]:
    """Names and contents of a palette file and its card; takes what `write_palette_files` does."""
    small = None if photo is None else thumbnail_pixels(photo)
    title = path.stem.removesuffix("-palette")
    card = swatch_card_png(palette, photo=small, title=title)
    return {path.name: palette_to_json(palette).encode(), path.with_suffix(".png").name: card}


def write_palette_files(
    palette: Palette, path: Path, *, photo: Photo | None = None, force: bool = False
) -> tuple[Path, ...]:
    """Write a palette file and, beside it under the same name, a card of its swatches.

    Parameters
    ----------
    palette : Palette
    path : Path
        Of the palette file; the card has the same name and the ending ``.png``.
    photo : Photo, optional
        Shown on the card.
    force : bool
        Whether files that are there may be replaced.

    Raises
    ------
    OutputError
        A file is there already and `force` is false, or the place cannot be written.
    """
    files = palette_files(palette, path, photo=photo)
    return write_beside(path.parent, files, force=force)


def write_light_card(photo: Photo, light: Light, path: Path, *, force: bool = False) -> Path:
    """Write a picture of a photograph before and after its cast is taken away.

    It stands beside the palette file under the same name, with ``-light.png`` at its end.
    Raises OutputError as `write_palette_files` does.
    """
    picture = path.with_name(f"{path.stem}-light.png")
    before, after = thumbnail_pixels(photo), thumbnail_pixels(photo, light=light)
    write_whole(picture, light_card_png(before, after, how=light.name), force=force)
    return picture
