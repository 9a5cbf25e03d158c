"""A table of stripes that was edited by hand, back to a plan."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from palette.errors import TableError
from palette.measures import format_length
from palette.stripes.lengths import finished_length_mm
from palette.stripes.plan import Role, StripePlan
from palette.stripes.share_check import share_notes
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette
from palette.swatches.table import Table, TableRow, read_table

__all__ = ["STRIPE_COLUMNS", "cloths_in", "read_stripes"]

STRIPE_COLUMNS = (
    "number",
    "colour",
    "hex",
    "picks",
    "first_pick",
    "last_pick",
    "woven_mm",
    "finished_mm",
    "role",
)
"""Headings of the table as it is written; reading needs only colour and picks."""

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


def _plain(name: str) -> str:
    """Name as it is compared: no guard against formulas, no doubled space, no case."""
    words = re.sub(r"[\s\x00-\x1f\x7f\x85]+", " ", _GUARD.sub(r"\1\2", name))
    return words.strip().casefold()


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


def _weft(row: TableRow, known: dict[str, Weft]) -> Weft:
    """Yarn of a row: one that is known by name, else a new one with its hex."""
    name, code = _GUARD.sub(r"\1\2", " ".join(row["colour"].split())), row["hex"].lower()
    if not name:
        raise row.error("colour", "must name the yarn", got="nothing")
    if code and not _HEX.fullmatch(code):
        raise row.error("hex", "must read #rrggbb", got=repr(row["hex"]))
    code = f"#{code.lstrip('#')}" if code else ""
    found = known.get(name) or next(
        (weft for other, weft in known.items() if _plain(other) == _plain(name)), None
    )
    if found is not None and code in ("", found.hex):
        return found
    if found is not None:
        rule = f"must be {found.hex}, as {found.name} has elsewhere"
        raise row.error("hex", rule, got=code, remedy="Give a new colour a new name.")
    if not code:
        raise row.error(
            "colour",
            f"must be one of {', '.join(known)}, or have its hex beside it",
            got=repr(name),
            remedy="Write #rrggbb in the column hex for a new colour.",
        )
    from palette.perception.spaces import hex_to_lab

    return Weft(name, code, hex_to_lab(code))


def cloths_in(path: str | Path) -> tuple[str, ...]:
    """Names under the heading cloth, in their order; () where there is no such column.

    Raises
    ------
    TableError
        The file is no table of stripes.
    """
    table = read_table(path, columns=_READ, required=("colour", "picks"))
    return tuple(dict.fromkeys(row["cloth"] for row in _filled(table) if row["cloth"]))


def _filled(table: Table) -> tuple[TableRow, ...]:
    """Rows that hold a stripe."""
    return tuple(row for row in table.rows if row["colour"] or row["picks"])


def _rows(table: Table, cloth: str) -> tuple[TableRow, ...]:
    """Rows of one cloth."""
    rows = _filled(table)
    names = tuple(dict.fromkeys(row["cloth"] for row in rows))
    if cloth:
        rows = tuple(row for row in rows if _plain(row["cloth"]) == _plain(cloth))
        if not rows:
            rule = f"must hold the cloth {cloth!r}"
            raise TableError(table.file, rule, got=", ".join(filter(None, names)) or "no names")
    elif len(names) > 1:
        rule = "must hold one cloth, or it must be said which to read"
        raise TableError(table.file, rule, got=", ".join(map(repr, names)))
    return rows


def read_stripes(
    path: str | Path,
    *,
    palette: Palette,
    picks_per_cm: float,
    shrinkage_length: float = 0.1,
    step: int = 2,
    least: int = 0,
    like: StripePlan | None = None,
    name: str = "",
    cloth: str = "",
) -> StripePlan:
    r"""Read a table of stripes as any spreadsheet saves it, and make a plan of it.

    Rows are stripes in weaving order; those without a colour and picks are passed over. Only
    the columns colour and picks are needed; hex gives a new colour, role tells hems and borders
    from stripes. Pick numbers and lengths are reckoned anew.

    Parameters
    ----------
    path : str or Path
        Comma, semicolon or tab; decimal point or comma; with or without a byte order mark.
    palette : Palette
        Colours with the shares that were asked for.
    picks_per_cm, shrinkage_length, step, least
        As in `plan_stripes`.
    like : StripePlan, optional
        The plan that was edited: its yarns that are not in the palette are known by name, and
        its limits and order are kept.
    name : str
        Name of the cloth.
    cloth : str
        Which cloth to read, where the table has a column cloth with several.

    Returns
    -------
    StripePlan
        The stripes exactly as they stand; `warnings` says what matches neither the shares, nor
        the step, nor the smallest stripe, nor the length that was asked for.

    Raises
    ------
    TableError
        The file is no such table, or a cell cannot be used; the message names row and column.

    Examples
    --------
    >>> import tempfile
    >>> from palette.swatches.palette import Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "stripes.csv"
    ...     _ = path.write_text("colour;picks;hex\nmoss;20;\nrust;4;#a84f28\n", encoding="utf-8")
    ...     plan = read_stripes(path, palette=Palette(swatches=(moss,)), picks_per_cm=8)
    >>> [(stripe.colour, stripe.picks, stripe.first_pick) for stripe in plan.stripes]
    [('moss', 20, 1), ('rust', 4, 21)]
    """
    table = read_table(path, columns=_READ, required=("colour", "picks"))
    known = {swatch.name: Weft.of(swatch) for swatch in palette.swatches}
    if like is not None:
        known = {stripe.colour: Weft.of(stripe) for stripe in like.stripes} | known
    pieces = []
    for row in _rows(table, cloth):
        weft = _weft(row, known)
        known.setdefault(weft.name, weft)
        pieces.append(Piece(weft, _picks(row), _role(row)))
    if not pieces:
        raise TableError(table.file, "must hold at least one stripe", got="none")
    picks = sum(piece.picks for piece in pieces)
    finished = finished_length_mm(picks, picks_per_cm, shrinkage_length)
    plan = StripePlan(
        palette=palette,
        stripes=number_picks(pieces),
        picks_per_cm=picks_per_cm,
        finished_length_mm=like.finished_length_mm if like else finished,
        shrinkage_length=shrinkage_length,
        step=step,
        least=least,
        order="by hand",
        name=name,
        carry_picks=like.carry_picks if like else None,
        shuttles=like.shuttles if like else None,
    )
    return replace(plan, warnings=(*table.warnings, *_notes(plan), *share_notes(plan)))


def _notes(plan: StripePlan) -> tuple[str, ...]:
    """Say what breaks the step, the smallest stripe, or the length; nothing is corrected."""
    notes = []
    for number, stripe in enumerate(plan.stripes, start=1):
        thing = f"stripe {number} ({stripe.colour})"
        if stripe.picks % plan.step:
            notes.append(f"{thing}: {stripe.picks} picks, which is no multiple of {plan.step}.")
        if stripe.role == "stripe" and stripe.picks < plan.least:
            notes.append(f"{thing}: {stripe.picks} picks, under the smallest stripe {plan.least}.")
    asked, came = plan.finished_length_mm, plan.true_finished_length_mm
    if abs(came - asked) > plan.step / plan.picks_per_cm * 10:
        notes.append(
            f"The stripes come to {format_length(came)} finished ({plan.total_picks} picks); "
            f"{format_length(asked)} was asked for."
        )
    return tuple(notes)
