"""Stripes read off a cloth as the command ``read`` prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.measures import Units
    from palette.stripes.reading_values import ClothReading

__all__ = ["reading_table"]

_LEVEL_DEGREES = 0.1


def reading_table(reading: ClothReading, units: Units) -> str:
    """Set out the stripes from the top down (or left to right), with what is unsure."""
    from palette.measures import format_length, format_share

    rows = [
        (
            str(number),
            stripe.colour,
            format_share(stripe.start),
            format_share(stripe.share),
            "" if stripe.width_mm is None else format_length(stripe.width_mm, units),
            "" if stripe.picks is None else str(stripe.picks),
            stripe.doubt,
        )
        for number, stripe in enumerate(reading.stripes, 1)
    ]
    heads = ("", "colour", "begins at", "share", "width", "picks", "unsure because it")
    listed = table(heads, rows, hexes=[stripe.hex for stripe in reading.stripes])
    told = [_stripes(reading), _size(reading, units), _picks(reading, units), _repeat(reading)]
    return "\n".join([*filter(None, [*told, _unsure(reading)]), "", listed])


def _stripes(reading: ClothReading) -> str:
    way = "upright, read from left to right" if reading.upright else "level, read from the top down"
    said = f"{len(reading.stripes)} stripes in {len(reading.palette.swatches)} colours: {way}"
    if abs(reading.skew_degrees) < _LEVEL_DEGREES:
        return f"{said}."
    hand = "clockwise" if reading.skew_degrees > 0 else "anticlockwise"
    return f"{said}. They run {abs(reading.skew_degrees):.1f} degrees {hand} of it; straightened."


def _size(reading: ClothReading, units: Units) -> str:
    from palette.measures import format_length

    if reading.length_mm is None:
        return "Size: not known; give --width or --length for widths in a unit of length."
    along = f"Size: {format_length(reading.length_mm, units)} along the warp"
    across = f", {format_length(reading.width_mm, units)} across" if reading.width_mm else ""
    shown = "" if all(reading.ends_seen) else ", as far as the picture shows"
    return f"{along}{across}{shown}."


def _picks(reading: ClothReading, units: Units) -> str:
    from palette.measures import format_density

    if reading.total_picks is None:
        return "Picks: not known; the threads cannot be counted, so give --picks and a size."
    how = "counted in the threads" if reading.picks_counted else "reckoned from size and density"
    dense = ""
    if reading.picks_per_cm is not None:
        dense = f", {format_density(reading.picks_per_cm, units)}"
    return f"Picks: {reading.total_picks}{dense}, {how}."


def _repeat(reading: ClothReading) -> str:
    found = reading.repeat
    if found is None:
        return "Repeat: none found; the sequence is taken as a whole."
    times = "once" if found.whole == 1 else f"{found.whole} times"
    rest = f" and the first {found.left_over} of the next" if found.left_over else ""
    picks = ""
    if reading.total_picks is not None:
        picks = f", about {found.share * reading.total_picks:.0f} picks"
    agreed = f"{found.agreed} stripes agree with those one repeat before"
    return f"Repeat: {found.stripes} stripes{picks}, {times}{rest} ({found.sureness}: {agreed})."


def _unsure(reading: ClothReading) -> str:
    if not reading.unsure:
        return "Unsure: none."
    return f"Unsure: stripe {', '.join(map(str, reading.unsure))}; look at the cloth there."
