"""How far the cloth is from its yarn, in the words of a note: duller, and lighter or darker."""

from __future__ import annotations

from collections.abc import Iterable

from palette.cloth.prediction import WovenStripe

__all__ = ["part_lost_words", "woven_words"]


def part_lost_words(woven: WovenStripe) -> str:
    """Share of the yarn's brightness of colour that the cloth does not have, in per cent.

    Nothing where the cloth has as much or more, and for a yarn that is all but grey.

    Examples
    --------
    >>> from palette.cloth.prediction import predict
    >>> part_lost_words(predict("rust", (46, 26, 47), (89, -3, 12)))
    '43 %'
    >>> part_lost_words(predict("grey", (50, 0, 1), (89, -3, 12)))
    ''
    """
    return f"{100 * woven.part_lost:.0f} %" if woven.part_lost > 0 else ""


def woven_words(stripes: Iterable[WovenStripe]) -> tuple[str, ...]:
    """Say which colours lose much of their brightness, and which become much lighter or darker.

    Parameters
    ----------
    stripes : iterable of WovenStripe
        Of all the cloths; each weft is named once.

    Returns
    -------
    tuple of str
        A sentence for each of the two, where there is anything to say.
    """
    stripes = tuple(stripes)
    said = []
    dull = {each.colour: part_lost_words(each) for each in stripes if each.dull}
    if dull:
        names = ", ".join(f"{colour} {part}" for colour, part in dull.items())
        said.append(
            "Across this warp the cloth will be duller than the yarn. Of their brightness of "
            f"colour are lost: {names}. leafweft cloth shows it, and which weft to dye instead."
        )
    for tone, sign in (("lighter", 1), ("darker", -1)):
        moved = {
            each.colour: f"from {each.yarn_lab[0]:.0f} to {each.cloth_lab[0]:.0f}"
            for each in stripes
            if each.shifted and sign * each.lightness_change > 0
        }
        if moved:
            names = ", ".join(f"{colour} {change}" for colour, change in moved.items())
            said.append(
                f"Across this warp these will be much {tone} than the yarn, from 0 for black to "
                f"100 for white: {names}."
            )
    return tuple(said)
