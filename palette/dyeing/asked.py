"""What a dyer asks of a dye day: fibre, depths, skeins, pots."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Literal

from palette.dyeing.assistants import Acid, ReactiveKind
from palette.dyeing.defaults import (
    ACID_LIQUOR_RATIO,
    ALUM_PERCENT,
    FILL,
    MARGIN,
    NATURAL_DEPTH,
    NATURAL_LIQUOR_RATIO,
    POT_ML,
    REACTIVE_LIQUOR_RATIO,
    SKEIN_G,
    STOCK_PERCENT,
    TARTAR_PERCENT,
    VINEGAR_PERCENT,
)
from palette.errors import InputError
from palette.perception.spaces import hex_to_lab

__all__ = ["DyeAsked", "DyeClass", "suggested_depth"]

DyeClass = Literal["acid", "reactive", "natural"]

_DEPTH_FROM_L = ((70.0, 0.5), (50.0, 1.0), (30.0, 2.0), (-math.inf, 4.0))
_DEEPEST_PERCENT = 10.0
_RATIOS = {
    "acid": ACID_LIQUOR_RATIO.value,
    "reactive": REACTIVE_LIQUOR_RATIO.value,
    "natural": NATURAL_LIQUOR_RATIO.value,
}


def suggested_depth(hex_colour: str) -> float:
    """Depth of shade to start from, by the lightness of the colour; a sample decides.

    0.5, 1, 2 and 4 % are a dyers' leaflet's light, medium and deep; which lightness gets which
    is common practice: CIELAB L from 70, from 50, from 30, and below.

    Examples
    --------
    >>> suggested_depth("#e8dcb0"), suggested_depth("#5d733a"), suggested_depth("#20242c")
    (0.5, 2.0, 4.0)
    """
    lightness = hex_to_lab(hex_colour)[0]
    return next(depth for least, depth in _DEPTH_FROM_L if lightness >= least)


@dataclass(frozen=True, slots=True, kw_only=True)
class DyeAsked:
    """Everything a dyer may set.

    Attributes
    ----------
    fibre : str
        What the yarn is: "wool", "cotton", "60% wool 40% bamboo".
    fibres : tuple of (str, str)
        Another fibre for one colour, or for all of the "warp" or "weft".
    natural : bool
        Natural dyes over an alum mordant; False: acid dyes on protein, reactive on cellulose.
    depths : tuple of (str, float)
        Depth of shade of a colour, % of the dry goods; else by its lightness, or 100 % of
        dyestuff with natural dyes.
    undyed : tuple of str
        Colours that are not dyed (natural fleece, a bought warp); "warp" or "weft" for all of it.
    skein_g : float
        Dry mass of a skein.
    skeins_g : tuple of (str, float)
        Another skein for one colour, or for the "warp" or "weft".
    margin : float
        Share dyed beyond the plan's amount, because a lot cannot be matched.
    liquor_ratio : float or None
        Millilitres of bath per gram; None: by the class of dye.
    pots_ml : tuple of float
        What the pots hold, brimful.
    fill : float
        Share to which they are filled.
    stock_percent : float
        Grams of dye in 100 ml of stock solution.
    acid : {"citric", "vinegar"}
    vinegar_percent : float
        Acetic acid in the vinegar.
    reactive : {"cold", "hot"}
    alum_percent, tartar_percent : float
        Of the dry fibre.
    """

    fibre: str
    fibres: tuple[tuple[str, str], ...] = ()
    natural: bool = False
    depths: tuple[tuple[str, float], ...] = ()
    undyed: tuple[str, ...] = ()
    skein_g: float = SKEIN_G.value
    skeins_g: tuple[tuple[str, float], ...] = ()
    margin: float = MARGIN.value
    liquor_ratio: float | None = None
    pots_ml: tuple[float, ...] = (POT_ML.value,)
    fill: float = FILL.value
    stock_percent: float = STOCK_PERCENT.value
    acid: Acid = "citric"
    vinegar_percent: float = VINEGAR_PERCENT.value
    reactive: ReactiveKind = "cold"
    alum_percent: float = ALUM_PERCENT.value
    tartar_percent: float = TARTAR_PERCENT.value

    def __post_init__(self) -> None:
        """Refuse quantities out of range; NaN fails too."""
        for name, value in self._positive():
            if not 0 < value < math.inf:
                raise InputError(name, "must be more than 0, and finite", got=f"{value}")
        if not 0 <= self.margin < math.inf:
            raise InputError("margin", "must be 0 or more, and finite", got=f"{self.margin}")
        if not self.fill <= 1:
            raise InputError("fill", "must be at most 100 %", got=f"{self.fill * 100:g} %")
        if not self.pots_ml:
            raise InputError("pots", "must be at least one", got="none")
        for colour, depth in self.depths:
            if not self.natural and not depth <= _DEEPEST_PERCENT:
                rule = f"must be at most {_DEEPEST_PERCENT:g} % of the dry goods"
                remedy = "A deep shade is 2 to 4 %. Dyestuff by weight is for natural dyes."
                thing = f"depth of {colour}"
                raise InputError(thing, rule, got=f"{depth:g} %", remedy=remedy)

    def _positive(self) -> list[tuple[str, float]]:
        """Names and values of what must be more than 0."""
        plain = ("skein_g", "fill", "stock_percent", "vinegar_percent", "alum_percent")
        named = [
            (field.name.replace("_", " "), float(getattr(self, field.name)))
            for field in fields(self)
            if field.name in (*plain, "tartar_percent")
        ]
        named += [("pot", pot) for pot in self.pots_ml]
        named += [(f"depth of {colour}", depth) for colour, depth in self.depths]
        named += [(f"skein of {colour}", mass) for colour, mass in self.skeins_g]
        if self.liquor_ratio is not None:
            named.append(("liquor ratio", self.liquor_ratio))
        return named

    def fibre_of(self, colour: str, use: str) -> str:
        """Fibre of a yarn: by its colour, else by its use, else the fibre of all."""
        given = dict(self.fibres)
        return given.get(colour) or given.get(use) or self.fibre

    def skein_of(self, colour: str, use: str) -> float:
        """Dry grams of a skein: by colour, else by use, else the skein of all."""
        given = dict(self.skeins_g)
        return given.get(colour) or given.get(use) or self.skein_g

    def depth_of(self, colour: str, hex_colour: str) -> float:
        """Depth of shade of a colour, as asked or as suggested."""
        asked = dict(self.depths).get(colour)
        if asked is not None:
            return asked
        return NATURAL_DEPTH.value if self.natural else suggested_depth(hex_colour)

    def ratio_of(self, dye_class: DyeClass) -> float:
        """Millilitres of bath per gram of goods."""
        return self.liquor_ratio or _RATIOS[dye_class]

    @property
    def largest_room_ml(self) -> float:
        """What the largest pot may be filled to."""
        return max(self.pots_ml) * self.fill

    def room_ml(self) -> tuple[float, ...]:
        """Give what each pot may be filled to."""
        return tuple(pot * self.fill for pot in self.pots_ml)
