"""Stripes read off a cloth as the command ``read`` prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.measures import Units
    from palette.stripes.reading_repeat import ReadRepeat
    from palette.stripes.reading_values import ClothReading

__all__ = ["reading_table"]


def reading_table(reading: ClothReading, units: Units) -> str:
    """Set out the stripes from the top down (or left to right), with what is unsure."""
    from palette.measures import format_density, format_length, format_share

    rows = [
        (
            str(number),
            stripe.colour,
            format_share(stripe.share),
            "" if stripe.width_mm is None else format_length(stripe.width_mm, units),
            "" if stripe.picks is None else str(stripe.picks),
            stripe.doubt,
        )
        for number, stripe in enumerate(reading.stripes, 1)
    ]
    way = "from left to right" if reading.upright else "from the top down"
    found = [f"{len(reading.stripes)} stripes in {len(reading.palette.swatches)} colours, {way}"]
    if abs(reading.skew_degrees) >= 0.1:
        found.append(f"turned by {reading.skew_degrees:+.1f} degrees")
    if reading.picks_per_cm is not None:
        how = "counted" if reading.picks_counted else "reckoned"
        found.append(f"{format_density(reading.picks_per_cm, units)} ({how})")
    if reading.repeat is not None:
        found.append(_repeat(reading.repeat))
    heads = ("", "colour", "share", "width", "picks", "unsure because")
    listed = table(heads, rows, hexes=[stripe.hex for stripe in reading.stripes])
    return f"{'; '.join(found)}.\n\n{listed}"


def _repeat(repeat: ReadRepeat) -> str:
    over = f" and {repeat.left_over} stripes of another" if repeat.left_over else ""
    return f"{repeat.stripes} stripes repeat, {repeat.whole} times{over}"
