"""The files of a palette: its JSON and a picture of its swatches."""

from __future__ import annotations

from pathlib import Path

from palette.errors import OutputError
from palette.perception.light import Light
from palette.photo.photo import Photo
from palette.plans.palette_contract import palette_to_json
from palette.sheets.light_card import light_card_png
from palette.sheets.places import check_file
from palette.sheets.swatch_card import swatch_card_png
from palette.sheets.thumbnail import thumbnail_pixels
from palette.sheets.writing import write_beside
from palette.swatches.palette import Palette

__all__ = ["check_palette_files", "palette_files", "write_palette_files"]


def palette_files(
    palette: Palette, path: Path, *, photo: Photo | None = None, light: Light | None = None
) -> dict[str, bytes]:
    """Names and contents of a palette file and its cards; takes what `write_palette_files` does."""
    small = None if photo is None else thumbnail_pixels(photo)
    title = path.stem.removesuffix("-palette")
    card = swatch_card_png(palette, photo=small, title=title)
    files = {path.name: palette_to_json(palette).encode(), _card(path).name: card}
    if photo is not None and small is not None and light is not None:
        after = thumbnail_pixels(photo, light=light)
        files[_light_card(path).name] = light_card_png(small, after, how=light.name)
    return files


def check_palette_files(path: Path, *, light: bool = False, force: bool = False) -> None:
    """Refuse a palette file that could not be written, or whose cards could not, before the work.

    Parameters
    ----------
    path : Path
        Of the palette file.
    light : bool
        Whether there is going to be a picture of the light taken away.
    force : bool
        Whether files that are there may be replaced.

    Raises
    ------
    OutputError
        One of them cannot be, or is there already and `force` is false.
    """
    check_file(path, force=force)
    if path.suffix.lower() == ".png":
        remedy = "Choose another ending, such as .json."
        rule = "must not end in .png, as the card of swatches beside it does"
        raise OutputError(str(path), rule, got=path.name, remedy=remedy)
    check_file(_card(path), force=force)
    if light:
        check_file(_light_card(path), force=force)


def _card(path: Path) -> Path:
    return path.with_suffix(".png")


def _light_card(path: Path) -> Path:
    return path.with_name(f"{path.stem}-light.png")


def write_palette_files(
    palette: Palette,
    path: Path,
    *,
    photo: Photo | None = None,
    light: Light | None = None,
    force: bool = False,
) -> tuple[Path, ...]:
    """Write a palette file and, beside it under the same name, a card of its swatches.

    Parameters
    ----------
    palette : Palette
    path : Path
        Of the palette file; the card has the same name and the ending ``.png``.
    photo : Photo, optional
        Shown on the card.
    light : Light, optional
        Whose cast was taken away: a picture of the photograph before and after goes beside, with
        ``-light.png`` at the end of its name.
    force : bool
        Whether files that are there may be replaced.

    Raises
    ------
    OutputError
        A file is there already and `force` is false, or the place cannot be written.
    """
    check_palette_files(path, light=photo is not None and light is not None, force=force)
    files = palette_files(palette, path, photo=photo, light=light)
    return write_beside(path.parent, files, force=force)
