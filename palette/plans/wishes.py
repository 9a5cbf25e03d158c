"""What a brief says in words, as the stages take it: colours, hems, limits, warp stripes, reeds."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from palette.errors import InputError
from palette.loom.chains import WarpStripe
from palette.measures import parse_density
from palette.perception.colour_text import parse_colour
from palette.perception.spaces import lab_to_hex
from palette.stripes.edges import Edge
from palette.stripes.soft import Soft
from palette.swatches.palette import Palette

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from palette.measures import Length
    from palette.plans.brief import Brief

__all__ = [
    "edges_of",
    "most_of",
    "picks_in",
    "reeds_of",
    "renamed_wishes",
    "soft_of",
    "warp_stripes_of",
]


def picks_in(length_mm: float, picks_per_cm: float) -> int:
    """Whole picks within a length on the loom.

    Examples
    --------
    >>> picks_in(25.4, 8)
    20
    """
    return int(round(length_mm / 10 * picks_per_cm, 9))


def soft_of(brief: Brief) -> Soft | None:
    """Give the soft change that a brief asks for, at least one pick long."""
    if brief.soft is None:
        return None
    picks = picks_in(brief.soft.mm / (1 - brief.shrinkage_along), brief.picks.per_cm)
    return Soft(picks=max(1, picks), way=brief.soft_way)


def edges_of(brief: Brief, palette: Palette) -> tuple[Edge, ...]:
    """Give the hem and the border that a brief asks for, the hem outermost."""
    edges = (
        _edge("hem", brief.hem, brief.hem_colour, palette),
        _edge("border", brief.border, brief.border_colour, palette),
    )
    return tuple(edge for edge in edges if edge is not None)


def _edge(
    role: Literal["hem", "border"], length: Length | None, colour: str | None, palette: Palette
) -> Edge | None:
    if length is None:
        return None
    if colour is None or colour in {swatch.name for swatch in palette.swatches}:
        return Edge(role=role, length_mm=length.mm, colour=colour or "")
    lab = parse_colour(colour, thing=f"{role}-colour")
    return Edge(
        role=role, length_mm=length.mm, colour=f"{role} yarn", hex=lab_to_hex(lab)[0], lab=lab
    )


def _pairs(words: tuple[str, ...], thing: str, unit: str) -> list[tuple[str, int]]:
    pairs = []
    for word in words:
        name, mark, number = word.rpartition("=")
        if not (mark and name.strip() and re.fullmatch(r"\d{1,9}", number.strip())):
            remedy = f"Write it like moss green=40, the number being {unit}."
            raise InputError(thing, "must be a colour and a number", got=repr(word), remedy=remedy)
        pairs.append((name.strip(), int(number)))
    return pairs


def most_of(brief: Brief) -> dict[str, int]:
    """Give the most picks of each colour that a brief limits."""
    return dict(_pairs(brief.most, "most", "picks"))


def renamed_wishes(brief: Brief, names: Mapping[str, str]) -> dict[str, object]:
    """Give what a brief says of colours that have other names now, under the new ones.

    Parameters
    ----------
    brief : Brief
    names : mapping of str to str
        Old and new name of each colour that has another one.

    Examples
    --------
    >>> from palette.plans.brief import Brief
    >>> brief = Brief.of({"ground": "pine", "most": ["pine=40", "clay=20"]})
    >>> renamed_wishes(brief, {"pine": "second pine"})
    {'ground': 'second pine', 'most': ('second pine=40', 'clay=20')}
    """
    if not names:
        return {}
    single = {
        "ground": brief.ground,
        "hem-colour": brief.hem_colour,
        "border-colour": brief.border_colour,
    }
    pairs = (word.rpartition("=") for word in brief.most)
    wishes: dict[str, object] = {
        key: names[name] for key, name in single.items() if name is not None and name in names
    }
    several = {
        "swap": tuple(names.get(name, name) for name in brief.swap),
        "most": tuple(
            f"{names.get(name.strip(), name)}{mark}{picks}" for name, mark, picks in pairs
        ),
    }
    return wishes | {key: words for key, words in several.items() if words}


def warp_stripes_of(brief: Brief, *palettes: Palette) -> tuple[WarpStripe, ...]:
    """Give one repeat of the warp's stripes; empty where the warp is of one colour."""
    known = {swatch.name: swatch.hex for palette in palettes for swatch in palette.swatches}
    stripes = []
    for name, ends in _pairs(brief.warp_stripes, "warp-stripes", "ends"):
        code = known.get(name) or lab_to_hex(parse_colour(name, thing="warp-stripes"))[0]
        stripes.append(WarpStripe(colour=name, hex=code, ends=ends))
    return tuple(stripes)


def reeds_of(brief: Brief) -> tuple[float, ...]:
    """Give the dents per cm of the reeds that a brief lists."""
    return tuple(parse_density(text, thing="reed").per_cm for text in brief.reed)
