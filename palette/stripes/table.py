"""A table of stripes that was edited by hand, back to a plan."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from palette.measures import format_length
from palette.stripes.lengths import finished_length_mm
from palette.stripes.plan import StripePlan
from palette.stripes.renaming import new_names, rename_note, with_new_names
from palette.stripes.share_check import share_notes
from palette.stripes.stripe_rows import StripeRow, plain_name, stripe_names, stripe_rows
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette

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


def _weft(stripe: StripeRow, known: dict[str, Weft]) -> Weft:
    """Yarn of a row: one that is known by name, else a new one with its hex."""
    row, name, code = stripe.row, stripe.name, stripe.hex
    found = known.get(name) or next(
        (weft for other, weft in known.items() if plain_name(other) == plain_name(name)), None
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
    return tuple(filter(None, stripe_names(path)[1]))


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
    from stripes. A new name beside the hex of a known colour renames that colour in the whole
    plan. Pick numbers and lengths are reckoned anew.

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
    table, rows = stripe_rows(path, cloth)
    known = {swatch.name: Weft.of(swatch) for swatch in palette.swatches}
    if like is not None:
        known = {stripe.colour: Weft.of(stripe) for stripe in like.stripes} | known
    names = new_names(rows, known)
    palette = with_new_names(palette, names)
    known = {names.get(name, name): weft for name, weft in known.items()}
    known = {name: weft._replace(name=name) for name, weft in known.items()}
    called = {plain_name(old): new for old, new in names.items()}
    pieces = []
    for row in rows:
        weft = _weft(row._replace(name=called.get(plain_name(row.name), row.name)), known)
        known.setdefault(weft.name, weft)
        pieces.append(Piece(weft, row.picks, row.role))
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
    return replace(
        plan, warnings=(*table.warnings, *rename_note(names), *_notes(plan), *share_notes(plan))
    )


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
