"""The palette in yarns from the shelf, as the command ``match`` reads and prints it."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Mapping
from typing import TYPE_CHECKING

from cli.naming import refused
from cli.output import table

if TYPE_CHECKING:
    from palette.swatches.match import Pairing, ShelfMatch
    from palette.swatches.shelf import ShelfYarn

__all__ = ["match_text", "nearness"]


_WIDE = 100


def nearness(text: str) -> float:
    """Read the difference up to which a yarn counts as near; raises InputError."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = math.nan
    if not 0 < value < math.inf:
        rule = "must be a CIEDE2000 difference, more than 0"
        raise refused("--near", rule, got=repr(text), remedy="Write it like 5.")
    return value


def match_text(matched: ShelfMatch) -> str:
    """Set out the pairs, the mixes that come nearer, and what stays on the shelf."""
    parts = [_pairs(matched), _mixes(matched), _unused(matched)]
    return "\n\n".join(part for part in parts if part)


def _pairs(matched: ShelfMatch) -> str:
    weighed = any(pair.yarn and pair.yarn.mass_g is not None for pair in matched.pairings)
    planned = any(pair.needed_g is not None for pair in matched.pairings)
    takers = {pair.yarn.name: pair.colour for pair in matched.pairings if pair.yarn}
    several = len({_make(pair.yarn) for pair in matched.pairings if pair.yarn}) > 1
    columns: dict[str, list[str]] = {
        "colour": [pair.colour for pair in matched.pairings],
        "yarn": [_name(pair.yarn) if pair.yarn else _nothing(pair) for pair in matched.pairings],
    }
    if several:
        columns["fibre, count"] = [_make(pair.yarn) for pair in matched.pairings]
    if planned:
        columns["needed"] = [_needed(pair.needed_g) for pair in matched.pairings]
    if weighed:
        columns["in hand"] = [_grams(pair.yarn) for pair in matched.pairings]
    columns["CIEDE2000"] = [
        "" if pair.difference is None else f"{pair.difference:.1f}" for pair in matched.pairings
    ]
    columns["near"] = [_near(pair) for pair in matched.pairings]
    columns["nearest on the shelf"] = [_elsewhere(pair, takers) for pair in matched.pairings]
    if not any(columns["nearest on the shelf"]):
        del columns["nearest on the shelf"]
    rows = list(zip(*columns.values(), strict=True))
    text = table(list(columns), rows, hexes=[pair.colour_hex for pair in matched.pairings])
    return f"{text}\n{_mean(matched)}"


def _mean(matched: ShelfMatch) -> str:
    near = f"near: up to {matched.threshold:g}"
    colours = len(matched.pairings)
    if matched.mean_difference is None:
        return f"None of the {colours} colours has a yarn; {near}."
    paired = sum(pair.yarn is not None for pair in matched.pairings)
    mean = f"Mean CIEDE2000 {matched.mean_difference:.1f} over {paired} of {colours} colours"
    return f"{mean}; {near}."


def _nothing(pair: Pairing) -> str:
    return "none left" if pair.anything_near else "nothing near"


def _near(pair: Pairing) -> str:
    return "" if pair.yarn is None else "yes" if pair.near else "no"


def _needed(grams: float | None) -> str:
    from palette.measures import format_mass

    return "" if grams is None else format_mass(grams)


def _elsewhere(pair: Pairing, takers: Mapping[str, str]) -> str:
    """Nearest yarn of a colour where another colour took it."""
    if pair.yarn is not None and pair.yarn.name == pair.nearest.name:
        return ""
    said = f"{_name(pair.nearest)} {pair.nearest_difference:.1f}"
    taker = takers.get(pair.nearest.name)
    return f"{said}, taken by {taker}" if taker else said


def _mixes(matched: ShelfMatch) -> str:
    rows, hexes = [], []
    paired = [pair.yarn for pair in matched.pairings if pair.yarn]
    yarns = {yarn.name: yarn for yarn in (*paired, *matched.unused)}
    for pair in matched.pairings:
        for mix in pair.mixes:
            parts = zip(mix.yarns, mix.parts, strict=True)
            fibres = {name: yarns[name].fibre for name in mix.yarns if yarns[name].fibre}
            of = fibres if len(set(fibres.values())) > 1 else {}
            words = ", ".join(
                f"{name} ({of[name]}) x {part}" if name in of else f"{name} x {part}"
                for name, part in parts
            )
            row = (pair.colour, words, f"{mix.difference:.1f}")
            rows.append((*row, f"{mix.contrast:.1f}"))
            hexes.append(mix.hex)
    if not rows:
        return ""
    return (
        "Nearer together: ply so many strands, or throw so many picks in turn\n"
        + table(("colour", "parts", "CIEDE2000", "contrast"), rows, hexes=hexes)
        + "\nPredicted for a distance at which the two melt together: a guide, so try a sample.\n"
        "Contrast is CIEDE2000 between the two; the larger, the plainer the marl or the fine "
        "stripes."
    )


def _unused(matched: ShelfMatch) -> str:
    """Set out what stays on the shelf, fleece apart: it is not yarn yet."""
    parts = []
    for words, kind in (("Not used", "yarn"), ("Fleece, to be spun", "fleece")):
        left = ", ".join(
            yarn.name + (f" {yarn.mass_g:.0f}\u00a0g" if yarn.mass_g is not None else "")
            for yarn in matched.unused
            if yarn.kind == kind
        )
        if left:
            parts.append(textwrap.fill(f"{words}: {left}.", width=_WIDE, subsequent_indent="  "))
    return "\n".join(parts)


def _name(yarn: ShelfYarn) -> str:
    """Name of a yarn; fleece is still to be spun, where the name does not say so already."""
    said = yarn.kind != "fleece" or "fleece" in yarn.name.lower()
    return yarn.name if said else f"{yarn.name} (fleece)"


def _make(yarn: ShelfYarn | None) -> str:
    """Say what a yarn is made of and how thick it is, as the shelf has it."""
    return "" if yarn is None else f"{yarn.fibre} {yarn.count}".strip()


def _grams(yarn: ShelfYarn | None) -> str:
    return "" if yarn is None or yarn.mass_g is None else f"{yarn.mass_g:.0f} g"
