"""Tables that people keep: reading a CSV file as any spreadsheet in any country saves it.

Separators are comma, semicolon or tab; numbers carry a point or a decimal comma; a byte order
mark is fine. One bad row refuses the whole table and names the row as the spreadsheet counts it.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from palette.errors import TableError
from palette.text_files import read_file

__all__ = ["Table", "TableRow", "parse_number", "read_table"]

_SEPARATORS = (";", "\t", ",")
_LARGEST_BYTES = 4_000_000  # a shelf of fifty thousand yarns; more is not a table kept by hand
_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_MARKS = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One row of a table.

    Attributes
    ----------
    file : str
        Name of the file, for messages.
    number : int
        Row number as a spreadsheet counts it; the headings are row 1.
    cells : tuple of (str, str)
        Column and text, stripped; empty cells included.
    """

    file: str
    number: int
    cells: tuple[tuple[str, str], ...]

    def __getitem__(self, column: str) -> str:
        """Text under a heading, "" where the cell is empty or the column is not there."""
        return dict(self.cells).get(column, "")

    def error(self, column: str, rule: str, *, got: str = "", remedy: str = "") -> TableError:
        """Make the error that names this row and a column; the caller raises it."""
        thing = f"{self.file}, row {self.number}, column {column}"
        return TableError(thing, rule, got=got, remedy=remedy)

    def number_in(self, column: str) -> float:
        """Value of a numeric cell; TableError where it is not a number."""
        try:
            return parse_number(self[column])
        except ValueError as problem:
            raise self.error(column, str(problem), got=repr(self[column])) from None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with named columns.

    Attributes
    ----------
    file : str
        Name of the file, without its folder.
    columns : tuple of str
        Headings in the order of the file; known ones in their plain spelling.
    rows : tuple of TableRow
        At least one.
    warnings : tuple of str
        What had to be guessed, as sentences.
    """

    file: str
    columns: tuple[str, ...]
    rows: tuple[TableRow, ...]
    warnings: tuple[str, ...] = ()


def parse_number(text: str) -> float:
    """Read one number with a decimal point or a decimal comma.

    Parameters
    ----------
    text : str
        ``12``, ``12.5``, ``12,5``, ``-3``, with or without spaces around.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        Where it is no number, or could be read in two ways (``1.234,5``).

    Examples
    --------
    >>> parse_number("12,5"), parse_number("−3.25")
    (12.5, -3.25)
    """
    plain = text.strip().replace("−", "-").replace("\u00a0", "").replace("\u202f", "")
    if not _NUMBER.fullmatch(plain):
        raise ValueError("must be one number, like 12.5 or 12,5")
    value = float(plain.replace(",", "."))
    if not math.isfinite(value):
        raise ValueError("must be a finite number")
    return value


def read_table(
    path: str | Path,
    *,
    columns: Mapping[str, tuple[str, ...]],
    required: tuple[str, ...],
) -> Table:
    r"""Read a CSV file with a row of headings.

    Parameters
    ----------
    path : str or Path
        The file: UTF-8 or UTF-16 with its mark, else Western European (said in the warnings).
    columns : mapping of str to tuple of str
        Known columns and the other spellings of their headings; case does not matter.
    required : tuple of str
        Columns that must be there.

    Returns
    -------
    Table
        Columns that are not known keep their heading as it stands.

    Raises
    ------
    TableError
        A file that cannot be read or is no table, a missing or repeated heading, a row with more
        cells than headings, no rows at all.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "shelf.csv"
    ...     _ = path.write_text("Name;Grams\nmoss;12,5\n", encoding="utf-8")
    ...     table = read_table(path, columns={"name": (), "grams": ("g",)}, required=("name",))
    >>> table.rows[0]["name"], table.rows[0].number_in("grams")
    ('moss', 12.5)
    """
    path = Path(path)
    text, warnings = _text_of(path)
    separator = _separator(text, path.name, columns, required)
    records = _records(text, path.name, separator)
    while records and not any(records[0][1]):
        records = records[1:]
    headings = tuple(_plain(cell, columns) for cell in records[0][1])
    _check_headings(headings, path.name)
    rows = tuple(
        _row(number, cells, headings, path.name, separator)
        for number, cells in records[1:]
        if any(cells)
    )
    if not rows:
        raise TableError(path.name, "must hold at least one row under its headings", got="none")
    named = tuple(heading for heading in headings if heading)
    return Table(file=path.name, columns=named, rows=rows, warnings=warnings)


def _text_of(path: Path) -> tuple[str, tuple[str, ...]]:
    """Text of a file, whichever way its spreadsheet encoded it."""
    rule = "must be a table (CSV)"
    data = read_file(path, most_bytes=_LARGEST_BYTES, error=TableError, rule=rule)
    encoding = next((name for mark, name in _MARKS if data.startswith(mark)), "utf-8")
    warnings: tuple[str, ...] = ()
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
        warnings = (f"{path.name} is not UTF-8; its accents were read as Western European.",)
    if "\x00" in text:
        raise TableError(path.name, "must be a CSV table", got="a binary file")
    if not text.strip():
        raise TableError(path.name, "must hold a row of headings", got="an empty file")
    return text, warnings


def _separator(
    text: str, file: str, columns: Mapping[str, tuple[str, ...]], required: tuple[str, ...]
) -> str:
    """Separator under which most headings are known ones."""
    first = next(line for line in _without_hint(text).splitlines() if line.strip())
    first = first[: csv.field_size_limit()]  # what is longer is refused with its row
    headings = {
        separator: [
            _plain(cell, columns) for cell in next(csv.reader([first], delimiter=separator))
        ]
        for separator in _SEPARATORS
    }
    best = max(
        _SEPARATORS,
        key=lambda each: (len(set(headings[each]) & set(columns)), len(headings[each])),
    )
    missing = [name for name in required if name not in headings[best]]
    if missing:
        rule = f"must have a heading {' and a heading '.join(missing)} in its first row"
        raise TableError(file, rule, got=", ".join(headings[best])[:80])
    return best


def _without_hint(text: str) -> str:
    """Text without the line ``sep=;`` that some spreadsheets put first."""
    return re.sub(r"\A\s*\"?sep=.\"?\r?\n", "", text, flags=re.IGNORECASE)


def _records(text: str, file: str, separator: str) -> list[tuple[int, list[str]]]:
    """Every record with its number as a spreadsheet counts it, cells stripped."""
    lines = io.StringIO(_without_hint(text), newline="")
    reader = csv.reader(lines, delimiter=separator, strict=True)
    records: list[tuple[int, list[str]]] = []
    try:
        for number, cells in enumerate(reader, start=1):
            records.append((number, [cell.strip() for cell in cells]))
    except csv.Error as problem:
        thing = f"{file}, row {len(records) + 1}"
        remedy = 'Close every quotation mark; inside a cell write it twice ("").'
        raise TableError(thing, f"must be proper CSV ({problem})", remedy=remedy) from None
    return records


def _plain(heading: str, columns: Mapping[str, tuple[str, ...]]) -> str:
    """Plain spelling of a heading; one that is not known stays as it stands."""
    words = " ".join(heading.lower().split())
    for column, spellings in columns.items():
        if words == column or words in spellings:
            return column
    return " ".join(heading.split())


def _check_headings(headings: tuple[str, ...], file: str) -> None:
    named = [heading for heading in headings if heading]
    repeated = sorted({heading for heading in named if named.count(heading) > 1})
    if repeated:
        got = f"{', '.join(repeated)} twice"
        raise TableError(f"{file}, row 1", "headings must differ", got=got)


def _row(
    number: int, cells: list[str], headings: tuple[str, ...], file: str, separator: str
) -> TableRow:
    """Cells under their headings; short rows end in empty cells."""
    extra = [cell for cell in cells[len(headings) :] if cell]
    if extra:
        hint = "Put cells that hold a comma, such as 12,5, in quotation marks."
        raise TableError(
            f"{file}, row {number}",
            f"must have at most {len(headings)} cells, one under each heading",
            got=f"{len(cells)}, the last {extra[-1]!r}",
            remedy=hint if separator == "," else "",
        )
    filled = [*cells, *[""] * (len(headings) - len(cells))]
    under = zip(headings, filled, strict=False)
    for place, (heading, cell) in enumerate(zip(headings, filled, strict=False), start=1):
        if cell and not heading:
            thing = f"{file}, row {number}, column {place}"
            raise TableError(thing, "must have a heading", got=repr(cell))
    return TableRow(file=file, number=number, cells=tuple(pair for pair in under if pair[0]))
