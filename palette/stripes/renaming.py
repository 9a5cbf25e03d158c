"""New names for colours, told by the same hex in a table of stripes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from palette.stripes.stripe_rows import StripeRow, plain_name
from palette.stripes.weft import Weft
from palette.swatches.palette import Palette

__all__ = ["new_names", "rename_note", "with_new_names"]


def new_names(rows: Iterable[StripeRow], known: Mapping[str, Weft]) -> dict[str, str]:
    """Find the colours that a table calls by another name: a name not known, with a known hex.

    Hems, borders and yarns between two colours are yarns of their own and rename nothing.

    Parameters
    ----------
    rows : iterable of StripeRow
    known : mapping of str to Weft
        Yarns by name.

    Returns
    -------
    dict of str to str
        From the old name to the new one.

    Raises
    ------
    TableError
        One colour is given two new names.
    """
    plain = {plain_name(name) for name in known}
    found: dict[str, str] = {}
    for stripe in rows:
        if stripe.role != "stripe" or not stripe.hex or plain_name(stripe.name) in plain:
            continue
        same = [name for name, weft in known.items() if weft.hex == stripe.hex]
        if not same:
            continue
        called = found.setdefault(same[0], stripe.name)
        if plain_name(called) != plain_name(stripe.name):
            rule = f"must be {called}, as {stripe.hex} is called in a row above"
            remedy = "Give another yarn another hex."
            raise stripe.row.error("colour", rule, got=repr(stripe.name), remedy=remedy)
    return found


def with_new_names(palette: Palette, names: Mapping[str, str]) -> Palette:
    """Give the same palette with some of its colours called otherwise."""
    swatches = (replace(s, name=names.get(s.name, s.name)) for s in palette.swatches)
    return replace(palette, swatches=tuple(swatches)) if names else palette


def rename_note(names: Mapping[str, str]) -> tuple[str, ...]:
    """Say in one sentence what is called otherwise."""
    if not names:
        return ()
    called = ", ".join(f"{old} is now {new}" for old, new in names.items())
    return (f"Renamed, the hex being the same: {called}.",)
