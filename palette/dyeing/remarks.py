"""What a dyer should be told beside the figures of a dye day."""

from __future__ import annotations

from palette.dyeing.dye_day import DyeDay, DyeLot

__all__ = ["remarks"]


def remarks(day: DyeDay) -> tuple[str, ...]:
    """Sentences about split lots, mixed fibre and depths that were only suggested.

    Parameters
    ----------
    day : DyeDay

    Returns
    -------
    tuple of str
        Lot by lot, then what concerns them all.
    """
    said: list[str] = []
    for lot in day.lots:
        said += _of_mixed(lot, natural=day.asked.natural)
        said += _of_split(day, lot)
    guessed = [lot.colour for lot in day.lots if not lot.depth_asked]
    if guessed and not day.asked.natural:
        said.append(
            f"Depth of shade suggested from the lightness of the colour alone: {_list(guessed)}. "
            "Dye a sample first."
        )
    elif guessed:
        said.append(
            f"Dyestuff taken as {day.lots[0].depth_percent:g} % of the dry fibre: "
            f"{_list(guessed)}. Plants differ: dye a sample first."
        )
    return tuple(dict.fromkeys(said))


def _list(names: list[str]) -> str:
    return ", ".join(names)


def _of_mixed(lot: DyeLot, *, natural: bool) -> list[str]:
    said: list[str] = []
    if lot.fibre.mixed and natural:
        said.append(
            f"{lot.colour}: {lot.fibre.text} is mixed fibre; natural dyes take more deeply on "
            "protein than on cellulose, so the yarn comes out in two shades."
        )
    elif lot.fibre.mixed:
        said.append(
            f"{lot.colour}: {lot.fibre.text} is mixed fibre, and the two take different dyes: acid "
            "dye on protein, fibre-reactive dye on cellulose. One alone leaves the other pale, a "
            "marl. Two baths are reckoned, the reactive one first and not hot, for alkali harms "
            "protein; surest is to dye each fibre before it is spun or plied."
        )
    if lot.fibre.mixed and not lot.fibre.shares_given:
        parts = len(lot.fibre.parts)
        said.append(
            f"{lot.colour}: shares of {lot.fibre.text} were not given, {parts} equal parts are "
            "taken. Write them like 60% wool 40% bamboo."
        )
    other = lot.fibre.share_of("other")
    if other > 0:
        said.append(
            f"{lot.colour}: {other * 100:g} % of {lot.fibre.text} takes none of these dyes and "
            "stays as it is."
        )
    return said


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
                f"{room:.1f} l, so its lot is split: {masses}. Two baths never match exactly: "
                "dye them from one stock solution on one day, and throw picks from both in turn."
            ]
    return []
