"""What keeps the colour it has: the warp, unless something else is said."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from palette.dyeing.asked import DyeAsked
from palette.measures import format_mass
from palette.perception.spaces import hex_to_lab
from palette.yarn.amounts import YarnAmount

__all__ = ["dyed_yarns", "is_undyed_white", "undyed_by_default", "warp_left_out"]

_PALE_L, _FAINT_CHROMA = 70.0, 20.0  # bleached to flax and oatmeal; common practice, no source
_OTHER = {"warp": "weft", "weft": "warp"}


def is_undyed_white(hex_colour: str) -> bool:
    """Whether a colour may be that of undyed yarn: bleached white, ecru, flax, oatmeal.

    CIELAB L of at least 70 and a chroma of at most 20 (common practice, no source).

    Examples
    --------
    >>> [is_undyed_white(each) for each in ("#ece7db", "#d8c9ae", "#5d733a", "#d9c27a")]
    [True, True, False, False]
    """
    lightness, a, b = hex_to_lab(hex_colour)
    return lightness >= _PALE_L and a * a + b * b <= _FAINT_CHROMA**2


def undyed_by_default(names: Sequence[str], *, known: Collection[str]) -> tuple[str, ...]:
    """Leave undyed the warp, and what is named; the word none takes the warp out again.

    Parameters
    ----------
    names : sequence of str
        Colours, "warp", "weft" or "none", as said by the dyer.
    known : collection of str
        Names in the plan: where one of them is "none" itself, the word is its name.

    Examples
    --------
    >>> undyed_by_default(("chalk",), known=("moss", "chalk", "warp"))
    ('warp', 'chalk')
    >>> undyed_by_default(("none", "chalk"), known=("moss", "chalk", "warp"))
    ('chalk',)
    """
    none = {name for name in names if name.lower() == "none" and name not in known}
    first = () if none else ("warp",)
    return tuple(dict.fromkeys((*first, *(name for name in names if name not in none))))


def dyed_yarns(yarns: Sequence[YarnAmount], asked: DyeAsked) -> tuple[YarnAmount, ...]:
    """Yarns that are dyed, in the order of the plan.

    A colour that is named undyed is not. Where all of the warp or of the weft is undyed, a colour
    that has a depth or a recipe of its own is dyed all the same, unless these can be meant for
    the other use, in which the colour is too.

    Parameters
    ----------
    yarns : sequence of YarnAmount
    asked : DyeAsked
    """
    given = {name for name, _ in (*asked.depths, *asked.recipes)}
    used = {(yarn.colour, yarn.use) for yarn in yarns}

    def is_dyed(yarn: YarnAmount) -> bool:
        if yarn.colour in given and (yarn.colour, _OTHER[yarn.use]) not in used:
            return True
        return not {yarn.colour, yarn.use} & set(asked.undyed)

    return tuple(yarn for yarn in yarns if is_dyed(yarn))


def warp_left_out(yarns: Sequence[YarnAmount], asked: DyeAsked) -> tuple[str, ...]:
    """Say which warp stays undyed though its colour is no undyed white, and how to decide.

    Parameters
    ----------
    yarns : sequence of YarnAmount
    asked : DyeAsked

    Returns
    -------
    tuple of str
        One sentence, or none.
    """
    dyed = dyed_yarns(yarns, asked)
    coloured = [
        yarn
        for yarn in yarns
        if yarn.use == "warp"
        and yarn not in dyed
        and yarn.colour not in set(asked.undyed) - {"warp"}
        and not is_undyed_white(yarn.hex)
    ]
    if not coloured:
        return ()
    names = ", ".join(
        yarn.hex if yarn.colour == "warp" else f"{yarn.colour} {yarn.hex}" for yarn in coloured
    )
    grams = format_mass(math.fsum(yarn.mass_g for yarn in coloured))
    return (
        f"The warp is left out of this dye day, though {names} is no undyed white: {grams} of it "
        "must be there in that colour. To dye it too: --undyed none, or a depth of its own, "
        f"{_depth(coloured[0].colour)}. If you have it in that colour: --undyed warp.",
    )


def _depth(name: str) -> str:
    """Option as it is typed: in quotes where the name has a space."""
    return f'--depth "{name}=2%"' if " " in name else f"--depth {name}=2%"
