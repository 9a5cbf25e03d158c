"""Which colour of an old cloth became which, as the command ``stripes`` prints it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.plans.like import LikeCloth

__all__ = ["colourway_table"]


def colourway_table(made: LikeCloth) -> str:
    """Set out each old colour beside the one in its place; "" where the colours are the same."""
    from palette.measures import format_share

    if not made.colours:
        return ""
    cloth = made.cloth
    shares = {swatch.name: swatch.share for swatch in cloth.palette.swatches}
    rows = [
        (
            f"{old.name} {old.hex}",
            f"{new.name} {new.hex}",
            str(cloth.picks_of(new.name)),
            format_share(cloth.picks_of(new.name) / cloth.total_picks),
            format_share(shares[new.name]),
        )
        for old, new in made.colours
    ]
    heads = ("in that plan", "here", "picks", "woven", "in the palette")
    listed = table(heads, rows, hexes=[new.hex for _, new in made.colours])
    left = made.not_woven
    return f"{listed}\nNot woven: {', '.join(left)}." if left else listed
