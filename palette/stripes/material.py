"""What a sequence arranges: colours with their whole steps, and the limits on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from palette.stripes.apportion import apportion

__all__ = ["Material", "Run", "join_runs", "totals"]


class Run(NamedTuple):
    """A stripe while it is being arranged: which colour, and how many steps of it."""

    colour: int
    steps: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """Colours to arrange; all tuples have one entry per colour, in palette order.

    Attributes
    ----------
    names : tuple of str
    labs : tuple of (float, float, float)
        CIELAB D65.
    places : tuple of (float, float)
        Mean position in the photograph, (across, down), each in [0, 1].
    parts : tuple of float
        Steps that each colour should come to, limits kept; they sum to `total`.
    least, most : tuple of int
        Fewest and most steps of each colour in the whole.
    narrowest : int
        Smallest stripe, in steps, at least 1.
    direction : str
        How the photograph is read by the order "photo".
    inner : str
        The line in which a composed order (mirrored, repeated ...) sets its colours.
    ground : int
        Colour on which others are scattered.
    swap : tuple of (int, int), optional
        Colours that change places in a counterchange; None: chosen.
    seed : int
        For orders left to chance.
    """

    names: tuple[str, ...]
    labs: tuple[tuple[float, float, float], ...]
    places: tuple[tuple[float, float], ...]
    parts: tuple[float, ...]
    least: tuple[int, ...]
    most: tuple[int, ...]
    total: int
    narrowest: int = 1
    direction: str = "top-bottom"
    inner: str = "photo"
    ground: int = 0
    swap: tuple[int, int] | None = None
    seed: int = 0

    @property
    def count(self) -> int:
        """Count of colours."""
        return len(self.names)

    def steps(self, *, least: Sequence[int] | None = None) -> tuple[int, ...]:
        """Whole steps of each colour, with other leasts where an order needs more."""
        floors = self.least if least is None else tuple(map(max, self.least, least))
        return apportion(self.parts, self.total, least=floors, most=self.most)

    def scaled(self, total: int, copies: int) -> Material:
        """Return the same colours over fewer steps, of which so many copies are woven."""
        factor = total / self.total
        return replace(
            self,
            total=total,
            parts=tuple(part * factor for part in self.parts),
            most=tuple(most // copies for most in self.most),
        )


def join_runs(runs: Iterable[Run]) -> tuple[Run, ...]:
    """Make one run of neighbours in the same colour, and leave out empty ones.

    Examples
    --------
    >>> join_runs((Run(0, 2), Run(0, 1), Run(1, 0), Run(2, 4)))
    (Run(colour=0, steps=3), Run(colour=2, steps=4))
    """
    joined: list[Run] = []
    for run in runs:
        if run.steps == 0:
            continue
        if joined and joined[-1].colour == run.colour:
            joined[-1] = Run(run.colour, joined[-1].steps + run.steps)
        else:
            joined.append(run)
    return tuple(joined)


def totals(runs: Iterable[Run], count: int) -> tuple[int, ...]:
    """Sum the steps of each colour over all runs."""
    sums = [0] * count
    for run in runs:
        sums[run.colour] += run.steps
    return tuple(sums)
