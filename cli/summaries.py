"""Plans and palettes as the tables that the commands print."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from typing import TYPE_CHECKING

from cli.output import table
from palette.measures import (
    Units,
    format_density,
    format_length,
    per_cents,
)
from palette.plans.options import Option

if TYPE_CHECKING:
    from palette.stripes.plan import StripePlan
    from palette.swatches.palette import Palette

__all__ = [
    "cloth_line",
    "defaults_line",
    "palette_table",
    "stripe_table",
]

_NO_REASON = "otherwise"


def palette_table(palette: Palette) -> str:
    """Set out a palette: number, name, hex, CIELAB, per cent."""
    shares = per_cents(tuple(swatch.share for swatch in palette.swatches))
    notation = any(swatch.munsell for swatch in palette.swatches)
    rows = [
        (
            str(number),
            swatch.name,
            swatch.hex if swatch.in_srgb else f"{swatch.hex} (nearest)",
            " ".join(f"{value:6.1f}" for value in swatch.lab),
            f"{share:.1f} %",
            *((swatch.munsell,) if notation else ()),
            "accent" if swatch.accent else "",
        )
        for number, (swatch, share) in enumerate(zip(palette.swatches, shares, strict=True), 1)
    ]
    heads = ("", "colour", "hex", "CIELAB (D65)", "share", *(("Munsell",) if notation else ()), "")
    return table(heads, rows, hexes=[swatch.hex for swatch in palette.swatches])


def cloth_line(cloth: StripePlan, units: Units) -> str:
    """Sum a cloth up in one line: length finished and woven, picks, stripes."""
    return (
        f"{format_length(cloth.true_finished_length_mm, units)} finished"
        f" ({format_length(cloth.woven_length_mm, units)} woven),"
        f" {cloth.total_picks} picks at {format_density(cloth.picks_per_cm, units)},"
        f" {len(cloth.stripes)} stripes in {len(cloth.colours)} colours"
    )


def stripe_table(cloth: StripePlan, units: Units) -> str:
    """Set out the stripes: picks with running numbers and running woven length."""
    mm_per_pick = 10 / cloth.picks_per_cm
    rows = [
        (
            str(number),
            stripe.colour,
            str(stripe.picks),
            f"{stripe.first_pick}-{stripe.last_pick}",
            format_length(stripe.picks * mm_per_pick, units),
            format_length(stripe.last_pick * mm_per_pick, units),
            "" if stripe.role == "stripe" else stripe.role,
        )
        for number, stripe in enumerate(cloth.stripes, 1)
    ]
    heads = ("", "colour", "picks", "from-to", "woven", "woven so far", "")
    return table(heads, rows, hexes=[stripe.hex for stripe in cloth.stripes])


def defaults_line(
    options: tuple[Option, ...], asked: Mapping[str, object], used: Mapping[str, object]
) -> str:
    """List the defaults that were used by where they come from, common practice first.

    `used` has the values of those that follow from others: the sett from the yarn.
    """
    taken: dict[str, list[str]] = {"common practice": []}
    for option in options:
        follows = option.default is None and bool(option.label) and option.key in used
        known = follows or bool(option.unset) or option.default not in (None, ())
        if option.key not in asked and known:
            label = option.label or _NO_REASON
            shown = used[option.key] if follows else option.unset.split(",")[0] or option.shown
            taken.setdefault(label, []).append(f"{option.key} {shown}")
    lines = [
        textwrap.fill(
            f"{label}: {', '.join(values)}",
            width=80,
            initial_indent="  ",
            subsequent_indent="    ",
            break_on_hyphens=False,
        )
        for label, values in sorted(taken.items(), key=lambda item: item[0] == _NO_REASON)
        if values
    ]
    return "\n".join(["Not given, so taken:", *lines]) if lines else ""
