"""A ground colour woven between all the others."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from palette.errors import WeavingError
from palette.stripes.material import Material, Run, join_runs
from palette.stripes.repeating import repeated

__all__ = ["GROUND_REASON", "on_ground", "symmetric_split"]

GROUND_REASON = "the ground must reach between all the stripes"

Arrange = Callable[[Material], tuple[Run, ...]]


def symmetric_split(total: int, count: int) -> tuple[int, ...]:
    """Split into whole parts that differ by at most one and read the same from both ends.

    Where that cannot be (an odd rest over an even count) the middle two differ by one.

    Examples
    --------
    >>> symmetric_split(8, 3), symmetric_split(10, 4), symmetric_split(9, 4)
    ((3, 2, 3), (3, 2, 2, 3), (2, 3, 2, 2))
    """
    base, rest = divmod(total, count)
    parts = [base] * count
    if rest % 2:
        parts[(count - 1) // 2] += 1
    room = [i for i in range(count // 2) if parts[i] == parts[-1 - i] == base]
    for k in range(rest // 2):
        place = room[k * len(room) // (rest // 2)]
        parts[place] += 1
        parts[-1 - place] += 1
    return tuple(parts)


def _equal_inside(total: int, count: int) -> tuple[int, ...]:
    """Split so that all inner parts are alike; the two outer ones take what is left."""
    base, rest = divmod(total, count)
    return (base + rest // 2, *[base] * (count - 2), base + rest - rest // 2)


def on_ground(
    arrange: Arrange, material: Material, copies: int, *, mirrors: bool = False
) -> tuple[Run, ...]:
    """Arrange the other colours, and weave the ground before, between and after them.

    The stripes of ground differ by at most one step; where the arrangement is repeated they
    are all alike but for the two outer ones. Where the ground's share is too small to reach,
    it is raised to what is needed; in a mirrored cloth it is evened.

    Raises
    ------
    WeavingError
        Even then it does not reach.
    """
    ground = material.ground
    if material.count == 1:
        return (Run(ground, material.total),)
    needed, given = 2 * material.narrowest, material
    while True:
        steps = _steps(material, needed)
        runs = join_runs(repeated(arrange, _others(material, steps), copies))
        reach = (len(runs) + 1) * material.narrowest
        if steps[ground] < reach:
            needed, material = reach, given
        elif mirrors and copies == 1 and len(runs) % 2 and steps[ground] % 2:
            material = _evened(material, steps[ground])
        else:
            break
        if needed > min(material.total, given.most[ground]):
            raise WeavingError("ground", GROUND_REASON, got=f"{steps[ground]} steps of it")
    split = _equal_inside if copies > 1 else symmetric_split
    gaps = split(steps[ground], len(runs) + 1)
    laid = [Run(ground, gaps[0])]
    for run, gap in zip(runs, gaps[1:], strict=True):
        laid += [Run(run.colour + (run.colour >= ground), run.steps), Run(ground, gap)]
    return tuple(laid)


def _steps(material: Material, needed: int) -> list[int]:
    """Whole steps of each colour, with at least so many of the ground."""
    floors = [needed if i == material.ground else 0 for i in range(material.count)]
    return list(material.steps(least=floors))


def _evened(material: Material, steps: int) -> Material:
    """Hold the ground to an even number of steps: one more if its limit allows, or one less."""
    ground = material.ground
    even = steps + 1 if steps + 1 <= material.most[ground] else steps - 1
    most = [even if i == ground else limit for i, limit in enumerate(material.most)]
    least = [even if i == ground else limit for i, limit in enumerate(material.least)]
    return replace(material, most=tuple(most), least=tuple(least))


def _others(material: Material, steps: list[int]) -> Material:
    """Give the same material without its ground, every colour with the steps it has."""
    ground = material.ground
    kept = [i for i in range(material.count) if i != ground]
    swap = material.swap
    if swap is not None and ground in swap:
        rule = "must not be one of the two colours that change places"
        raise WeavingError("ground", rule, got=material.names[ground])
    return replace(
        material,
        names=tuple(material.names[i] for i in kept),
        labs=tuple(material.labs[i] for i in kept),
        places=tuple(material.places[i] for i in kept),
        parts=tuple(float(steps[i]) for i in kept),
        least=tuple(material.least[i] for i in kept),
        most=tuple(material.most[i] for i in kept),
        total=sum(steps[i] for i in kept),
        swap=None if swap is None else (swap[0] - (swap[0] > ground), swap[1] - (swap[1] > ground)),
        ground=0,
    )
