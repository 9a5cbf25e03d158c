"""What goes into a dye bath beside the dye: acid, salt, alkali, mordant."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from palette.dyeing.baths import owf_g, vinegar_ml
from palette.dyeing.defaults import ALUM_PERCENT, TARTAR_PERCENT, VINEGAR_PERCENT
from palette.errors import InputError

__all__ = [
    "Acid",
    "Assistant",
    "Band",
    "ReactiveKind",
    "acid_assistants",
    "alum_mordant",
    "band_of",
    "reactive_assistants",
]

Band = Literal["light", "medium", "deep"]
Acid = Literal["citric", "vinegar"]
ReactiveKind = Literal["cold", "hot"]

_LIGHT_TO, _MEDIUM_TO = math.sqrt(0.5 * 1.0), math.sqrt(1.0 * 2.0)
_LEAFLET = "an Australian dyer's leaflet, acid dyes on wool"
_NOTES = "a dyer's notes: 10 ml of 2 % acetic acid for 10 g of wool, and half its weight of salt"
# Percent of the goods: (citric acid, Glauber's salt).
_CITRIC: dict[Band, tuple[float, float]] = {
    "light": (1.0, 2.0),
    "medium": (1.5, 5.0),
    "deep": (2.0, 10.0),
}
_VINEGAR_ACID_PERCENT, _VINEGAR_SALT_PERCENT = 2.0, 50.0
# Depth in per cent, then g per litre of Glauber's salt and of soda ash.
_HOT = ((0.5, 20.0, 5.0), (1.5, 50.0, 15.0), (4.0, 70.0, 20.0))
_HOT_SOURCE = "Journal of Applied Mathematics 2016, 9739380, table 2 (70 °C, 10:1)"
# Salt for each weight of fibre, from a supplier's chart in pounds for each pound; soda g per litre.
_COLD_SALT_PERCENT: dict[Band, float] = {"light": 100.0, "medium": 150.0, "deep": 200.0}
_COLD_SODA_G_PER_L: dict[Band, float] = {"light": 10.0, "medium": 15.0, "deep": 20.0}
_STICKY_PERCENT = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Assistant:
    """One thing that goes into the bath.

    Attributes
    ----------
    name : str
        What it is, never whose.
    amount : float
        How much, in `unit`.
    unit : {"g", "ml"}
    rule : str
        What the amount is reckoned from: "2 % of the dry fibre".
    source : str
        Where the rule is from; "common practice" has no published source.
    strength : str
        How strong it is taken, where it is sold in several strengths: "5 %"; else empty.
    """

    name: str
    amount: float
    unit: Literal["g", "ml"]
    rule: str
    source: str
    strength: str = ""

    def __post_init__(self) -> None:
        """Refuse an amount that is negative or no number."""
        if not 0 <= self.amount < math.inf:
            raise InputError(self.name, "amount must be 0 or more", got=f"{self.amount}")


def band_of(depth_percent: float) -> Band:
    """Band of a depth of shade: the nearest of 0.5 % light, 1 % medium, 2 % and more deep.

    The three depths are a dyers' leaflet's; between them the nearest by ratio counts.

    Examples
    --------
    >>> band_of(0.5), band_of(1.0), band_of(3.0)
    ('light', 'medium', 'deep')
    """
    if not depth_percent > 0:
        raise InputError("depth of shade", "must be more than 0 %", got=f"{depth_percent} %")
    if depth_percent < _LIGHT_TO:
        return "light"
    return "medium" if depth_percent < _MEDIUM_TO else "deep"


def acid_assistants(
    goods_g: float,
    depth_percent: float,
    *,
    acid: Acid = "citric",
    vinegar_percent: float = VINEGAR_PERCENT.value,
) -> tuple[Assistant, ...]:
    """Acid and salt for acid dyes on wool, silk, alpaca or nylon.

    Parameters
    ----------
    goods_g : float
        Dry weight of the fibre that takes the dye.
    depth_percent : float
        Depth of shade.
    acid : {"citric", "vinegar"}
        Citric acid crystals with Glauber's salt, or vinegar at 2 % acetic acid of the dry goods
        with salt.
    vinegar_percent : float
        Acetic acid in the vinegar.

    Returns
    -------
    tuple of Assistant

    Examples
    --------
    >>> [(each.name, each.amount) for each in acid_assistants(200, 1)]
    [('citric acid', 3.0), ("Glauber's salt", 10.0)]
    """
    citric, salt = _CITRIC[band_of(depth_percent)]
    if acid == "citric":
        return (
            _by_weight("citric acid", goods_g, citric, _LEAFLET),
            _by_weight("Glauber's salt", goods_g, salt, _LEAFLET),
        )
    amount = vinegar_ml(goods_g, _VINEGAR_ACID_PERCENT, vinegar_percent=vinegar_percent)
    rule = f"{_VINEGAR_ACID_PERCENT:g} % acetic acid of the dry fibre, vinegar of"
    return (
        Assistant(
            name="vinegar",
            amount=amount,
            unit="ml",
            rule=f"{rule} {vinegar_percent:g} %",
            source=_NOTES,
            strength=f"{vinegar_percent:g} %",
        ),
        _by_weight("salt", goods_g, _VINEGAR_SALT_PERCENT, _NOTES),
    )


def reactive_assistants(
    goods_g: float, depth_percent: float, bath_ml: float, *, kind: ReactiveKind = "cold"
) -> tuple[Assistant, ...]:
    """Salt and soda ash for fibre-reactive dyes on cotton, linen or bamboo.

    Parameters
    ----------
    goods_g : float
        Dry weight of all the yarn in the bath.
    depth_percent : float
        Depth of shade.
    bath_ml : float
        Whole bath: soda ash goes by the litre.
    kind : {"cold", "hot"}
        Cold-water dyes (24 to 35 °C) or hot ones (70 °C); between the depths of its table the
        hot recipe is interpolated, beyond them it stays.

    Returns
    -------
    tuple of Assistant

    Examples
    --------
    >>> [(each.name, each.amount) for each in reactive_assistants(100, 0.5, 1000, kind="hot")]
    [("Glauber's salt", 20.0), ('soda ash', 5.0)]
    """
    litres = bath_ml / 1000
    band = band_of(depth_percent)
    if kind == "hot":
        depths, salts, sodas = zip(*_HOT, strict=True)
        salt = float(np.interp(depth_percent, depths, salts))
        soda = float(np.interp(depth_percent, depths, sodas))
        return (
            _by_litre("Glauber's salt", litres, salt, _HOT_SOURCE),
            _by_litre("soda ash", litres, soda, _HOT_SOURCE),
        )
    chart = "a supplier's chart: 1, 1.5 and 2 lb for each lb of fibre"
    soda = _COLD_SODA_G_PER_L[band]
    return (
        _by_weight("salt", goods_g, _COLD_SALT_PERCENT[band], chart),
        _by_litre("soda ash", litres, soda, "common practice, from memory"),
    )


def alum_mordant(
    goods_g: float,
    *,
    alum_percent: float = ALUM_PERCENT.value,
    tartar_percent: float = TARTAR_PERCENT.value,
    cellulose: bool = False,
) -> tuple[Assistant, ...]:
    """Alum and cream of tartar for natural dyes on protein; alum and soda on cellulose.

    Parameters
    ----------
    goods_g : float
        Dry weight.
    alum_percent, tartar_percent : float
        Of the dry goods; not used for cellulose, which has 25 % alum and 3.1 % soda.
    cellulose : bool
        Cotton, linen and their like.

    Returns
    -------
    tuple of Assistant

    References
    ----------
    Mairet, *Vegetable Dyes*: 4 oz of alum and 1 oz of cream of tartar for 1 lb of wool.

    Examples
    --------
    >>> [(each.name, each.amount) for each in alum_mordant(100)]
    [('alum', 15.0), ('cream of tartar', 5.0)]
    """
    if cellulose:
        books = "dye books: 25 % alum and 3.1 % soda on cotton"
        return (
            _by_weight("alum", goods_g, 25.0, books),
            _by_weight("washing soda", goods_g, 3.1, books),
        )
    if not alum_percent <= _STICKY_PERCENT:
        remedy = "Too much alum makes wool sticky (Mairet)."
        rule = f"must be at most {_STICKY_PERCENT:g} % of the dry fibre"
        raise InputError("alum", rule, got=f"{alum_percent:g} %", remedy=remedy)
    books = "dye books: 10 to 20 % alum and 5 % cream of tartar; Mairet 25 % and 6.25 %"
    return (
        _by_weight("alum", goods_g, alum_percent, books),
        _by_weight("cream of tartar", goods_g, tartar_percent, books),
    )


def _by_weight(name: str, goods_g: float, percent: float, source: str) -> Assistant:
    amount = owf_g(goods_g, percent)
    rule = f"{percent:g} % of the dry fibre"
    return Assistant(name=name, amount=amount, unit="g", rule=rule, source=source)


def _by_litre(name: str, litres: float, g_per_litre: float, source: str) -> Assistant:
    rule = f"{g_per_litre:.3g} g in each litre of bath"
    return Assistant(name=name, amount=litres * g_per_litre, unit="g", rule=rule, source=source)
