"""A repeat woven so many times, and the part of a repeat that is left, centred."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from palette.stripes.material import Material, Run, join_runs

__all__ = ["partial_head", "partial_tail", "repeat_runs", "repeated"]


def partial_head(runs: Iterable[Run], steps: int) -> tuple[Run, ...]:
    """Take the first steps of a repeat.

    Examples
    --------
    >>> partial_head((Run(0, 3), Run(1, 3)), 4)
    (Run(colour=0, steps=3), Run(colour=1, steps=1))
    """
    taken = []
    for run in runs:
        if steps <= 0:
            break
        taken.append(Run(run.colour, min(run.steps, steps)))
        steps -= run.steps
    return tuple(taken)


def partial_tail(runs: Iterable[Run], steps: int) -> tuple[Run, ...]:
    """Take the last steps of a repeat.

    Examples
    --------
    >>> partial_tail((Run(0, 3), Run(1, 3)), 4)
    (Run(colour=0, steps=1), Run(colour=1, steps=3))
    """
    return partial_head(list(runs)[::-1], steps)[::-1]


def _widened(runs: list[Run], steps: int, at: int) -> None:
    runs[at] = Run(runs[at].colour, runs[at].steps + steps)


def repeat_runs(unit: tuple[Run, ...], total: int, narrowest: int) -> tuple[Run, ...]:
    """Fill a length with a repeat; what is left over is a part of a repeat, centred.

    Half of what is left is woven before the first repeat, as the end of one, and half after
    the last, as the beginning of one. A stripe cut narrower than `narrowest` is woven onto
    the stripe beside it instead.

    Examples
    --------
    >>> repeat_runs((Run(0, 2), Run(1, 2)), 10, 1)
    (Run(colour=1, steps=1), Run(colour=0, steps=2), Run(colour=1, steps=2),
     Run(colour=0, steps=2), Run(colour=1, steps=2), Run(colour=0, steps=1))
    """
    length = sum(run.steps for run in unit)
    copies, left = divmod(total, length)
    before = list(partial_tail(unit, left // 2))
    after = list(partial_head(unit, left - left // 2))
    middle = list(unit) * copies
    if before and before[0].steps < narrowest:
        cut = before.pop(0).steps
        _widened(before or middle, cut, 0)
    if after and after[-1].steps < narrowest:
        cut = after.pop().steps
        _widened(after or middle, cut, -1)
    return join_runs([*before, *middle, *after])


def repeated(
    arrange: Callable[[Material], tuple[Run, ...]], material: Material, repeats: int
) -> tuple[Run, ...]:
    """Weave an arrangement so many times over, every repeat alike.

    What does not divide is fewer steps than there are repeats; it is woven as a part of a
    repeat at both ends where its stripes are no narrower than the narrowest of the repeat,
    and otherwise widens the first and last stripe.
    """
    unit = arrange(material.scaled(material.total // repeats, repeats))
    if repeats == 1:
        return unit
    length = material.total // repeats
    left = material.total - repeats * length
    runs = list(repeat_runs(unit, repeats * length, material.narrowest))
    slimmest = max(material.narrowest, min(run.steps for run in unit))
    before, after = left // 2, left - left // 2
    if before < slimmest or len(unit) == 1:
        _widened(runs, before, 0)
        _widened(runs, after, -1)
        return tuple(runs)
    return join_runs([*partial_tail(unit, before), *runs, *partial_head(unit, after)])
