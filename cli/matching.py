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
    takers = {pair.yarn.name: pair.colour for pair in matched.pairings if pair.yarn}
    makes = {_make(pair.yarn) for pair in matched.pairings if pair.yarn}
    rows = [
        (
            pair.colour,
            _name(pair.yarn) if pair.yarn else "none left",
            *([_make(pair.yarn)] if len(makes) > 1 else []),
            *([_grams(pair.yarn)] if weighed else []),
            "" if pair.difference is None else f"{pair.difference:.1f}",
            "yes" if pair.near else "no",
            _elsewhere(pair, takers),
        )
        for pair in matched.pairings
    ]
    kept = [*(["fibre, count"] if len(makes) > 1 else []), *(["in hand"] if weighed else [])]
    heads = ["colour", "yarn", *kept, "CIEDE2000", "near", "nearest on the shelf"]
    if not any(row[-1] for row in rows):
        heads, rows = heads[:-1], [row[:-1] for row in rows]
    text = table(heads, rows, hexes=[pair.colour_hex for pair in matched.pairings])
    paired = [pair for pair in matched.pairings if pair.yarn]
    return (
        f"{text}\nMean CIEDE2000 {matched.mean_difference:.1f} over {len(paired)} of "
        f"{len(matched.pairings)} colours; near: up to {matched.threshold:g}."
    )


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
    if not matched.unused:
        return ""
    left = ", ".join(
        _name(yarn) + (f" {yarn.mass_g:.0f}\u00a0g" if yarn.mass_g is not None else "")
        for yarn in matched.unused
    )
    return textwrap.fill(f"Not used: {left}.", width=_WIDE, subsequent_indent="  ")


def _name(yarn: ShelfYarn) -> str:
    """Name of a yarn; fleece is still to be spun, where the name does not say so already."""
    said = yarn.kind != "fleece" or "fleece" in yarn.name.lower()
    return yarn.name if said else f"{yarn.name} (fleece)"


def _make(yarn: ShelfYarn | None) -> str:
    """Say what a yarn is made of and how thick it is, as the shelf has it."""
    return "" if yarn is None else f"{yarn.fibre} {yarn.count}".strip()


def _grams(yarn: ShelfYarn | None) -> str:
    return "" if yarn is None or yarn.mass_g is None else f"{yarn.mass_g:.0f} g"
