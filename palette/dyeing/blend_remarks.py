"""What a spinner should be told beside a blend."""

from __future__ import annotations

import math

from palette.dyeing.blend import Blend
from palette.dyeing.fibres import read_fibre
from palette.errors import InputError
from palette.swatches.match import NEAR_CIEDE2000
from palette.swatches.shelf import ShelfYarn

__all__ = ["blend_remarks", "way_to_go"]

Lab = tuple[float, float, float]


def way_to_go(from_lab: Lab, to_lab: Lab) -> str:
    """Say what a colour lacks to be another one, in the words of a dyer.

    Examples
    --------
    >>> way_to_go((50.0, -10.0, 10.0), (60.0, -12.0, 12.0))
    'lighter'
    """
    lightness = to_lab[0] - from_lab[0]
    chroma = math.hypot(to_lab[1], to_lab[2]) - math.hypot(from_lab[1], from_lab[2])
    red, yellow = to_lab[1] - from_lab[1], to_lab[2] - from_lab[2]
    steps = [
        (abs(lightness), "lighter" if lightness > 0 else "darker"),
        (abs(chroma), "brighter" if chroma > 0 else "greyer"),
    ]
    if math.hypot(red, yellow) > abs(chroma) + 1:
        across = ("redder" if red > 0 else "greener", "yellower" if yellow > 0 else "bluer")
        steps.append(
            (max(abs(red), abs(yellow)), across[0] if abs(red) > abs(yellow) else across[1])
        )
    words = [word for size, word in sorted(steps, reverse=True) if size >= 3][:2]
    return " and ".join(words) or "a little different"


def blend_remarks(best: Blend, fleeces: tuple[ShelfYarn, ...], target_lab: Lab) -> tuple[str, ...]:
    """Sentences about a blend that stays far off, or that mixes unlike fibres.

    Parameters
    ----------
    best : Blend
    fleeces : tuple of ShelfYarn
        Those it was chosen from.
    target_lab : tuple of 3 float
        What was wanted.

    Returns
    -------
    tuple of str
    """
    said = []
    if not best.difference <= NEAR_CIEDE2000:
        said.append(
            f"Nothing that can be carded from this shelf comes within CIEDE2000 "
            f"{NEAR_CIEDE2000:g}; the nearest is {best.difference:.1f} away. "
            f"A fleece is missing that is {way_to_go(best.lab, target_lab)}."
        )
    names = {part.name for part in best.parts}
    fibres = dict.fromkeys(each.fibre for each in fleeces if each.name in names and each.fibre)
    contents, unknown = [], []
    for fibre in fibres:
        try:
            contents.append(read_fibre(fibre))
        except InputError:
            unknown.append(fibre)
    if unknown:
        said.append(
            f"Of unknown fibre: {', '.join(unknown)}; the law is for parts of one fibre, so trust "
            "the sample."
        )
    families = {part.family for content in contents for part in content.parts}
    if len(families) > 1:
        said.append(
            f"The parts are of unlike fibre ({', '.join(fibres)}); the law is for one fibre."
        )
    return tuple(said)
