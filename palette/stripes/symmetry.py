"""Cloths whose second half answers the first: mirrored, and counterchange."""

from __future__ import annotations

import math

from palette.stripes.apportion import apportion
from palette.stripes.lines import line_of
from palette.stripes.material import Material, Run, join_runs

__all__ = ["counterchange", "mirrored"]


def mirrored(material: Material) -> tuple[Run, ...]:
    """Mirror the line about the middle: the cloth reads the same from both ends.

    Every colour but the middle one is woven twice, so it comes to an even number of steps; an
    odd step of the whole goes to the middle stripe. The evened numbers are again the largest
    remainders, of double steps.
    """
    line = line_of(material)
    middle, outer = line[-1], line[:-1]
    odd = material.total % 2
    extra = [odd * (i == middle) for i in range(material.count)]
    least = [
        math.ceil((max(material.least[i], material.narrowest) - odd) / 2)
        if i == middle
        else max(math.ceil(material.least[i] / 2), material.narrowest)
        for i in range(material.count)
    ]
    halves = apportion(
        [max(part - more, 0.0) for part, more in zip(material.parts, extra, strict=True)],
        material.total // 2,
        least=least,
        most=[max((m - more) // 2, 0) for m, more in zip(material.most, extra, strict=True)],
    )
    half = [Run(i, halves[i]) for i in outer]
    return (*half, Run(middle, 2 * halves[middle] + odd), *reversed(half))


def _pair(material: Material) -> tuple[int, int]:
    """Colours that swap: as asked, or the two whose parts are nearest in ratio."""
    if material.swap is not None:
        return material.swap
    pairs = [(i, j) for i in range(material.count) for j in range(i + 1, material.count)]

    def unlikeness(pair: tuple[int, int]) -> float:
        one, other = (material.parts[i] for i in pair)
        return round(abs(one - other) / (one + other), 9)

    return min(pairs, key=lambda pair: (unlikeness(pair), pair))


def counterchange(material: Material) -> tuple[Run, ...]:
    """Mirror the line about the middle, with two colours changing places in the second half.

    In the first half one of the two is woven twice as wide as the other, in the second half
    the other, so the two come to the same number of picks. Other colours are mirrored. An odd
    step of the whole widens the stripe at the middle of the cloth.
    """
    if material.count == 1:
        return (Run(0, material.total),)
    broad, narrow = _pair(material)
    others = [i for i in line_of(material) if i not in (broad, narrow)]
    line = [i for i in line_of(material) if i not in others[-1:]] + others[-1:]
    odd = material.total % 2
    floors = [max(math.ceil(material.least[i] / 2), material.narrowest) for i in others]
    caps = [max(material.most[i] // 2, 0) for i in others]
    pair_most = min(material.most[broad], material.most[narrow])
    parts = apportion(
        [*(material.parts[i] for i in others), material.parts[broad] + material.parts[narrow]],
        material.total // 2,
        least=[*floors, max(2 * material.narrowest, material.least[broad], material.least[narrow])],
        most=[*caps, pair_most],
    )
    wide = min(max(round(parts[-1] * 2 / 3), material.narrowest), parts[-1] - material.narrowest)
    halves = {**dict(zip(others, parts, strict=False)), broad: wide, narrow: parts[-1] - wide}
    first = [Run(i, halves[i]) for i in line]
    answer = {broad: narrow, narrow: broad}
    second = [Run(answer.get(run.colour, run.colour), run.steps) for run in reversed(first)]
    first[-1] = Run(first[-1].colour, first[-1].steps + odd)
    return join_runs([*first, *second])
