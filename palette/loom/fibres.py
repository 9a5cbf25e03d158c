"""How closely the yarn of a fibre lies side by side: Ashenhurst's constants."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError

__all__ = ["FIBRES", "Fibre", "mixed_fibre"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fibre:
    """Ashenhurst's constant for one kind of yarn.

    Attributes
    ----------
    name : str
    constant : float
        Threads side by side in an inch = constant x sqrt(yards per pound).
    label : str
        The source, or "common practice".
    """

    name: str
    constant: float
    label: str


_SMOOTH = "Ashenhurst's rule of 1884: 8 % less than the root, as weavers' notes print it"
_WORSTED = "Ashenhurst's rule of 1884: worsted and firm yarns"
_WOOLLEN = "Ashenhurst's rule of 1884: woollen and soft yarns"
_ROWS = (
    (0.92, _SMOOTH, "cotton linen silk"),
    (0.90, _WORSTED, "worsted"),
    (0.85, _WOOLLEN, "woollen wool"),
    (0.90, "common practice: taken as worsted", "alpaca mohair nylon polyamide polyester acrylic"),
    (0.90, "common practice: taken as worsted", "polypropylene acetate metallic elastane"),
    (0.85, "common practice: taken as woollen", "merino lambswool lamb corriedale shetland"),
    (0.85, "common practice: taken as woollen", "bluefaced superwash llama angora cashmere"),
    (0.85, "common practice: taken as woollen", "camel yak protein"),
    (0.92, "common practice: taken as silk", "tussah"),
    (0.92, "common practice: taken as linen", "flax hemp ramie nettle jute"),
    (0.92, "common practice: taken as cotton", "cottolin viscose rayon modal lyocell bamboo"),
    (0.92, "common practice: taken as cotton", "cellulose"),
)
FIBRES: dict[str, Fibre] = {
    name: Fibre(name=name, constant=constant, label=label)
    for constant, label, names in _ROWS
    for name in names.split()
}
"""Constants by fibre; authors differ, Taylor has 0.95 for cotton."""


def mixed_fibre(parts: tuple[tuple[str, float], ...]) -> Fibre:
    """Constant of a yarn of several fibres: the mean by mass, as is common practice.

    Parameters
    ----------
    parts : tuple of (str, float)
        Names in `FIBRES`, each with its share of the mass.

    Raises
    ------
    InputError
        A fibre that is not listed, or shares that do not sum to 1.

    Examples
    --------
    >>> round(mixed_fibre((("wool", 0.5), ("silk", 0.5))).constant, 3)
    0.885
    """
    for name, _ in parts:
        if name not in FIBRES:
            raise InputError("fibre", f"must be one of {', '.join(FIBRES)}", got=repr(name))
    total = math.fsum(share for _, share in parts)
    if not abs(total - 1) <= 1e-6:
        raise InputError("fibre", "shares must sum to 100 %", got=f"{total * 100:g} %")
    if len(parts) == 1:
        return FIBRES[parts[0][0]]
    return Fibre(
        name=" and ".join(dict.fromkeys(name for name, _ in parts)),
        constant=math.fsum(FIBRES[name].constant * share for name, share in parts),
        label="common practice: the mean of its fibres by mass",
    )
