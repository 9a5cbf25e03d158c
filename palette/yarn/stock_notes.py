"""What the shelf did to a plan, as sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from palette.measures import Units, format_length, format_mass
from palette.stripes.plan import StripePlan

__all__ = ["change_notes", "length_note"]

_REASONS = (
    "Fewer picks, as the shelf has no more",
    "Fewer picks, to keep the shares",
    "More picks, to make up for the others",
)


def length_note(wish: StripePlan, cloth: StripePlan, short: Sequence[str], units: Units) -> str:
    """Say how long a cloth comes out, and which yarn sets that."""
    now = format_length(cloth.true_finished_length_mm, units)
    wished = format_length(wish.true_finished_length_mm, units)
    what = ", ".join("the warp yarn" if name == "warp" else name for name in short)
    long = f"is {now} long instead of {wished}" if now != wished else f"stays {now} long"
    return f"The cloth {long}: the shelf has no more of {what}." if what else f"The cloth {long}."


def change_notes(
    wish: StripePlan,
    plan: StripePlan,
    held_g: Mapping[str, float],
    short: tuple[str, ...],
    units: Units,
) -> tuple[str, ...]:
    """Say what the shelf moved, one sentence for each reason, and what it did to the length."""
    fewer, kept, more = _REASONS
    moved: dict[str, list[str]] = {reason: [] for reason in _REASONS}
    for colour in wish.colours:
        before, after = wish.picks_of(colour), plan.picks_of(colour)
        words = f"{colour} {after} instead of {before}"
        if after < before and colour in short:
            there = format_mass(held_g.get(colour, 0.0), units, held=True)
            moved[fewer].append(f"{words} ({there} there)")
        elif after < before:
            moved[kept].append(words)
        elif after > before:
            moved[more].append(words)
    notes = [f"{reason}: {', '.join(colours)}." for reason, colours in moved.items() if colours]
    if plan.total_picks < wish.total_picks:
        notes.append(length_note(wish, plan, short or ("warp",), units))
    return tuple(notes)
