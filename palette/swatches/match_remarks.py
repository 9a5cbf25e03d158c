"""What a weaver should be told beside the pairs of colours and yarns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from palette.measures import format_mass

if TYPE_CHECKING:
    from palette.swatches.match import Pairing
    from palette.swatches.shelf import Shelf

__all__ = ["match_remarks"]


def match_remarks(pairings: Sequence[Pairing], shelf: Shelf, near: float) -> tuple[str, ...]:
    """Say what is used up, missing, taken by another colour, or too little.

    Parameters
    ----------
    pairings : sequence of Pairing
    shelf : Shelf
    near : float
        CIEDE2000 up to which a yarn counted as near.

    Returns
    -------
    tuple of str
        Sentences.
    """
    said = []
    empty = [yarn.name for yarn in shelf.yarns if not yarn.in_hand]
    if empty:
        said.append(f"Left out, 0 g in hand: {', '.join(empty)}.")
    return (*said, *_of_far(pairings, near), *_of_taken(pairings), *_of_too_little(pairings))


def _of_far(pairings: Sequence[Pairing], near: float) -> list[str]:
    """Name the colours that nothing is near, those with a stand-in apart from those without."""
    far = [pairing for pairing in pairings if not pairing.anything_near]
    stand_in = [
        f"{each.colour} ({each.yarn.name} at {each.difference:.1f})"
        for each in far
        if each.yarn is not None
    ]
    without = [
        f"{each.colour} (nearest is {each.nearest.name} at {each.nearest_difference:.1f})"
        for each in far
        if each.yarn is None
    ]
    said = []
    if stand_in:
        said.append(
            f"Nothing on the shelf comes within CIEDE2000 {near:g} of these; the best there is "
            f"stands in: {', '.join(stand_in)}."
        )
    if without:
        said.append(
            f"Nothing on the shelf is near these, so they are left without a yarn: "
            f"{', '.join(without)}."
        )
    return said


def _of_taken(pairings: Sequence[Pairing]) -> list[str]:
    """Name the colours whose near yarn another colour has."""
    takers = {pairing.yarn.name: pairing.colour for pairing in pairings if pairing.yarn}
    return [
        f"{each.colour}: {each.nearest.name} is near (CIEDE2000 {each.nearest_difference:.1f}) "
        f"but stands for {takers[each.nearest.name]}."
        + (" Without it there is no yarn for this colour." if each.yarn is None else "")
        for each in pairings
        if each.anything_near and not each.near
    ]


def _of_too_little(pairings: Sequence[Pairing]) -> list[str]:
    """Name the yarns of which less is in hand than their colours need."""
    said = []
    for name in dict.fromkeys(each.yarn.name for each in pairings if each.yarn):
        of_it = [each for each in pairings if each.yarn is not None and each.yarn.name == name]
        needed = [each.needed_g for each in of_it if each.needed_g is not None]
        have = of_it[0].yarn.mass_g if of_it[0].yarn is not None else None
        if have is None or not math.fsum(needed) > have:
            continue
        colours = " and ".join(each.colour for each in of_it)
        said.append(
            f"{name}: {format_mass(math.fsum(needed))} is needed for {colours}, "
            f"{have:.0f} g is in hand."
        )
    return said
