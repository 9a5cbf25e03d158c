"""The arithmetic of a dye bath: dye, stock solution, water, vinegar. Goods are weighed dry."""

from __future__ import annotations

import math

from palette.dyeing.defaults import STOCK_PERCENT, VINEGAR_PERCENT
from palette.errors import InputError

__all__ = ["bath_ml", "dye_g", "owf_g", "stock_ml", "vinegar_acid_percent", "vinegar_ml"]


def _check(name: str, value: float, unit: str) -> None:
    if not 0 < value < math.inf:
        raise InputError(name, "must be more than 0, and finite", got=f"{value:g} {unit}".strip())


def owf_g(goods_g: float, percent: float) -> float:
    """Grams of anything that is given in per cent of the dry weight of the goods.

    Parameters
    ----------
    goods_g : float
        Dry weight.
    percent : float
        0 or more.

    Examples
    --------
    >>> owf_g(454, 25)
    113.5
    """
    _check("goods", goods_g, "g")
    if not 0 <= percent < math.inf:
        raise InputError("share", "must be 0 % or more, and finite", got=f"{percent} %")
    return goods_g * percent / 100


def dye_g(goods_g: float, depth_percent: float) -> float:
    """Grams of dye powder for a depth of shade.

    Depth of shade is grams of dye for 100 g of dry goods: a published dyers' leaflet,
    "Calculating dye quantities", has 125 g at 2 %.

    Raises
    ------
    InputError
        Where a quantity is not more than 0.

    Examples
    --------
    >>> dye_g(125, 2)
    2.5
    """
    _check("depth of shade", depth_percent, "%")
    return owf_g(goods_g, depth_percent)


def stock_ml(
    goods_g: float, depth_percent: float, *, stock_percent: float = STOCK_PERCENT.value
) -> float:
    """Millilitres of stock solution that hold the dye; a 1 % stock has 1 g in 100 ml.

    Examples
    --------
    >>> stock_ml(125, 2), stock_ml(125, 2, stock_percent=0.5)
    (250.0, 500.0)
    """
    _check("stock solution", stock_percent, "%")
    return dye_g(goods_g, depth_percent) / stock_percent * 100


def bath_ml(goods_g: float, liquor_ratio: float) -> float:
    """Millilitres of the whole bath, stock solution included.

    Parameters
    ----------
    goods_g : float
        Dry weight.
    liquor_ratio : float
        Millilitres for each gram: 40 for 40:1.

    Examples
    --------
    >>> bath_ml(10, 40)
    400
    """
    _check("goods", goods_g, "g")
    _check("liquor ratio", liquor_ratio, ": 1")
    return goods_g * liquor_ratio


def vinegar_ml(
    goods_g: float, acid_percent: float, *, vinegar_percent: float = VINEGAR_PERCENT.value
) -> float:
    """Millilitres of vinegar that bring so much acetic acid, in per cent of the dry goods.

    Examples
    --------
    >>> vinegar_ml(100, 2)
    40.0
    """
    _check("vinegar", vinegar_percent, "%")
    return owf_g(goods_g, acid_percent) / vinegar_percent * 100


def vinegar_acid_percent(
    goods_g: float, vinegar_ml: float, *, vinegar_percent: float = VINEGAR_PERCENT.value
) -> float:
    """Acetic acid in per cent of the dry goods that so much vinegar brings.

    Examples
    --------
    >>> vinegar_acid_percent(100, 40)
    2.0
    """
    _check("goods", goods_g, "g")
    _check("vinegar", vinegar_percent, "%")
    return vinegar_ml * vinegar_percent / goods_g
