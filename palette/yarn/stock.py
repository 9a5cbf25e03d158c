"""The yarn on the shelf: what a plan uses, what it leaves, and what is short."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from palette.errors import InputError
from palette.yarn.amounts import YarnAmount

__all__ = ["StockLine", "enough", "needed_by_colour", "stock_lines"]

_NOISE_G = 1e-6  # grams: rounding of the machine


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """One colour on the shelf.

    Attributes
    ----------
    colour : str
    held_g : float
        On the shelf; infinite for a yarn that is bought or dyed for the plan.
    needed_g : float
        Weft and warp together, allowance included.
    """

    colour: str
    held_g: float
    needed_g: float

    @property
    def used_g(self) -> float:
        """Grams that come from the shelf."""
        return min(self.held_g, self.needed_g)

    @property
    def left_g(self) -> float:
        """Grams that stay on the shelf."""
        return max(0.0, self.held_g - self.needed_g)

    @property
    def short_g(self) -> float:
        """Grams that are lacking."""
        return max(0.0, self.needed_g - self.held_g)


def needed_by_colour(amounts: Sequence[YarnAmount]) -> dict[str, float]:
    """Sum the grams of each colour, weft and warp together."""
    needed: dict[str, float] = {}
    for amount in amounts:
        needed[amount.colour] = needed.get(amount.colour, 0.0) + amount.mass_g
    return needed


def stock_lines(
    amounts: Sequence[YarnAmount], held_g: Mapping[str, float]
) -> tuple[StockLine, ...]:
    """Set what a plan needs beside what is on the shelf.

    Parameters
    ----------
    amounts : sequence of YarnAmount
    held_g : mapping of str to float
        Grams on the shelf by colour, cones without their cores. A colour that is not named has
        none; `math.inf` stands for a yarn that is bought or dyed for the plan.

    Returns
    -------
    tuple of StockLine
        In the order of the amounts, a colour of both weft and warp once.
    """
    for colour, grams in held_g.items():
        if not grams >= 0:
            raise InputError(f"shelf {colour}", "must be 0 g or more", got=f"{grams} g")
    return tuple(
        StockLine(colour=colour, held_g=held_g.get(colour, 0.0), needed_g=needed)
        for colour, needed in needed_by_colour(amounts).items()
    )


def enough(amounts: Sequence[YarnAmount], held_g: Mapping[str, float]) -> bool:
    """Tell whether the shelf holds all that these amounts need."""
    return all(line.short_g <= _NOISE_G for line in stock_lines(amounts, held_g))
