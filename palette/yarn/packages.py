"""Whole skeins and cones: rounding up, and the tare that is weighed with them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from palette.errors import InputError, LeafweftError
from palette.measures import Units, parse_length, parse_mass
from palette.yarn.count import YarnCount

__all__ = ["Package", "Packages", "net_mass_g", "parse_package", "whole_packages"]

_NOISE = 9  # decimals


@dataclass(frozen=True, slots=True, kw_only=True)
class Package:
    """A skein, ball or cone as it is sold or wound; either its mass or its length is known.

    Attributes
    ----------
    mass_g : float or None
        Yarn in it, without the core.
    length_m : float or None
    tare_g : float
        Mass of the core that it is weighed with.
    units : Units
        The system it was typed in.
    """

    mass_g: float | None = None
    length_m: float | None = None
    tare_g: float = 0.0
    units: Units = Units.METRIC

    def __post_init__(self) -> None:
        """Refuse a package of no size, or of two."""
        sizes = [size for size in (self.mass_g, self.length_m) if size is not None]
        if len(sizes) != 1:
            raise InputError("skein", "must have a mass or a length", got=f"{len(sizes)} sizes")
        if not 0 < sizes[0] < math.inf:
            raise InputError("skein", "must be more than 0, and finite", got=f"{sizes[0]}")
        if not 0 <= self.tare_g < math.inf:
            raise InputError("tare", "must be 0 or more, and finite", got=f"{self.tare_g} g")

    def yarn_g(self, count: YarnCount) -> float:
        """Grams of yarn in one package of this count."""
        if self.mass_g is not None:
            return self.mass_g
        return count.mass_g(self.length_m or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Packages:
    """Whole packages of one yarn.

    Attributes
    ----------
    number : int
    mass_g, length_m : float
        Yarn in all of them, without the cores.
    weighed_g : float
        All of them on the scale, cores included.
    spare_g : float
        Yarn beyond what is needed.
    """

    number: int
    mass_g: float
    length_m: float
    weighed_g: float
    spare_g: float


def net_mass_g(weighed_g: float, tare_g: float) -> float:
    """Grams of yarn on a cone: what the scale says less the core.

    Raises
    ------
    InputError
        Where the core is heavier than the whole.

    Examples
    --------
    >>> net_mass_g(540, 42)
    498
    """
    if not 0 <= tare_g <= weighed_g < math.inf:
        rule = "must be from 0 to what the cone weighs"
        raise InputError("tare", rule, got=f"{tare_g} g of {weighed_g} g")
    return weighed_g - tare_g


def whole_packages(mass_g: float, count: YarnCount, package: Package) -> Packages:
    """Round a mass up to whole skeins or cones.

    Parameters
    ----------
    mass_g : float
        Needed, allowance included.
    count : YarnCount
    package : Package

    Returns
    -------
    Packages

    Examples
    --------
    >>> from palette.yarn.count import parse_count
    >>> whole_packages(230, parse_count("NeC 8/2"), Package(mass_g=100)).number
    3
    """
    if not 0 <= mass_g < math.inf:
        raise InputError("yarn needed", "must be 0 or more, and finite", got=f"{mass_g} g")
    each = package.yarn_g(count)
    number = math.ceil(round(mass_g / each, _NOISE))
    total = number * each
    return Packages(
        number=number,
        mass_g=total,
        length_m=count.length_m(total),
        weighed_g=total + number * package.tare_g,
        spare_g=max(0.0, total - mass_g),
    )


def parse_package(text: str, *, thing: str = "skein") -> Package:
    """Read the size of a skein or cone.

    Parameters
    ----------
    text : str
        ``100g``, ``250m``, ``8 oz``, ``250 yd``; a cone weighed with its core:
        ``540g, tare 40g`` has 500 g of yarn.
    thing : str
        The option's name, for messages.

    Returns
    -------
    Package

    Raises
    ------
    InputError
        Where it is neither a mass nor a length, or the core is heavier than the whole.

    Examples
    --------
    >>> parse_package("540g, tare 40g").mass_g
    500.0
    """
    size, _, core = re.sub(r"\s*,?\s*\btare\b", "|", text.strip(), count=1).partition("|")
    tare = parse_mass(core, thing=f"{thing} tare", zero=True).g if core.strip() else 0.0
    try:
        mass = parse_mass(size, thing=thing)
    except LeafweftError:
        mass = None
    if mass is not None:
        if not tare < mass.g:
            raise InputError(f"{thing} tare", "must be less than the whole", got=repr(text))
        return Package(mass_g=mass.g - tare, tare_g=tare, units=mass.units)
    try:
        length = parse_length(size, thing=thing)
    except LeafweftError:
        example = "Write it like 100g, 250m, 8 oz, 250 yd, or 540g, tare 40g."
        rule = "must be a mass or a length"
        raise InputError(thing, rule, got=repr(text), remedy=example) from None
    return Package(length_m=length.mm / 1000, tare_g=tare, units=length.units)
