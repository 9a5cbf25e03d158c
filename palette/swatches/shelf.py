"""The yarn shelf: what is in hand, read from a table that the weaver keeps.

One row for each yarn or undyed fleece. The colour is a hex code, three CIELAB numbers, or the file
name of a photograph of the skein that lies beside the table. One bad row refuses the whole shelf:
half a shelf would plan a cloth from yarn that is not there.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from palette.errors import InputError, LeafweftError, TableError
from palette.measures import parse_mass
from palette.perception.spaces import lab_to_hex
from palette.swatches.colour_cell import (
    COLOUR_COLUMNS,
    check_colour_columns,
    read_colour,
    skein_lab,
)
from palette.swatches.table import TableRow, read_table

__all__ = ["MOST_YARNS", "Shelf", "ShelfYarn", "read_shelf"]

MOST_YARNS = 2000
"""A dealer's whole shade card is a quarter of this; matching takes some seconds then."""

Lab = tuple[float, float, float]
Kind = Literal["yarn", "fleece"]

_COLUMNS: dict[str, tuple[str, ...]] = {
    "name": ("yarn",),
    **COLOUR_COLUMNS,
    "fibre": ("fiber",),
    "count": ("yarn count",),
    "grams": ("g", "gram", "mass", "weight"),
    "kind": (),
}
_KINDS: dict[str, tuple[Kind, bool]] = {
    "": ("yarn", False),
    "yarn": ("yarn", False),
    "undyed yarn": ("yarn", True),
    "natural yarn": ("yarn", True),
    "fleece": ("fleece", False),
    "dyed fleece": ("fleece", False),
    "undyed fleece": ("fleece", True),
    "natural fleece": ("fleece", True),
    "undyed": ("fleece", True),
    "natural": ("fleece", True),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfYarn:
    """One yarn, or one fleece, in hand.

    Attributes
    ----------
    name : str
        Unique on its shelf.
    lab : tuple of 3 float
        CIELAB D65, 2 degree observer.
    hex : str
        Nearest sRGB colour, ``#rrggbb``.
    fibre, count : str
        As written, or "".
    tex : float or None
        Linear density, where the count was read.
    mass_g : float or None
        In hand; None where the table does not say.
    kind : {"yarn", "fleece"}
    undyed : bool
        A natural colour, as it came off the animal or plant.
    from_photo : bool
        The colour was taken from a photograph.
    row : int
        Row of the table it came from; the headings are row 1.
    """

    name: str
    lab: Lab
    hex: str
    fibre: str = ""
    count: str = ""
    tex: float | None = None
    mass_g: float | None = None
    kind: Kind = "yarn"
    undyed: bool = False
    from_photo: bool = False
    row: int = 0

    def __post_init__(self) -> None:
        """Refuse values outside their range; NaN fails too."""
        thing = f"shelf yarn {self.name!r}"
        if not self.name.strip():
            raise InputError("shelf yarn", "must have a name")
        if not (len(self.lab) == 3 and all(map(math.isfinite, self.lab))):
            raise InputError(thing, "lab must be three finite numbers", got=f"{self.lab}")
        if self.mass_g is not None and not self.mass_g >= 0:
            raise InputError(thing, "mass must be 0 g or more", got=f"{self.mass_g}")
        if self.tex is not None and not self.tex > 0:
            raise InputError(thing, "tex must be more than 0", got=f"{self.tex}")

    @property
    def in_hand(self) -> bool:
        """False where the table says that none is left."""
        return self.mass_g is None or self.mass_g > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Every yarn in hand.

    Attributes
    ----------
    file : str
        Name of the table, without its folder.
    yarns : tuple of ShelfYarn
        In the order of the table; at least one, names differ.
    warnings : tuple of str
        What had to be guessed or was not used, as sentences.
    """

    file: str
    yarns: tuple[ShelfYarn, ...]
    warnings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse an empty shelf and names that repeat."""
        if not self.yarns:
            raise InputError("shelf", "must hold at least one yarn", got="none")
        names = [yarn.name for yarn in self.yarns]
        repeated = sorted({name for name in names if names.count(name) > 1})
        if repeated:
            raise InputError("shelf", "names must differ", got=f"{', '.join(repeated)} twice")

    def __getitem__(self, name: str) -> ShelfYarn:
        """Yarn with this name; KeyError if there is none."""
        for yarn in self.yarns:
            if yarn.name == name:
                return yarn
        raise KeyError(name)


def read_shelf(
    path: str | Path,
    *,
    read_count: Callable[[str], float] | None = None,
    read_skein: Callable[[Path], Lab] = skein_lab,
) -> Shelf:
    r"""Read a shelf table.

    Parameters
    ----------
    path : str or Path
        CSV with headings: name, colour (or L, a, b), and, where they are known, fibre, count,
        grams and kind (yarn, fleece, undyed yarn, undyed fleece). Comma, semicolon or tab.
    read_count : callable of str to float, optional
        Turns a yarn count into tex, raising an error of this library where it cannot; without it
        counts are kept as written.
    read_skein : callable of Path to CIELAB
        How a photograph of a skein becomes a colour.

    Returns
    -------
    Shelf

    Raises
    ------
    TableError
        The first bad row, by row and column; nothing is kept.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "shelf.csv"
    ...     _ = path.write_text("name;colour;grams\nmoss;#5d733a;82,5\n", encoding="utf-8")
    ...     shelf = read_shelf(path)
    >>> shelf["moss"].mass_g, shelf["moss"].hex
    (82.5, '#5d733a')
    """
    path = Path(path)
    table = read_table(path, columns=_COLUMNS, required=("name",))
    check_colour_columns(table)
    if len(table.rows) > MOST_YARNS:
        rule = f"must hold at most {MOST_YARNS:,} yarns"
        remedy = "Leave out what is not for this cloth."
        raise TableError(table.file, rule, got=f"{len(table.rows):,}", remedy=remedy)
    yarns: dict[str, ShelfYarn] = {}
    for row in table.rows:
        yarn = _shelf_yarn(row, path.parent, read_count, read_skein)
        if yarn.name in yarns:
            got = f"{yarn.name!r}, already in row {yarns[yarn.name].row}"
            raise row.error("name", "names must differ", got=got)
        yarns[yarn.name] = yarn
    unused = [column for column in table.columns if column not in _COLUMNS]
    warnings = table.warnings
    if unused:
        warnings = (*warnings, f"{table.file}: not used: {', '.join(unused)}.")
    return Shelf(file=table.file, yarns=tuple(yarns.values()), warnings=warnings)


def _shelf_yarn(
    row: TableRow,
    folder: Path,
    read_count: Callable[[str], float] | None,
    read_skein: Callable[[Path], Lab],
) -> ShelfYarn:
    if not row["name"]:
        raise row.error("name", "must not be empty", remedy="Give every yarn a name of its own.")
    kind = " ".join(row["kind"].lower().split())
    if kind not in _KINDS:
        rule = "must be yarn, fleece, undyed yarn or undyed fleece"
        raise row.error("kind", rule, got=repr(row["kind"]))
    tex = _in_cell(row, "count", read_count) if read_count and row["count"] else None
    mass_g = _in_cell(row, "grams", _grams) if row["grams"] else None
    lab, from_photo = read_colour(row, folder, read_skein=read_skein)
    return ShelfYarn(
        name=row["name"],
        lab=lab,
        hex=lab_to_hex(lab)[0],
        fibre=row["fibre"],
        count=row["count"],
        tex=tex,
        mass_g=mass_g,
        kind=_KINDS[kind][0],
        undyed=_KINDS[kind][1],
        from_photo=from_photo,
        row=row.number,
    )


def _grams(text: str) -> float:
    """Grams of ``250``, ``82,5``, ``250 g`` or ``8 oz``; a bare number is grams."""
    return parse_mass(f"{text} g" if text[-1:].isdigit() else text, zero=True).g


def _in_cell(row: TableRow, column: str, read: Callable[[str], float]) -> float:
    """Value that `read` finds in a cell; its refusal becomes one that names row and column."""
    try:
        return read(row[column])
    except LeafweftError as problem:
        raise row.error(
            column, problem.rule, got=repr(row[column]), remedy=problem.remedy
        ) from None
