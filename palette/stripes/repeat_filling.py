"""A length filled with a repeat at its own width, and what is done with the rest."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

__all__ = ["Filling", "filled"]

_KEPT = 0.5  # a stripe that the end of the cloth cuts is kept from this part of its width


class Filling(NamedTuple):
    """Runs as (place in the repeat, steps), and how often it is woven, in words."""

    runs: tuple[tuple[int, int], ...]
    how: str


def filled(steps: Sequence[int], room: int, narrowest: int, axes: Sequence[int] = ()) -> Filling:
    """Fill a length with a repeat.

    A repeat that mirrors is laid about the middle of the cloth, so that its two ends are alike;
    any other is begun with its first stripe and ends with the beginning of one more. A last
    stripe that is cut to under half its width, or under the smallest, is given to the one
    beside it, or to both ends of the cloth.

    Parameters
    ----------
    steps : sequence of int
        Of each stripe of the repeat; two at least.
    room : int
        Steps to fill, at least one repeat.
    narrowest : int
        Steps of the smallest stripe.
    axes : sequence of int
        Stripes about which the repeat mirrors.

    Returns
    -------
    Filling

    Examples
    --------
    >>> filled((4, 2, 6), 19, 1)
    Filling(runs=((0, 5), (1, 2), (2, 6), (0, 4), (1, 2)), how='once, then its first 2 stripes')
    >>> filled((4, 2), 20, 1, (0, 1)).runs
    ((1, 2), (0, 4), (1, 2), (0, 4), (1, 2), (0, 4), (1, 2))
    """
    return (
        _about_the_middle(steps, room, narrowest, axes) if axes else _begun(steps, room, narrowest)
    )


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _begun(steps: Sequence[int], room: int, narrowest: int) -> Filling:
    """Repeats from their first stripe on, and the beginning of one more."""
    times, left = divmod(room, sum(steps))
    runs = [(place, width) for _ in range(times) for place, width in enumerate(steps)]
    part = 0
    while left and steps[part] <= left:
        runs.append((part, steps[part]))
        left -= steps[part]
        part += 1
    if left and left >= max(narrowest, _KEPT * steps[part]):
        runs.append((part, left))
        left, part = 0, part + 1
    if left:
        (first, wide), (last, narrow) = runs[0], runs[-1]
        more = left - left // 2 if wide > narrow else left // 2  # the wider takes an odd step
        runs[0], runs[-1] = (first, wide + more), (last, narrow + left - more)
    if part == len(steps):
        return Filling(tuple(runs), f"{_times(times + 1)}, its last stripe narrower at the end")
    stripes = "stripe" if part == 1 else f"{part} stripes"
    return Filling(
        tuple(runs), f"{_times(times)}, then its first {stripes}" * bool(part) or _times(times)
    )


def _about_the_middle(
    steps: Sequence[int], room: int, narrowest: int, axes: Sequence[int]
) -> Filling:
    """Repeats about the middle of the cloth, cut alike at both ends."""

    def rank(axis: int) -> tuple[int, float, int]:
        left = room - steps[axis]
        return left % 2, -_one_side(steps, axis, left // 2, narrowest)[1], axis

    axis = min(axes, key=rank)
    left = room - steps[axis]
    side, _ = _one_side(steps, axis, left // 2, narrowest)
    runs = [*reversed(side), (axis, steps[axis]), *side]
    runs[-1] = (runs[-1][0], runs[-1][1] + left % 2)  # an odd step: at the end it does not show
    times = _times(room // sum(steps))
    return Filling(tuple(runs), times + ", the rest at both ends alike" * bool(room % sum(steps)))


def _one_side(
    steps: Sequence[int], axis: int, room: int, narrowest: int
) -> tuple[list[tuple[int, int]], float]:
    """Stripes from the middle one outwards, and what part of its width the last one has."""
    side: list[tuple[int, int]] = []
    place, part = axis, 1.0
    while room > 0:
        place = (place + 1) % len(steps)
        width = min(steps[place], room)
        part = width / steps[place]
        room -= width
        if side and width < min(steps[place], max(narrowest, _KEPT * steps[place])):
            side[-1] = (side[-1][0], side[-1][1] + width)
        else:
            side.append((place, width))
    return side, part
