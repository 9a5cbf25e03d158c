"""Handspun: from the yarn that is needed back to the fleece, and the bobbins on the way."""

from __future__ import annotations

import difflib
import math
from dataclasses import dataclass, replace

from palette.errors import InputError
from palette.loom.defaults import COMMON_PRACTICE, Range
from palette.yarn.count import YarnCount

__all__ = [
    "CARDING_LOSS",
    "COMBING_LOSS",
    "FLEECE_TO_YARN",
    "SPINNING_LOSS",
    "WOOL_BREEDS",
    "YIELDS",
    "Bobbins",
    "FleeceNeed",
    "bobbins_to_fill",
    "fleece_needed",
    "yarn_from_fleece",
    "yield_of",
]

_LEEDS = "Encyclopaedia Britannica, 14th ed., Wool: Leeds analyses by Barker and Wilson"
_BREEDER = "an alpaca breeder's page, a trade claim"


def _one(share: float, label: str) -> Range:
    return Range(low=share, high=share, label=label)


YIELDS: dict[str, Range] = {
    "merino": _one(0.45, _LEEDS),
    "corriedale": _one(0.54, _LEEDS),
    "southdown": _one(0.50, _LEEDS),
    "burry": _one(0.62, _LEEDS),
    "lincoln, washed": _one(0.733, _LEEDS),
    "australian clip": Range(low=0.45, high=0.60, label="a farm's page quoting a testing house"),
    "wool": Range(low=0.43, high=0.76, label=_BREEDER),
    "alpaca": Range(low=0.87, high=0.95, label=_BREEDER),
    "mohair": Range(low=0.75, high=0.85, label=COMMON_PRACTICE),
}
"""Clean fibre as a share of the raw fleece, by kind."""

WOOL_BREEDS = (
    *("blackface", "bluefaced leicester", "border leicester", "cheviot", "clun forest"),
    *("coopworth", "cotswold", "dorset", "finn", "gotland", "hampshire", "herdwick"),
    *("icelandic", "jacob", "kerry hill", "leicester", "lincoln", "masham", "norwegian"),
    *("polwarth", "rambouillet", "romney", "ryeland", "shetland", "suffolk", "swaledale"),
    *("targhee", "teeswater", "texel", "wensleydale", "zwartbles"),
)
"""Sheep whose fleece has no published figure here: they take the range of wool."""

FLEECE_TO_YARN: dict[str, Range] = {
    "alpaca": Range(low=0.75, high=0.80, label="a fibre mill, clean-looking fleece to yarn"),
}
"""Finished yarn as a share of the raw fleece, all stages together, where a mill prints it."""

CARDING_LOSS = Range(low=0.05, high=0.10, label=COMMON_PRACTICE)
"""Share of the clean fibre that stays in the cards."""

COMBING_LOSS = Range(low=0.10, high=0.30, label="common practice: the short fibre, by hand")
"""Share of the clean fibre that is combed out."""

SPINNING_LOSS = Range(low=0.02, high=0.05, label=COMMON_PRACTICE)
"""Share of the prepared fibre lost in spinning, plying and washing the skeins."""


def yield_of(kind: str) -> Range:
    """Clean fibre as a share of the raw fleece of a kind or a breed.

    Parameters
    ----------
    kind : str
        A key of `YIELDS`, or a breed of `WOOL_BREEDS`, which takes the range of wool.

    Raises
    ------
    InputError
        A kind that is not known.

    Examples
    --------
    >>> yield_of("Merino").low, yield_of("romney").low
    (0.45, 0.43)
    >>> yield_of("romney").label
    "no figure for romney, so that of any wool: an alpaca breeder's page, a trade claim"
    """
    name = " ".join(kind.lower().split())
    if name in YIELDS:
        return YIELDS[name]
    if name in WOOL_BREEDS:
        wool = YIELDS["wool"]
        return replace(wool, label=f"no figure for {name}, so that of any wool: {wool.label}")
    near = difflib.get_close_matches(name, [*YIELDS, *WOOL_BREEDS], n=1)
    remedy = f"Did you mean {near[0]}?" if near else "For any other sheep take wool."
    rule = f"must be one of {', '.join(YIELDS)}, or a breed of sheep"
    raise InputError("fleece", rule, got=repr(kind), remedy=remedy)


@dataclass(frozen=True, slots=True, kw_only=True)
class FleeceNeed:
    """Fibre to begin with, stage by stage, all in grams.

    Attributes
    ----------
    yarn_g : float
        Finished yarn that is needed.
    prepared_g : float
        Carded or combed fibre.
    clean_g : float
        Washed fleece.
    raw_g : float
        Fleece as shorn and skirted.
    """

    yarn_g: float
    prepared_g: float
    clean_g: float
    raw_g: float


def _share(name: str, value: float) -> float:
    if not 0 <= value < 1:
        raise InputError(name, "must be from 0 to under 1", got=f"{value}")
    return value


def _yield(value: float) -> float:
    if not 0 < value <= 1:
        raise InputError("clean yield", "must be more than 0, and at most 1", got=f"{value}")
    return value


def fleece_needed(
    yarn_g: float,
    *,
    clean_yield: float,
    preparation_loss: float = CARDING_LOSS.high,
    spinning_loss: float = SPINNING_LOSS.high,
) -> FleeceNeed:
    """Go back from finished yarn to raw fleece; each loss divides.

    Parameters
    ----------
    yarn_g : float
        Finished yarn that is needed.
    clean_yield : float
        Clean fibre as a share of the raw fleece: see `YIELDS`; 1 for fibre bought clean.
    preparation_loss, spinning_loss : float
        Shares in [0, 1); the defaults are the safe ends of `CARDING_LOSS` and
        `SPINNING_LOSS`.

    Returns
    -------
    FleeceNeed

    Raises
    ------
    InputError
        Where a value is out of range.

    Examples
    --------
    >>> need = fleece_needed(500, clean_yield=0.45, preparation_loss=0, spinning_loss=0)
    >>> round(need.raw_g)
    1111
    """
    if not 0 <= yarn_g < math.inf:
        raise InputError("yarn", "must be 0 or more, and finite", got=f"{yarn_g} g")
    prepared = yarn_g / (1 - _share("spinning loss", spinning_loss))
    clean = prepared / (1 - _share("preparation loss", preparation_loss))
    return FleeceNeed(
        yarn_g=yarn_g, prepared_g=prepared, clean_g=clean, raw_g=clean / _yield(clean_yield)
    )


def yarn_from_fleece(
    raw_g: float,
    *,
    clean_yield: float,
    preparation_loss: float = CARDING_LOSS.high,
    spinning_loss: float = SPINNING_LOSS.high,
) -> float:
    """Grams of finished yarn that a raw fleece gives; the other way round.

    Examples
    --------
    >>> round(yarn_from_fleece(1000, clean_yield=0.6, preparation_loss=0.1, spinning_loss=0.05))
    513
    """
    if not 0 <= raw_g < math.inf:
        raise InputError("fleece", "must be 0 or more, and finite", got=f"{raw_g} g")
    kept = (1 - _share("preparation loss", preparation_loss)) * (
        1 - _share("spinning loss", spinning_loss)
    )
    return raw_g * _yield(clean_yield) * kept


@dataclass(frozen=True, slots=True, kw_only=True)
class Bobbins:
    """What to spin before plying.

    Attributes
    ----------
    plies : int
    singles_m : tuple of float
        Metres to spin of each ply: longer than the yarn by what plying takes up.
    singles_g : tuple of float
        Grams of each ply.
    bobbins : tuple of int
        Bobbins to fill of each ply.
    """

    plies: int
    singles_m: tuple[float, ...]
    singles_g: tuple[float, ...]
    bobbins: tuple[int, ...]

    @property
    def total(self) -> int:
        """Bobbins altogether."""
        return sum(self.bobbins)


def bobbins_to_fill(length_m: float, count: YarnCount, *, bobbin_g: float) -> Bobbins:
    """Count the bobbins of singles for a length of plied yarn.

    Parameters
    ----------
    length_m : float
        Of the finished plied yarn.
    count : YarnCount
        With its plies and twist contraction.
    bobbin_g : float
        Grams of singles that one bobbin takes.

    Returns
    -------
    Bobbins

    Examples
    --------
    >>> from palette.yarn.count import parse_count
    >>> bobbins_to_fill(500, parse_count("Nm 2/8"), bobbin_g=50).bobbins
    (2, 2)
    """
    for name, value in (("yarn", length_m), ("bobbin", bobbin_g)):
        if not 0 < value < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{value}")
    single_m = length_m / (1 - count.contraction)
    grams = tuple(single_m * tex / 1000 for tex in count.singles_tex)
    return Bobbins(
        plies=count.plies,
        singles_m=(single_m,) * count.plies,
        singles_g=grams,
        bobbins=tuple(math.ceil(round(mass / bobbin_g, 9)) for mass in grams),
    )
