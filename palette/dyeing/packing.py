"""Skeins into as few pots as they need, a colour's lot kept together where it fits."""

from __future__ import annotations

import math

from palette.errors import InputError

__all__ = ["pack", "rounds_of_pots", "share_out"]

_DUST = 1e-9
_MOST_STEPS = 20_000


def pack(sizes: tuple[float, ...], capacity: float) -> tuple[tuple[int, ...], ...]:
    """Put things into as few bins as possible.

    Parameters
    ----------
    sizes : tuple of float
        Size of each thing, more than 0 and at most `capacity`.
    capacity : float
        What one bin holds.

    Returns
    -------
    tuple of tuple of int
        Index of the things in each bin, in order.

    Raises
    ------
    InputError
        A thing that no bin holds.

    Notes
    -----
    First fit, largest first, is at most 11/9 of the best and 6/9 of a bin worse (Dósa 2007, "The
    tight bound of first fit decreasing bin-packing algorithm"). Where it is above the bound that
    the total gives, a search looks for fewer bins, up to a fixed number of steps.

    Examples
    --------
    >>> pack((5.0, 4.0, 3.0, 3.0, 3.0), 9.0)
    ((0, 1), (2, 3, 4))
    """
    for size in sizes:
        if not 0 < size <= capacity * (1 + _DUST):
            raise InputError("pot", f"must hold {size:g} g in one piece", got=f"{capacity:g} g")
    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i], i))
    bins = _first_fit(order, sizes, capacity)
    least = math.ceil(math.fsum(sizes) / capacity - _DUST)
    for count in range(least, len(bins)):
        better = _search(order, sizes, capacity, count)
        if better is not None:
            bins = better
            break
    return tuple(sorted(tuple(sorted(each)) for each in bins))


def _first_fit(order: list[int], sizes: tuple[float, ...], capacity: float) -> list[list[int]]:
    bins: list[list[int]] = []
    for i in order:
        for each in bins:
            if math.fsum(sizes[j] for j in (*each, i)) <= capacity * (1 + _DUST):
                each.append(i)
                break
        else:
            bins.append([i])
    return bins


def _search(
    order: list[int], sizes: tuple[float, ...], capacity: float, count: int
) -> list[list[int]] | None:
    """Pack into exactly `count` bins by trying every place, or None; deterministic."""
    bins: list[list[int]] = [[] for _ in range(count)]
    room = [capacity * (1 + _DUST)] * count
    steps = 0

    def place(n: int) -> bool:
        nonlocal steps
        steps += 1
        if n == len(order) or steps > _MOST_STEPS:
            return n == len(order)
        size, tried = sizes[order[n]], set()
        for b in range(count):
            if size <= room[b] and room[b] not in tried:
                tried.add(room[b])
                bins[b].append(order[n])
                room[b] -= size
                if place(n + 1):
                    return True
                room[b] += size
                bins[b].pop()
        return False

    return bins if place(0) else None


def share_out(sizes: tuple[float, ...], capacity: float) -> tuple[tuple[int, ...], ...]:
    """Split one lot into as few baths as it needs, as even as its skeins allow.

    Parameters, returns and errors are those of `pack`. Even baths of one colour come out nearer
    to each other than a full one and a rest.

    Examples
    --------
    >>> share_out((100.0,) * 4, 350.0)
    ((0, 1), (2, 3))
    """
    packed = pack(sizes, capacity)
    even: list[list[int]] = [[] for _ in packed]
    load = [0.0] * len(packed)
    for i in sorted(range(len(sizes)), key=lambda i: (-sizes[i], i)):
        least = min(range(len(load)), key=lambda b: (round(load[b], 6), b))
        even[least].append(i)
        load[least] += sizes[i]
    if max(load, default=0.0) > capacity * (1 + _DUST):
        return packed
    by_first = sorted(tuple(sorted(each)) for each in even)
    blocks, start = [], 0
    if len(set(sizes)) == 1:  # like skeins: bundle neighbours
        for each in by_first:
            blocks.append(tuple(range(start, start + len(each))))
            start += len(each)
        return tuple(blocks)
    return tuple(by_first)


def rounds_of_pots(
    volumes_ml: tuple[float, ...],
    room_ml: tuple[float, ...],
    *,
    after: tuple[tuple[int, ...], ...] = (),
) -> tuple[tuple[int, int], ...]:
    """Give every bath a round of the day and a pot.

    Parameters
    ----------
    volumes_ml : tuple of float
        Volume of each bath.
    room_ml : tuple of float
        What each pot may be filled to.
    after : tuple of tuple of int
        For each bath, index of the baths that have to be done in an earlier round; empty where
        the order is free.

    Returns
    -------
    tuple of (round, pot)
        For each bath: round from 1, index of its pot.

    Raises
    ------
    InputError
        A bath that no pot holds.

    Notes
    -----
    Largest bath first, each into the pot that is free soonest among those that hold it, the
    smallest of equals: as few rounds as possible, because a pot that holds a bath holds every
    smaller one too (common knowledge of scheduling). Baths that others wait for come before all
    the rest, the longest wait first (Hu 1961, "Parallel sequencing and assembly line problems").

    Examples
    --------
    >>> rounds_of_pots((8000.0, 3000.0, 2500.0), (9000.0, 3500.0))
    ((1, 0), (1, 1), (2, 1))
    >>> rounds_of_pots((2000.0, 4000.0), (9000.0, 9000.0), after=((), (0,)))
    ((1, 0), (2, 0))
    """
    waits = after or ((),) * len(volumes_ml)
    heights = _heights(waits)
    taken: list[set[int]] = [set() for _ in room_ml]
    given: dict[int, tuple[int, int]] = {}
    for i in sorted(range(len(volumes_ml)), key=lambda i: (-heights[i], -volumes_ml[i], i)):
        fit = [p for p, room in enumerate(room_ml) if volumes_ml[i] <= room * (1 + _DUST)]
        if not fit:
            got = f"{max(room_ml, default=0) / 1000:.1f} l"
            rule = f"must take {volumes_ml[i] / 1000:.1f} l"
            raise InputError("largest pot", rule, got=got, remedy="Name a larger pot.")
        least = 1 + max((given[j][0] for j in waits[i]), default=0)
        number, _, pot = min((_free_from(least, taken[p]), room_ml[p], p) for p in fit)
        taken[pot].add(number)
        given[i] = (number, pot)
    return tuple(given[i] for i in range(len(volumes_ml)))


def _free_from(least: int, taken: set[int]) -> int:
    """First round of a pot, from a given one on, in which it is free."""
    number = least
    while number in taken:
        number += 1
    return number


def _heights(after: tuple[tuple[int, ...], ...]) -> list[int]:
    """How many baths wait in turn for each one."""
    heights = [0] * len(after)
    for _ in after:  # a chain is at most as long as there are baths
        for i, earlier in enumerate(after):
            for j in earlier:
                heights[j] = max(heights[j], heights[i] + 1)
    return heights
