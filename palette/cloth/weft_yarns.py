"""Weft that is not of one colour: variegated along its length, or marled of two plies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from palette.cloth.mixing_law import mix_lab
from palette.errors import InputError
from palette.stripes.plan import StripePlan

__all__ = ["MarledYarn", "PlainYarn", "VariegatedYarn", "WeftYarn", "pick_positions"]

Lab = tuple[float, float, float]
Array = NDArray[np.float64]

SHADES = 240
"""Steps into which one repeat of a variegated yarn is divided."""


class WeftYarn(Protocol):
    """A weft as the pictures need it."""

    def shades_lab(self) -> Array:
        """Give the colours that the yarn shows, (m, 3), CIELAB D65."""
        ...

    def shade_at(self, position_mm: Array) -> NDArray[np.intp]:
        """Give the number of its shade at these distances from its start."""
        ...

    def plies_lab(self) -> Array:
        """Give the colours of plies that show side by side up close, (p, 3); none: (0, 3)."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainYarn:
    """A yarn of one colour.

    Attributes
    ----------
    lab : tuple of 3 float
        CIELAB D65.
    """

    lab: Lab

    def shades_lab(self) -> Array:
        """Give the one colour, (1, 3)."""
        return np.array([self.lab])

    def shade_at(self, position_mm: Array) -> NDArray[np.intp]:
        """Give 0 everywhere."""
        return np.zeros(np.shape(position_mm), dtype=np.intp)

    def plies_lab(self) -> Array:
        """Give no plies, (0, 3)."""
        return np.zeros((0, 3))


@dataclass(frozen=True, slots=True, kw_only=True)
class VariegatedYarn:
    """A yarn dyed in several colours along its length, over and over.

    Attributes
    ----------
    colours_lab : tuple of (L, a, b)
        In the order in which they follow, at least two.
    lengths_mm : tuple of float
        Length of each; together they are the repeat.
    soft_mm : float
        Length over which one colour runs into the next.

    Examples
    --------
    >>> yarn = VariegatedYarn(
    ...     colours_lab=((40, 0, 0), (80, 0, 0)), lengths_mm=(300, 500), soft_mm=0
    ... )
    >>> yarn.shades_lab()[yarn.shade_at(np.array([0.0, 299.0, 301.0, 801.0])), 0].tolist()
    [40.0, 40.0, 80.0, 40.0]
    """

    colours_lab: tuple[Lab, ...]
    lengths_mm: tuple[float, ...]
    soft_mm: float = 20.0

    def __post_init__(self) -> None:
        """Refuse a repeat without lengths."""
        if not len(self.colours_lab) == len(self.lengths_mm) >= 2:
            rule = "must have a length for each of at least two colours"
            got = f"{len(self.colours_lab)} colours, {len(self.lengths_mm)} lengths"
            raise InputError("variegated yarn", rule, got=got)
        for length in self.lengths_mm:
            if not 0 < length < float("inf"):
                raise InputError("variegated yarn", "lengths must be more than 0", got=f"{length}")
        if not 0 <= self.soft_mm < float("inf"):
            got = f"{self.soft_mm}"
            raise InputError("variegated yarn", "soft length must be 0 or more", got=got)

    @property
    def repeat_mm(self) -> float:
        """Length after which the colours begin again."""
        return sum(self.lengths_mm)

    def shades_lab(self) -> Array:
        """Give the colours of one repeat in equal steps, (SHADES, 3)."""
        step = self.repeat_mm / SHADES
        middles = (np.arange(SHADES) + 0.5) * step
        numbers = np.searchsorted(np.cumsum(self.lengths_mm), middles, side="right")
        labs = np.array(self.colours_lab, dtype=np.float64)[
            np.minimum(numbers, len(self.lengths_mm) - 1)
        ]
        width = min(round(self.soft_mm / step), SHADES // 4)
        if width < 2:
            return labs
        kernel = np.ones(width) / width
        ring = np.concatenate([labs[-width:], labs, labs[:width]])
        soft = [np.convolve(channel, kernel, mode="same")[width:-width] for channel in ring.T]
        return np.stack(soft, axis=1)

    def shade_at(self, position_mm: Array) -> NDArray[np.intp]:
        """Give the step of the repeat at these distances from the start of the yarn."""
        turns = np.mod(np.asarray(position_mm, dtype=np.float64) / self.repeat_mm, 1.0)
        return np.minimum((turns * SHADES).astype(np.intp), SHADES - 1)

    def plies_lab(self) -> Array:
        """Give no plies, (0, 3)."""
        return np.zeros((0, 3))


@dataclass(frozen=True, slots=True, kw_only=True)
class MarledYarn:
    """Two plies of different colours twisted together.

    Attributes
    ----------
    first_lab, second_lab : tuple of 3 float
        CIELAB D65 of the plies.
    """

    first_lab: Lab
    second_lab: Lab

    def shades_lab(self) -> Array:
        """Give the colour into which the plies run together, (1, 3): the mixing law, half each."""
        return mix_lab(np.array([self.first_lab]), np.array([self.second_lab]))

    def shade_at(self, position_mm: Array) -> NDArray[np.intp]:
        """Give 0 everywhere."""
        return np.zeros(np.shape(position_mm), dtype=np.intp)

    def plies_lab(self) -> Array:
        """Give both plies, (2, 3)."""
        return np.array([self.first_lab, self.second_lab])


def pick_positions(cloth: StripePlan) -> dict[str, NDArray[np.intp]]:
    """Which picks of the cloth each weft makes, counted from 0, in weaving order.

    A weft runs on from its last pick wherever it is used again, so the n-th of these begins
    n pick lengths along its yarn; its shuttle goes the other way each time.
    """
    numbers: dict[str, list[NDArray[np.intp]]] = {}
    for stripe in cloth.stripes:
        run = np.arange(stripe.first_pick - 1, stripe.last_pick, dtype=np.intp)
        numbers.setdefault(stripe.colour, []).append(run)
    return {colour: np.concatenate(runs) for colour, runs in numbers.items()}
