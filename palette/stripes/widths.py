"""Stripes whose widths follow a series: graded (n, 2n, 3n ...) and Fibonacci."""

from __future__ import annotations

from collections.abc import Sequence

from palette.stripes.apportion import apportion
from palette.stripes.lines import line_of
from palette.stripes.material import Material, Run, join_runs

__all__ = ["FIBONACCI", "GRADED", "fibonacci", "graded"]

GRADED = (1, 2, 3, 4, 5)
FIBONACCI = (1, 1, 2, 3, 5, 8)


def _widths(steps: int, series: Sequence[int], narrowest: int) -> tuple[int, ...]:
    """Split a colour's steps in the ratio of a series, as far along it as they go."""
    count = len(series)
    while count > 1 and steps * series[0] < narrowest * sum(series[:count]):
        count -= 1
    parts = apportion(series[:count], steps, least=min(narrowest, steps))
    return tuple(sorted(parts))


def _bands(material: Material, series: Sequence[int], *, answering: bool) -> tuple[Run, ...]:
    """Lay the colours' series side by side: band by band, every colour in its width there.

    A colour with too few steps for the whole series has stripes in some bands only. There
    are as many bands as the second most plentiful colour fills, so no band holds one alone.
    """
    steps = material.steps()
    lengths = sorted(len(_widths(s, series, material.narrowest)) for s in steps)
    bands = lengths[-2] if len(lengths) > 1 else 1
    laid: list[list[Run]] = [[] for _ in range(bands)]
    for place, colour in enumerate(line_of(material)):
        widths = _widths(steps[colour], series[:bands], material.narrowest)
        shrinking = answering and place % 2 == 1
        for number, width in enumerate(widths, start=1):
            band = -(-number * bands // len(widths)) - 1
            laid[bands - 1 - band if shrinking else band].append(Run(colour, width))
    return join_runs(run for band in laid for run in band)


def graded(material: Material) -> tuple[Run, ...]:
    """Widen every colour's stripes evenly from one end to the other: n, 2n, 3n, 4n, 5n.

    Each colour keeps its steps, so n is each colour's own; a width is within one step of its
    place in the series.
    """
    return _bands(material, GRADED, answering=False)


def fibonacci(material: Material) -> tuple[Run, ...]:
    """Widen by the Fibonacci numbers 1 1 2 3 5 8; every other colour runs the other way.

    Each colour keeps its steps; a width is within one step of its place in the series.
    """
    return _bands(material, FIBONACCI, answering=True)
