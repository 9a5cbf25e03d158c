"""What a dyer asks of a dye day: fibre, depths, skeins, pots."""

from __future__ import annotations

import math
from dataclasses import dataclass
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

__all__ = ["DyeAsked", "DyeClass", "Mixture", "recipe_depth", "suggested_depth"]

DyeClass = Literal["acid", "reactive", "natural"]
Mixture = tuple[tuple[str, float], ...]
"""Dyes and their per cents of the dry goods."""

_DEPTH_FROM_L = ((70.0, 0.5), (50.0, 1.0), (30.0, 2.0), (-math.inf, 4.0))
_DEEPEST_PERCENT = 10.0
_STRONGEST_VINEGAR = 30.0  # common practice: essence is sold at 20 to 25 %
_RATIOS = {
    "acid": ACID_LIQUOR_RATIO.value,
    "reactive": REACTIVE_LIQUOR_RATIO.value,
    "natural": NATURAL_LIQUOR_RATIO.value,
}


def recipe_depth(recipe: Mixture) -> float:
    """Depth of shade of several dyes together, in per cent of the dry goods.

    Examples
    --------
    >>> recipe_depth((("yellow", 1.0), ("blue", 0.5)))
    1.5
    """
    return math.fsum(percent for _, percent in recipe)


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
    recipes : tuple of (str, tuple of (str, float))
        Several dyes for one colour, each with its per cent of the dry goods; the depth of shade
        is their sum.
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
        Acetic acid in the vinegar, at most 30.
    reactive : {"cold", "hot"}
    alum_percent, tartar_percent : float
        Of the dry fibre.
    """

    fibre: str
    fibres: tuple[tuple[str, str], ...] = ()
    natural: bool = False
    depths: tuple[tuple[str, float], ...] = ()
    recipes: tuple[tuple[str, Mixture], ...] = ()
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
        if not self.vinegar_percent <= _STRONGEST_VINEGAR:
            rule = f"must be at most {_STRONGEST_VINEGAR:g} % acetic acid"
            remedy = "Stronger acid burns: have it diluted by who sells it."
            got = f"{self.vinegar_percent:g} %"
            raise InputError("vinegar", rule, got=got, remedy=remedy)
        if not self.pots_ml:
            raise InputError("pots", "must be at least one", got="none")
        if not 0 <= self.tartar_percent < math.inf:
            rule = "must be 0 % or more, and finite"
            raise InputError("cream of tartar", rule, got=f"{self.tartar_percent} %")
        self._check_depths()

    def _positive(self) -> list[tuple[str, float]]:
        """Names and values of what must be more than 0."""
        named = [
            ("skein", self.skein_g),
            ("fill", self.fill),
            ("stock solution", self.stock_percent),
            ("vinegar", self.vinegar_percent),
            ("alum", self.alum_percent),
        ]
        named += [("pot", pot) for pot in self.pots_ml]
        named += [(f"depth of {colour}", depth) for colour, depth in self.depths]
        named += [(f"skein of {colour}", mass) for colour, mass in self.skeins_g]
        named += [
            (f"{dye} for {colour}", percent)
            for colour, recipe in self.recipes
            for dye, percent in recipe
        ]
        if self.liquor_ratio is not None:
            named.append(("liquor ratio", self.liquor_ratio))
        return named

    def _check_depths(self) -> None:
        """Refuse depths that no dye powder has, and a colour with a depth and a recipe."""
        both = {colour for colour, _ in self.depths} & {colour for colour, _ in self.recipes}
        if both:
            rule = "must have a depth or a recipe, not both"
            raise InputError(f"colour {min(both)}", rule, remedy="The recipe gives the depth.")
        asked = [*self.depths, *((name, recipe_depth(parts)) for name, parts in self.recipes)]
        for colour, depth in asked:
            if not self.natural and not depth <= _DEEPEST_PERCENT:
                rule = f"must be at most {_DEEPEST_PERCENT:g} % of the dry goods"
                remedy = "A deep shade is 2 to 4 %. Dyestuff by weight is for natural dyes."
                thing = f"depth of {colour}"
                raise InputError(thing, rule, got=f"{depth:g} %", remedy=remedy)

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
        recipe = self.recipe_of(colour)
        if recipe:
            return recipe_depth(recipe)
        return NATURAL_DEPTH.value if self.natural else suggested_depth(hex_colour)

    def recipe_of(self, colour: str) -> Mixture:
        """Dyes of a colour and their per cents; empty where one dye is meant."""
        return dict(self.recipes).get(colour, ())

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
