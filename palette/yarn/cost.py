"""What the yarn costs, from a price by weight; the currency is whatever was typed."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from palette.errors import InputError
from palette.measures import Units, parse_mass

__all__ = ["Price", "parse_price"]

_PRICE = re.compile(r"\s*(?P<amount>\d+(?:[.,]\d+)?)\s*(?:/|per)\s*(?P<mass>.+?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """A price by weight.

    Attributes
    ----------
    amount : float
        For `per_g` grams.
    per_g : float
    units : Units
        The system it was typed in.
    """

    amount: float
    per_g: float
    units: Units = Units.METRIC

    def __post_init__(self) -> None:
        """Refuse quantities out of range."""
        if not 0 <= self.amount < math.inf:
            raise InputError("price", "must be 0 or more, and finite", got=f"{self.amount}")
        if not 0 < self.per_g < math.inf:
            got = f"{self.per_g} g"
            raise InputError("price", "must be for a mass of more than 0", got=got)

    def of(self, mass_g: float) -> float:
        """Cost of this many grams.

        Examples
        --------
        >>> parse_price("18.50 per 100g").of(250)
        46.25
        """
        return self.amount * mass_g / self.per_g


def parse_price(text: str, *, thing: str = "price") -> Price:
    """Read a price by weight.

    Parameters
    ----------
    text : str
        ``18.50 per 100g``, ``24/kg``, ``9,80 / lb``: a number without a currency.
    thing : str
        The option's name, for messages.

    Returns
    -------
    Price

    Raises
    ------
    InputError
        Where it cannot be read.

    Examples
    --------
    >>> parse_price("24/kg").per_g
    1000.0
    """
    match = _PRICE.fullmatch(text)
    if match is None:
        example = "Write it like 18.50 per 100g, 24/kg or 9.80/lb."
        raise InputError(thing, "must be a number per mass", got=repr(text), remedy=example)
    weight = match["mass"]
    mass = parse_mass(weight if weight[0].isdigit() else f"1 {weight}", thing=thing)
    return Price(amount=float(match["amount"].replace(",", ".")), per_g=mass.g, units=mass.units)
