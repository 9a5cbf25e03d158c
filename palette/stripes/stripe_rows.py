"""Rows of a table of stripes: which yarn, how many picks, and what for, each checked."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from palette.errors import TableError
from palette.stripes.plan import Role
from palette.swatches.table import Table, TableRow, read_table

__all__ = ["StripeRow", "plain_name", "stripe_names", "stripe_rows"]

_READ: dict[str, tuple[str, ...]] = {
    "colour": ("color", "yarn", "weft"),
    "picks": ("pick", "picks of it"),
    "hex": ("code",),
    "role": (),
    "cloth": (),
}
_ROLES: tuple[Role, ...] = ("stripe", "blend", "hem", "border")
_GUARD = re.compile(r"(^|[;,|])(\s*)'(?=[=+\-@＝＋－＠])")
_HEX = re.compile(r"#?[0-9a-f]{6}")
_MOST_PICKS = 1_000_000  # a stripe of over half a kilometre; more is a slip of the finger


class StripeRow(NamedTuple):
    """One stripe as the table has it; `hex` is "" where the cell is empty."""

    row: TableRow
    name: str
    hex: str
    picks: int
    role: Role


def plain_name(name: str) -> str:
    """Name as it is compared: no guard against formulas, no doubled space, no case."""
    words = re.sub(r"[\s\x00-\x1f\x7f\x85]+", " ", _GUARD.sub(r"\1\2", name))
    return words.strip().casefold()


def stripe_names(path: str | Path) -> tuple[Table, tuple[str, ...]]:
    """Read a table of stripes, and the names under its heading cloth in their order."""
    table = read_table(path, columns=_READ, required=("colour", "picks"))
    return table, tuple(dict.fromkeys(row["cloth"] for row in _filled(table)))


def stripe_rows(path: str | Path, cloth: str = "") -> tuple[Table, tuple[StripeRow, ...]]:
    """Read the stripes of one cloth.

    Raises
    ------
    TableError
        The file is no such table, a cell cannot be used, or no stripe is there.
    """
    table, names = stripe_names(path)
    rows = _filled(table)
    if cloth:
        rows = tuple(row for row in rows if plain_name(row["cloth"]) == plain_name(cloth))
        if not rows:
            rule = f"must hold the cloth {cloth!r}"
            raise TableError(table.file, rule, got=", ".join(filter(None, names)) or "no names")
    elif len(names) > 1:
        rule = "must hold one cloth, or it must be said which to read"
        raise TableError(table.file, rule, got=", ".join(map(repr, names)))
    if not rows:
        raise TableError(table.file, "must hold at least one stripe", got="none")
    return table, tuple(map(_stripe, rows))


def _filled(table: Table) -> tuple[TableRow, ...]:
    """Rows that hold a stripe."""
    return tuple(row for row in table.rows if row["colour"] or row["picks"])


def _stripe(row: TableRow) -> StripeRow:
    name, code = _GUARD.sub(r"\1\2", " ".join(row["colour"].split())), row["hex"].lower()
    if not name:
        raise row.error("colour", "must name the yarn", got="nothing")
    if code and not _HEX.fullmatch(code):
        raise row.error("hex", "must read #rrggbb", got=repr(row["hex"]))
    return StripeRow(row, name, f"#{code.lstrip('#')}" if code else "", _picks(row), _role(row))


def _picks(row: TableRow) -> int:
    value = row.number_in("picks")
    if not (1 <= value <= _MOST_PICKS and value == int(value)):
        rule = f"must be a whole number from 1 to {_MOST_PICKS}"
        raise row.error("picks", rule, got=repr(row["picks"]), remedy="Drop a stripe's whole row.")
    return int(value)


def _role(row: TableRow) -> Role:
    text = row["role"].lower() or "stripe"
    for role in _ROLES:
        if text == role:
            return role
    raise row.error("role", f"must be one of {', '.join(_ROLES)}", got=repr(row["role"]))
