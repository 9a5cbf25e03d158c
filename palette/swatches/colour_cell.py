"""Colours in a table: a hex code, three CIELAB numbers, or a photograph beside the table."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from palette.errors import LeafweftError, TableError
from palette.perception.spaces import hex_to_lab
from palette.swatches.table import Table, TableRow, parse_number

__all__ = ["COLOUR_COLUMNS", "check_colour_columns", "read_colour", "skein_lab"]

Lab = tuple[float, float, float]

COLOUR_COLUMNS: dict[str, tuple[str, ...]] = {
    "colour": ("color",),
    "L": ("l", "l*", "lab l"),
    "a": ("a*", "lab a"),
    "b": ("b*", "lab b"),
}
"""Headings under which a colour stands, and their other spellings."""

_HEX = re.compile(r"#?(?:[0-9a-fA-F]{6}|[0-9a-fA-F]{3})")
_PICTURE = re.compile(
    r".*\.(?:jpe?g|png|heic|heif|avif|webp|tiff?|bmp|gif)", re.IGNORECASE | re.DOTALL
)
_LARGEST_AB = 200.0  # no surface colour reaches 130; more is a slip of the pen
_MIDDLE = (0.3, 0.3, 0.7, 0.7)  # left, top, right, bottom of a photograph of a skein
_SKEIN_COLOURS = 3  # light and dark sides of the strands, and something else
_LEAST_SIDE_PX = 20
_WAYS = "Write it like #5d733a, 45.5 -18.4 28.8 (CIELAB) or moss.jpg (a photo beside the table)."


def check_colour_columns(table: Table) -> None:
    """Refuse a table without a column colour, nor columns L, a and b."""
    if "colour" not in table.columns and not {"L", "a", "b"} <= set(table.columns):
        got = ", ".join(table.columns)
        raise TableError(table.file, "must have a heading colour in its first row", got=got)


def skein_lab(path: Path) -> Lab:
    """Colour of a skein from its photograph: the largest colour in the middle of the picture.

    Parameters
    ----------
    path : Path
        The photograph. The skein should lie across its middle, in the light that the palette was
        taken in; what is around it does not count.

    Returns
    -------
    tuple of 3 float
        CIELAB D65.

    Raises
    ------
    PhotoError
        A picture that cannot be opened.
    """
    from palette.photo.reading import read_photo
    from palette.photo.selection import within_region
    from palette.swatches.extraction import extract

    photo = read_photo(path)
    if min(photo.width_px, photo.height_px) >= _LEAST_SIDE_PX:
        photo = within_region(photo, _MIDDLE)
    found = extract(photo, _SKEIN_COLOURS, accents=False)
    return max(found.swatches, key=lambda swatch: swatch.share).lab


def read_colour(
    row: TableRow, folder: Path, *, read_skein: Callable[[Path], Lab] = skein_lab
) -> tuple[Lab, bool]:
    """Colour of one row: hex, CIELAB, or a photograph in the table's own folder.

    Parameters
    ----------
    row : TableRow
        With a column "colour", or columns "L", "a" and "b".
    folder : Path
        Folder of the table; a photograph outside it is refused.
    read_skein : callable of Path to CIELAB
        How a photograph becomes a colour.

    Returns
    -------
    lab : tuple of 3 float
        CIELAB D65.
    from_photo : bool

    Raises
    ------
    TableError
        Names the row and the column.

    Examples
    --------
    >>> row = TableRow(file="shelf.csv", number=2, cells=(("colour", "45,5 -18,4 28,8"),))
    >>> read_colour(row, Path("."))
    ((45.5, -18.4, 28.8), False)
    """
    text = row["colour"]
    if not text and (row["L"] or row["a"] or row["b"]):
        lab = (row.number_in("L"), row.number_in("a"), row.number_in("b"))
        return _checked_lab(row, lab, "L", f"{lab}"), False
    if not text:
        raise row.error("colour", "must not be empty", remedy=_WAYS)
    if _HEX.fullmatch(text):
        return hex_to_lab(text), False
    if _PICTURE.fullmatch(text):
        return _photo_lab(row, text, folder, read_skein), True
    numbers = _three_numbers(text)
    if numbers is None:
        rule = "must be a hex code, three CIELAB numbers or the file name of a photo"
        raise row.error("colour", rule, got=repr(text), remedy=_WAYS)
    return _checked_lab(row, numbers, "colour", repr(text)), False


def _three_numbers(text: str) -> Lab | None:
    """Read ``45.5 -18.4 28.8``, ``45,5; -18,4; 28,8`` or ``lab(45.5, -18.4, 28.8)``."""
    inside = re.sub(r"\A(?:cie)?\s*l\*?a\*?b\*?\s*\(?|\)\Z", "", text.strip(), flags=re.IGNORECASE)
    parts = [part for part in re.split(r"\s*[;/]\s*|\s*,\s+|\s+", inside.strip()) if part]
    if len(parts) == 1 and inside.count(",") == 2:
        parts = inside.split(",")
    try:
        numbers = [parse_number(part) for part in parts]
    except ValueError:
        return None
    return (numbers[0], numbers[1], numbers[2]) if len(numbers) == 3 else None


def _checked_lab(row: TableRow, lab: Lab, column: str, got: str) -> Lab:
    if not (0 <= lab[0] <= 100 and abs(lab[1]) <= _LARGEST_AB and abs(lab[2]) <= _LARGEST_AB):
        rule = f"CIELAB must have L from 0 to 100, a and b within {_LARGEST_AB:.0f} of 0"
        raise row.error(column, rule, got=got)
    return lab


def _photo_lab(row: TableRow, name: str, folder: Path, read_skein: Callable[[Path], Lab]) -> Lab:
    """Colour of a photograph that lies in the folder of the table or below it."""
    root = folder.resolve()
    relative = Path(name.replace("\\", "/"))
    path = (root / relative).resolve()
    if relative.is_absolute() or ":" in name or not path.is_relative_to(root):
        remedy = "Put the photo beside the table and give its name alone."
        raise row.error(
            "colour", "photo must be in the folder of the table", got=name, remedy=remedy
        )
    if not path.is_file():
        raise row.error("colour", "photo must be beside the table", got=f"no file {name}")
    try:
        return read_skein(path)
    except LeafweftError as problem:
        raise row.error("colour", "photo must be one that can be read", got=f"{problem}") from None
