"""What a dyer should be told beside the figures of a dye day."""

from __future__ import annotations

from palette.dyeing.dye_day import DyeDay, DyeLot
from palette.dyeing.fibres import FibreContent
from palette.measures import format_mass

__all__ = ["remarks"]


_COUNTED = {2: "Two", 3: "Three", 4: "Four"}
_PLENTY = 2.0  # times what is needed: the skein is large for the colour


def remarks(day: DyeDay) -> tuple[str, ...]:
    """Sentences about mixed fibre, split lots, large skeins and depths that were only suggested.

    Parameters
    ----------
    day : DyeDay

    Returns
    -------
    tuple of str
        Fibre by fibre, lot by lot, then what concerns them all.
    """
    said: list[str] = []
    for text in dict.fromkeys(lot.fibre.text for lot in day.lots):
        alike = [lot for lot in day.lots if lot.fibre.text == text]
        said += _of_fibre(alike[0].fibre, _list(alike), natural=day.asked.natural)
    for lot in day.lots:
        said += _of_split(day, lot)
    return (*said, *_of_large_skeins(day), *_of_depths(day))


def _list(lots: list[DyeLot]) -> str:
    return ", ".join(dict.fromkeys(lot.colour for lot in lots))


def _of_fibre(fibre: FibreContent, colours: str, *, natural: bool) -> list[str]:
    """Point out mixed fibre, shares that were not given, and fibre that takes no dye."""
    said: list[str] = []
    if fibre.mixed and natural:
        said.append(
            f"{colours}: {fibre.text} is mixed fibre; natural dyes take more deeply on protein "
            "than on cellulose, so the yarn comes out in two shades."
        )
    elif fibre.mixed:
        said.append(
            f"{colours}: {fibre.text} is mixed fibre, and the two take different dyes: acid dye "
            "on protein, fibre-reactive dye on cellulose. One alone leaves the other pale, a marl. "
            "Two baths are reckoned, the reactive one first and not hot, for alkali harms protein; "
            "surest is to dye each fibre before it is spun or plied."
        )
    if fibre.mixed and not fibre.shares_given:
        said.append(
            f"{colours}: shares of {fibre.text} were not given, {len(fibre.parts)} equal parts are "
            "taken. Write them like 60% wool 40% bamboo."
        )
    other = fibre.share_of("other")
    if other > 0:
        said.append(
            f"{colours}: {other * 100:g} % of {fibre.text} takes none of these dyes and stays as "
            "it is."
        )
    return said


def _of_large_skeins(day: DyeDay) -> list[str]:
    """Name the colours of which far more is dyed than the plan needs."""
    large = [
        f"{lot.colour} ({format_mass(lot.needed_g)} needed, {format_mass(lot.dry_g)} dyed)"
        for lot in day.lots
        if lot.dry_g > _PLENTY * lot.needed_g * (1 + day.asked.margin)
    ]
    if not large:
        return []
    return [
        f"Much more is dyed than the plan needs: {', '.join(large)}. Wind smaller skeins of these."
    ]


def _of_depths(day: DyeDay) -> list[str]:
    """Name the depths that nobody asked for."""
    guessed = [lot for lot in day.lots if not lot.depth_asked]
    if not guessed:
        return []
    if day.asked.natural:
        return [
            f"Dyestuff taken as {guessed[0].depth_percent:g} % of the dry fibre: "
            f"{_list(guessed)}. Plants differ: dye a sample first."
        ]
    return [
        f"Depth of shade suggested from the lightness of the colour alone: {_list(guessed)}. "
        "Dye a sample first."
    ]


def _of_split(day: DyeDay, lot: DyeLot) -> list[str]:
    baths = day.baths_of(lot)
    for dye_class in dict.fromkeys(bath.dye_class for bath in baths):
        same = [bath for bath in baths if bath.dye_class == dye_class]
        if len(same) > 1:
            masses = " and ".join(f"{bath.dry_g:g} g" for bath in same)
            room = day.asked.largest_room_ml / 1000
            need = sum(bath.volume_ml for bath in same) / 1000
            return [
                f"{lot.colour}: {lot.dry_g:g} g needs {need:.1f} l and the largest pot takes "
                f"{room:.1f} l, so its lot is split: {masses}. "
                f"{_COUNTED.get(len(same), 'Several')} baths never match exactly: dye them from "
                f"one stock solution on one day, and {_mixed_in(lot, len(same))}."
            ]
    return []


def _mixed_in(lot: DyeLot, baths: int) -> str:
    """How unlike baths are hidden in the cloth: pick by pick, or end by end."""
    of = "both" if baths == 2 else "all of them"
    uses = {each.use for each in lot.skeins}
    weft, warp = f"throw picks from {of} in turn", f"wind ends from {of} in turn"
    ways = [words for use, words in (("weft", weft), ("warp", warp)) if use in uses]
    across = " across the whole warp" if "warp" in uses else ""
    return " and ".join(ways) + across
