"""The palette that a table of stripes is woven in, where no photograph is behind it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from palette.stripes.stripe_rows import StripeRow, plain_name, stripe_rows
from palette.swatches.palette import Palette, PaletteSource, Swatch

__all__ = ["palette_of_stripes"]


def palette_of_stripes(path: str | Path, *, cloth: str = "") -> Palette:
    r"""Take the colours of a table of stripes, each with the share of the picks that it has there.

    Parameters
    ----------
    path : str or Path
        As in `read_stripes`; every colour has its hex in one row at least.
    cloth : str
        Which cloth to read, where the table has a column cloth with several.

    Returns
    -------
    Palette
        Hems, borders and yarns between two colours are left out, unless there is nothing else.

    Raises
    ------
    TableError
        The file is no such table, or a colour has no hex.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "stripes.csv"
    ...     _ = path.write_text("colour,picks,hex\nmoss,30,#5d733a\nrust,10,#a84f28\n")
    ...     palette = palette_of_stripes(path)
    >>> [(swatch.name, swatch.share) for swatch in palette.swatches]
    [('moss', 0.75), ('rust', 0.25)]
    """
    from palette.perception.spaces import hex_to_lab

    table, rows = stripe_rows(path, cloth)
    names, codes = _with_hex(rows)
    body = [stripe for stripe in rows if stripe.role == "stripe"] or rows
    picks: Counter[str] = Counter()
    for stripe in body:
        picks[plain_name(stripe.name)] += stripe.picks
    swatches = [
        Swatch(name=names[key], lab=hex_to_lab(codes[key]), hex=codes[key], share=count)
        for key, count in _shares(picks)
    ]
    count = "1 colour stands" if len(swatches) == 1 else f"{len(swatches)} colours stand"
    return Palette(
        swatches=tuple(swatches),
        source=PaletteSource(
            why=f"{count} in {table.file}", settings=(("taken", "from a table of stripes"),)
        ),
    )


def _with_hex(rows: tuple[StripeRow, ...]) -> tuple[dict[str, str], dict[str, str]]:
    """Give the name and the hex of each colour, by its plain name."""
    names: dict[str, str] = {}
    codes: dict[str, str] = {}
    for stripe in rows:
        key = plain_name(stripe.name)
        names.setdefault(key, stripe.name)
        if stripe.hex:
            codes.setdefault(key, stripe.hex)
    for stripe in rows:
        if plain_name(stripe.name) not in codes:
            remedy = "Write #rrggbb in the column hex, or name the photograph or palette too."
            raise stripe.row.error("hex", f"must hold the colour of {stripe.name}", remedy=remedy)
    return names, codes


def _shares(picks: Counter[str]) -> list[tuple[str, float]]:
    """Share of each colour, the largest first."""
    total = picks.total()
    return [(key, count / total) for key, count in picks.most_common()]
