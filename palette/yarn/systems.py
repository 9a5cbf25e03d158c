"""The count systems of the trade: what each number counts, and its names.

In an indirect system the number grows as the yarn gets finer (a length per weight); in a
direct one it grows with the weight. Two orders of writing plies are in use: cotton and linen
put the size first (``8/2``), worsted and metric counts the plies (``2/28``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import CountError
from palette.measures import G_PER_OUNCE, G_PER_POUND, M_PER_YARD

__all__ = ["SYSTEMS", "CountSystem", "count_to_tex", "system_named", "tex_to_count"]

_GRAIN_G = G_PER_POUND / 7000
_DRAM_G = G_PER_POUND / 256


@dataclass(frozen=True, slots=True, kw_only=True)
class CountSystem:
    """One way of numbering yarns.

    Attributes
    ----------
    key : str
        Short name as it is printed: ``NeC``.
    title : str
        What it is in words, with its definition.
    direct : bool
        True where the number grows with the weight: tex = factor x number. Else
        tex = factor / number.
    factor : float
        Exact, from the definition.
    size_first : bool
        True where plied yarns are written size/plies.
    names : tuple of str
        Other names, lower case.
    """

    key: str
    title: str
    direct: bool
    factor: float
    size_first: bool = True
    names: tuple[str, ...] = ()


def _per_weight(
    key: str, title: str, *, yd: float, g: float, size_first: bool = True, names: tuple[str, ...]
) -> CountSystem:
    """System that counts lengths of `yd` yards in `g` grams."""
    factor = 1000 * g / (yd * M_PER_YARD)
    return CountSystem(
        key=key, title=title, direct=False, factor=factor, size_first=size_first, names=names
    )


def _weight_of(key: str, title: str, *, factor: float, names: tuple[str, ...]) -> CountSystem:
    return CountSystem(key=key, title=title, direct=True, factor=factor, names=names)


_ALL = (
    _per_weight(
        "NeC",
        "cotton and spun silk, 840 yd hanks per lb",
        yd=840,
        g=G_PER_POUND,
        names=("nec", "cotton", "spun silk"),
    ),
    _per_weight(
        "NeK",
        "worsted, 560 yd hanks per lb",
        yd=560,
        g=G_PER_POUND,
        size_first=False,
        names=("nek", "worsted"),
    ),
    _per_weight(
        "NeL",
        "linen, 300 yd leas per lb",
        yd=300,
        g=G_PER_POUND,
        names=("nel", "linen", "lea"),
    ),
    _per_weight(
        "cut",
        "woollen, 300 yd cuts per lb",
        yd=300,
        g=G_PER_POUND,
        names=("cut", "woollen cut"),
    ),
    CountSystem(
        key="Nm",
        title="metric, km per kg",
        direct=False,
        factor=1000.0,
        size_first=False,
        names=("nm", "metric"),
    ),
    _per_weight(
        "run",
        "woollen, 1600 yd runs per lb",
        yd=1600,
        g=G_PER_POUND,
        names=("run", "runs", "woollen run"),
    ),
    _per_weight(
        "YSW",
        "Yorkshire woollen, 256 yd skeins per lb",
        yd=256,
        g=G_PER_POUND,
        names=("ysw", "yorkshire", "yorkshire skein"),
    ),
    _per_weight("Dewsbury", "woollen, yards per oz", yd=1, g=G_PER_OUNCE, names=("dewsbury",)),
    _per_weight(
        "West of England",
        "woollen, 320 yd snaps per lb",
        yd=320,
        g=G_PER_POUND,
        names=("west of england",),
    ),
    _per_weight(
        "Galashiels",
        "woollen, 300 yd cuts per 24 oz",
        yd=300,
        g=24 * G_PER_OUNCE,
        names=("galashiels",),
    ),
    _per_weight(
        "Hawick", "woollen, 300 yd cuts per 26 oz", yd=300, g=26 * G_PER_OUNCE, names=("hawick",)
    ),
    _per_weight(
        "Alloa", "woollen, 11520 yd spyndles per 24 lb", yd=480, g=G_PER_POUND, names=("alloa",)
    ),
    _weight_of("tex", "g per 1000 m", factor=1.0, names=("tex",)),
    _weight_of("dtex", "g per 10 000 m", factor=0.1, names=("dtex", "decitex")),
    _weight_of("ktex", "g per m", factor=1000.0, names=("ktex", "kilotex")),
    _weight_of("den", "denier, g per 9000 m", factor=1 / 9, names=("den", "denier", "td")),
    _weight_of(
        "spyndle",
        "jute and heavy linen, lb per 14 400 yd",
        factor=1000 * G_PER_POUND / (14400 * M_PER_YARD),
        names=("spyndle", "lb/spyndle"),
    ),
    _weight_of(
        "dram",
        "silk, drams per 1000 yd",
        factor=1000 * _DRAM_G / (1000 * M_PER_YARD),
        names=("dram", "drams", "silk dram"),
    ),
    _weight_of(
        "grain",
        "grains per 120 yd",
        factor=1000 * _GRAIN_G * 6 / (720 * M_PER_YARD),
        names=("grain", "grains"),
    ),
)

SYSTEMS: dict[str, CountSystem] = {system.key: system for system in _ALL}
_BY_NAME = {name: system for system in _ALL for name in (*system.names, system.key.lower())}


def system_named(name: str) -> CountSystem | None:
    """System by its key or another of its names, or None.

    Examples
    --------
    >>> system_named("cotton").key
    'NeC'
    """
    return _BY_NAME.get(" ".join(name.lower().split()))


def count_to_tex(number: float, system: str) -> float:
    """Tex of a count in a named system.

    Parameters
    ----------
    number : float
    system : str
        Key or name of the system: ``NeC``, ``worsted``.

    Returns
    -------
    float
        g per 1000 m.

    Examples
    --------
    >>> round(count_to_tex(20, "NeC"), 3)
    29.527
    """
    found = _known(system)
    if not 0 < number < math.inf:
        raise CountError(f"{found.key} count", "must be more than 0, and finite", got=f"{number}")
    return found.factor * number if found.direct else found.factor / number


def tex_to_count(tex: float, system: str) -> float:
    """Count in a named system of a yarn of this tex.

    Examples
    --------
    >>> round(tex_to_count(30, "NeC"), 2)
    19.68
    """
    found = _known(system)
    if not 0 < tex < math.inf:
        raise CountError("tex", "must be more than 0, and finite", got=f"{tex}")
    return tex / found.factor if found.direct else found.factor / tex


def _known(system: str) -> CountSystem:
    found = system_named(system)
    if found is None:
        rule = f"must be one of {', '.join(SYSTEMS)}"
        raise CountError("count system", rule, got=repr(system))
    return found
