"""Stripes spread by a rule or by chance: scattered on a ground, and hit-and-miss."""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate
from typing import TYPE_CHECKING

from palette.stripes.apportion import apportion
from palette.stripes.lines import line_of
from palette.stripes.material import Material, Run

if TYPE_CHECKING:
    from numpy.random import Generator

__all__ = ["hit_and_miss", "scattered"]

STRIPES_AIMED = 40  # one for every 4 or 5 cm of a scarf; common practice
ACCENTS_AIMED = 24


def even_split(total: int, count: int) -> tuple[int, ...]:
    """Split into whole parts that differ by at most one, the larger spread evenly.

    Examples
    --------
    >>> even_split(8, 3)
    (2, 3, 3)
    """
    return tuple((i + 1) * total // count - i * total // count for i in range(count))


def scattered(material: Material) -> tuple[Run, ...]:
    """Scatter the colours as accents on the ground, as evenly as whole steps allow.

    The stripes of ground between them, the two outer ones included, differ by at most one
    step. Each accent comes back in proportion to its share, and its stripes too differ by at
    most one step.
    """
    ground, narrowest = material.ground, material.narrowest
    accents = [i for i in line_of(material) if i != ground]
    if not accents:
        return (Run(ground, material.total),)
    floors = [(len(accents) + 1) * narrowest if i == ground else 0 for i in range(material.count)]
    steps = material.steps(least=floors)
    room = [steps[i] // narrowest for i in accents]
    stripes = min(steps[ground] // narrowest - 1, sum(room), max(ACCENTS_AIMED, len(accents)))
    times = apportion([steps[i] for i in accents], stripes, least=1, most=room)
    laid = sorted(
        ((number + 0.5) / count, place, width)
        for place, count in enumerate(times)
        for number, width in enumerate(even_split(steps[accents[place]], count))
    )
    gaps = even_split(steps[ground], stripes + 1)
    runs = [Run(ground, gaps[0])]
    for (_, place, width), gap in zip(laid, gaps[1:], strict=True):
        runs += [Run(accents[place], width), Run(ground, gap)]
    return tuple(runs)


def hit_and_miss(material: Material) -> tuple[Run, ...]:
    """Leave widths and places to chance: no colour twice running, shares kept exactly.

    Drawn from numpy's PCG64 generator with the seed, so the same seed gives the same cloth.
    With one colour there is one stripe.
    """
    import numpy as np

    if material.count == 1:
        return (Run(0, material.total),)
    chance = np.random.Generator(np.random.PCG64(material.seed))
    steps = material.steps()
    room = [s // material.narrowest for s in steps]
    stripes = min(sum(room), max(STRIPES_AIMED, 2 * material.count))
    times = list(apportion(steps, stripes, least=1, most=room))
    commonest = times.index(max(times))
    times[commonest] = min(times[commonest], sum(times) - times[commonest] + 1)
    widths = [_cut(s, n, material.narrowest, chance) for s, n in zip(steps, times, strict=True)]
    return tuple(Run(i, widths[i].pop()) for i in _shuffled(times, chance))


def _cut(steps: int, count: int, narrowest: int, chance: Generator) -> list[int]:
    """Cut a colour's steps at random into stripes that are not too unlike."""
    import numpy as np

    base = max(narrowest, steps // (4 * count))
    free = steps - base * count
    cuts = np.sort(chance.integers(0, free + 1, size=count - 1))
    return [int(width) + base for width in np.diff(np.concatenate(([0], cuts, [free])))]


def _shuffled(times: list[int], chance: Generator) -> list[int]:
    """Order colours at random, each so many times, none twice running.

    A colour may be drawn as long as what is left can still be woven: no colour more than half
    of it, rounded up; the one just drawn no more than half, rounded down.
    """
    left, drawn = list(times), [-1]
    for remaining in range(sum(times) - 1, -1, -1):
        weights = [0 if i == drawn[-1] else n for i, n in enumerate(left)]
        pressing = [i for i, n in enumerate(left) if i != drawn[-1] and n > (remaining + 1) // 2]
        if pressing:
            weights = [n if i in pressing else 0 for i, n in enumerate(weights)]
        mark = int(chance.integers(0, sum(weights)))
        place = bisect_right(list(accumulate(weights)), mark)
        drawn.append(place)
        left[place] -= 1
    return drawn[1:]
