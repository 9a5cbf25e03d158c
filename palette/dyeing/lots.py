"""From yarn amounts to lots of whole skeins: what has to come out of the pots alike."""

from __future__ import annotations

import math

from palette.dyeing.asked import DyeAsked
from palette.dyeing.assistants import Band, band_of
from palette.dyeing.dye_day import DyeLot, Skeins
from palette.dyeing.fibres import FibreContent, read_fibre
from palette.dyeing.packing import share_out
from palette.dyeing.undyed import dyed_yarns
from palette.errors import InputError
from palette.yarn.amounts import YarnAmount

__all__ = ["lots_of", "skeins_in_baths", "undyed_of", "whole_skeins"]

_DUST = 6  # decimals of a skein beyond which a fraction is rounding of the machine
_NATURAL_BANDS: tuple[tuple[float, Band], ...] = ((50.0, "light"), (150.0, "medium"))


def whole_skeins(needed_g: float, skein_g: float, *, margin: float = 0.0) -> int:
    """Whole skeins that hold an amount and a margin beyond it.

    Parameters
    ----------
    needed_g, skein_g : float
        Dry grams.
    margin : float
        Share added to what is needed.

    Returns
    -------
    int

    Examples
    --------
    >>> whole_skeins(182.0, 100.0, margin=0.1), whole_skeins(181.0, 100.0, margin=0.1)
    (3, 2)
    """
    return math.ceil(round(needed_g * (1 + margin) / skein_g, _DUST))


def undyed_of(yarns: tuple[YarnAmount, ...], asked: DyeAsked) -> tuple[str, ...]:
    """Colours that are not dyed, in the order of the plan."""
    dyed = dyed_yarns(yarns, asked)
    return tuple(dict.fromkeys(yarn.colour for yarn in yarns if yarn not in dyed))


def lots_of(yarns: tuple[YarnAmount, ...], asked: DyeAsked) -> tuple[DyeLot, ...]:
    """Lots of a plan: one for each colour and fibre, warp and weft together.

    Parameters
    ----------
    yarns : tuple of YarnAmount
        Of the plan.
    asked : DyeAsked

    Returns
    -------
    tuple of DyeLot
        In the order in which their colours first come; baths not yet planned.

    Raises
    ------
    InputError
        A colour in what is asked that the plan does not have; a fibre that takes neither dye.

    Examples
    --------
    >>> moss = YarnAmount(colour="moss", hex="#5d733a", use="weft", count="Nm 2/8", tex=250.0,
    ...     picks=400, starts=5, net_length_m=330.0, length_m=363.0, mass_g=91.0)
    >>> lot = lots_of((moss,), DyeAsked(fibre="wool"))[0]
    >>> lot.dry_g, lot.depth_percent, lot.depth_asked
    (200.0, 2.0, False)
    """
    _check_names(yarns, asked)
    grouped: dict[tuple[str, str], list[YarnAmount]] = {}
    for yarn in dyed_yarns(yarns, asked):
        if yarn.mass_g > 0:
            key = (yarn.colour, asked.fibre_of(yarn.colour, yarn.use))
            grouped.setdefault(key, []).append(yarn)
    return tuple(_lot(colour, fibre, group, asked) for (colour, fibre), group in grouped.items())


def _check_names(yarns: tuple[YarnAmount, ...], asked: DyeAsked) -> None:
    colours = dict.fromkeys(yarn.colour for yarn in yarns)
    uses = {"warp", "weft"}
    named = [(name, colours.keys() | uses) for name in asked.undyed]
    named += [(name, colours.keys() | uses) for name, _ in (*asked.fibres, *asked.skeins_g)]
    named += [(name, set(colours)) for name, _ in (*asked.depths, *asked.recipes)]
    for name, known in named:
        if name not in known:
            remedy = f"The plan has: {', '.join(colours)}."
            raise InputError("colour", "must be one of the plan", got=repr(name), remedy=remedy)


def _lot(colour: str, fibre: str, yarns: list[YarnAmount], asked: DyeAsked) -> DyeLot:
    content = read_fibre(fibre, thing=f"fibre of {colour}")
    _check_takes_dye(colour, content)
    skeins = _skeins(yarns, asked)
    depth = asked.depth_of(colour, yarns[0].hex)
    return DyeLot(
        colour=colour,
        hex=yarns[0].hex,
        fibre=content,
        skeins=skeins,
        dry_g=math.fsum(each.dry_g for each in skeins),
        depth_percent=depth,
        depth_asked=colour in dict(asked.depths) or bool(asked.recipe_of(colour)),
        band=_natural_band(depth) if asked.natural else band_of(depth),
    )


def _skeins(yarns: list[YarnAmount], asked: DyeAsked) -> tuple[Skeins, ...]:
    """Skeins of each yarn of a lot: the same use and count is one yarn, however often listed."""
    needed: dict[tuple[str, str], list[float]] = {}
    for yarn in yarns:
        needed.setdefault((yarn.use, yarn.count), []).append(yarn.mass_g)
    found = []
    for (use, count), masses in needed.items():
        mass_g, skein_g = math.fsum(masses), asked.skein_of(yarns[0].colour, use)
        number = whole_skeins(mass_g, skein_g, margin=asked.margin)
        found.append(Skeins(use=use, count=count, needed_g=mass_g, skein_g=skein_g, skeins=number))
    return tuple(found)


def _check_takes_dye(colour: str, content: FibreContent) -> None:
    if not content.share_of("protein", "polyamide", "cellulose") > 0:
        raise InputError(
            f"fibre of {colour}",
            "must take acid or fibre-reactive dyes",
            got=content.text,
            remedy="It needs another class of dye; leave the colour undyed here.",
        )


def _natural_band(depth_percent: float) -> Band:
    """Band of a natural dye by weight of dyestuff; common practice."""
    return next((band for least, band in _NATURAL_BANDS if depth_percent <= least), "deep")


def skeins_in_baths(lot: DyeLot, ratio: float, asked: DyeAsked) -> list[tuple[float, ...]]:
    """Skeins of a lot in each of its baths, as their masses: as few and as even as they come.

    Parameters
    ----------
    lot : DyeLot
    ratio : float
        Millilitres of bath per gram.
    asked : DyeAsked

    Raises
    ------
    InputError
        One skein is more than the largest pot takes.
    """
    sizes, capacity = _skein_sizes(lot), asked.largest_room_ml / ratio
    if not max(sizes) <= capacity * (1 + 1e-9):
        need = max(sizes) * ratio / asked.fill / 1000
        raise InputError(
            "largest pot",
            f"must hold a skein of {lot.colour}: {max(sizes):g} g at {ratio:g}:1",
            got=f"{max(asked.pots_ml) / 1000:g} l filled to {asked.fill * 100:g} %",
            remedy=f"Take a pot of {math.ceil(need)} l, smaller skeins or less liquor.",
        )
    return [tuple(sizes[i] for i in each) for each in share_out(sizes, capacity)]


def _skein_sizes(lot: DyeLot) -> tuple[float, ...]:
    return tuple(each.skein_g for each in lot.skeins for _ in range(each.skeins))
