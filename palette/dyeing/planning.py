"""From a plan's yarns to a dye day: lots, baths that fit the pots, amounts, cautions."""

from __future__ import annotations

import math
from dataclasses import replace

from palette.dyeing.asked import DyeAsked, DyeClass
from palette.dyeing.assistants import (
    Assistant,
    acid_assistants,
    reactive_assistants,
)
from palette.dyeing.baths import bath_ml, dye_g, stock_ml
from palette.dyeing.cautions import cautions_for
from palette.dyeing.dye_day import Bath, DyeDay, DyeLot
from palette.dyeing.fillings import in_rounds
from palette.dyeing.lots import lots_of, skeins_in_baths, undyed_of
from palette.dyeing.mordanting import mordant_baths_of
from palette.dyeing.recipe import RecipePart
from palette.dyeing.remarks import remarks
from palette.errors import InputError
from palette.yarn.amounts import YarnAmount

__all__ = ["plan_dye_day"]

_STRONG = 10.0  # % of acetic acid from which it irritates, as the caution says

_HEAT: dict[str, str] = {
    "acid": "Bring up slowly, over 30 min or more, simmer 20 to 40 min, let it cool in the bath.",
    "cold": "Hold at 24 to 35 °C; salt first, soda ash later, for as long as the maker says.",
    "hot": "Bring up to 70 °C; salt first, soda ash later, for as long as the maker says.",
    "natural": "Bring up slowly, hold under a simmer for about an hour, let it cool in the bath.",
}


def plan_dye_day(yarns: tuple[YarnAmount, ...], *, asked: DyeAsked) -> DyeDay:
    """Plan the dyeing of every yarn of a plan.

    Parameters
    ----------
    yarns : tuple of YarnAmount
        Of the plan; warp and weft of one colour and fibre are one lot.
    asked : DyeAsked
        Fibre, depths, skeins, pots.

    Returns
    -------
    DyeDay
        A lot stays in one bath where a pot holds it; where none does, it is split into as few
        and as even baths as its skeins allow, and the warnings say so.

    Raises
    ------
    InputError
        Nothing to dye, a colour that the plan does not have, a fibre that is not known, pots
        that do not hold one skein, or hot reactive dye on yarn that is partly protein.

    Examples
    --------
    >>> moss = YarnAmount(colour="moss", hex="#5d733a", use="weft", count="Nm 2/8", tex=250.0,
    ...     picks=400, starts=5, net_length_m=330.0, length_m=363.0, mass_g=91.0)
    >>> day = plan_dye_day((moss,), asked=DyeAsked(fibre="wool", depths=(("moss", 2.0),)))
    >>> bath = day.baths[0]
    >>> day["moss"].dry_g, bath.dye_g, bath.stock_ml, bath.volume_ml, bath.water_ml
    (200.0, 4.0, 400.0, 8000.0, 7600.0)
    """
    lots = lots_of(yarns, asked)
    if not lots:
        raise InputError("dye day", "must have a yarn to dye", got="none")
    _check_protein(lots, asked)
    planned: list[DyeLot] = []
    baths: list[Bath] = []
    for lot in lots:
        new = _baths(lot, asked, len(baths) + 1)
        baths += new
        planned.append(replace(lot, baths=tuple(bath.number for bath in new)))
    mordant_baths, in_pots = in_rounds(
        planned, mordant_baths_of(lots, asked) if asked.natural else (), baths, asked
    )
    everything = [each for bath in baths for each in bath.assistants]
    everything += [each for bath in mordant_baths for each in bath.assistants]
    day = DyeDay(
        asked=asked,
        lots=tuple(planned),
        baths=in_pots,
        mordant_baths=mordant_baths,
        undyed=undyed_of(yarns, asked),
        totals=_totals(everything),
        cautions=cautions_for(_matters(baths, everything, asked)),
    )
    return replace(day, warnings=remarks(day))


def _check_protein(lots: tuple[DyeLot, ...], asked: DyeAsked) -> None:
    """Refuse a hot bath with soda ash for yarn that is partly wool or silk; common practice."""
    mixed = [
        lot.colour
        for lot in lots
        if lot.fibre.share_of("protein") > 0 and lot.fibre.share_of("cellulose") > 0
    ]
    if mixed and asked.reactive == "hot" and not asked.natural:
        raise InputError(
            "reactive",
            "must be cold for yarn of cellulose and protein",
            got=f"hot, for {', '.join(dict.fromkeys(mixed))}",
            remedy="Hot alkali harms wool, silk and other protein.",
        )


def _classes(lot: DyeLot, asked: DyeAsked) -> list[tuple[DyeClass, float]]:
    """Classes of dye for a lot, in the order of the work, with the share each one colours.

    The cellulose of mixed yarn comes first: its alkali would strip what acid dyes have given.
    """
    if asked.natural:
        return [("natural", lot.fibre.share_of("protein", "polyamide", "cellulose"))]
    shares: list[tuple[DyeClass, float]] = [
        ("reactive", lot.fibre.share_of("cellulose")),
        ("acid", lot.fibre.share_of("protein", "polyamide")),
    ]
    return [(dye_class, share) for dye_class, share in shares if share > 0]


def _baths(lot: DyeLot, asked: DyeAsked, first_number: int) -> list[Bath]:
    found: list[Bath] = []
    for dye_class, share in _classes(lot, asked):
        ratio = asked.ratio_of(dye_class)
        for skeins in skeins_in_baths(lot, ratio, asked):
            number = first_number + len(found)
            found.append(_bath(number, lot, skeins, dye_class, share, asked))
    return found


def _bath(
    number: int,
    lot: DyeLot,
    skeins: tuple[float, ...],
    dye_class: DyeClass,
    share: float,
    asked: DyeAsked,
) -> Bath:
    dry_g = math.fsum(skeins)
    fibre_g = dry_g * share
    volume = bath_ml(dry_g, asked.ratio_of(dye_class))
    # Salt works by the litre, and the bath is for all of the yarn.
    salted_g = dry_g if dye_class == "reactive" else fibre_g
    assistants = _assistants(dye_class, salted_g, lot.depth_percent, volume, asked)
    stock = 0.0
    if dye_class != "natural":
        stock = stock_ml(fibre_g, lot.depth_percent, stock_percent=asked.stock_percent)
    liquids = stock + math.fsum(each.amount for each in assistants if each.unit == "ml")
    if not liquids <= volume:
        rule = f"must have room for {liquids:.0f} ml of stock and vinegar"
        remedy = "Mix a stronger stock solution, or take more liquor."
        thing = f"bath {number} ({lot.colour})"
        raise InputError(thing, rule, got=f"{volume:.0f} ml", remedy=remedy)
    return Bath(
        number=number,
        colour=lot.colour,
        dye_class=dye_class,
        skeins=len(skeins),
        dry_g=dry_g,
        fibre_g=fibre_g,
        depth_percent=lot.depth_percent,
        dye_g=dye_g(fibre_g, lot.depth_percent),
        stock_ml=stock,
        volume_ml=volume,
        water_ml=volume - liquids,
        assistants=assistants,
        heat=_HEAT[asked.reactive if dye_class == "reactive" else dye_class],
        pot_ml=max(asked.pots_ml),
        dyes=_dyes(lot.colour, fibre_g, dye_class, asked),
    )


def _dyes(
    colour: str, fibre_g: float, dye_class: DyeClass, asked: DyeAsked
) -> tuple[RecipePart, ...]:
    """Each dye of the recipe of a colour, for the fibre that takes it."""
    stock = asked.stock_percent
    return tuple(
        RecipePart(
            dye=dye,
            percent=percent,
            dye_g=dye_g(fibre_g, percent),
            stock_ml=None
            if dye_class == "natural"
            else stock_ml(fibre_g, percent, stock_percent=stock),
        )
        for dye, percent in asked.recipe_of(colour)
    )


def _assistants(
    dye_class: DyeClass, goods_g: float, depth: float, volume_ml: float, asked: DyeAsked
) -> tuple[Assistant, ...]:
    if dye_class == "natural":
        return ()
    if dye_class == "acid":
        return acid_assistants(
            goods_g, depth, acid=asked.acid, vinegar_percent=asked.vinegar_percent
        )
    return reactive_assistants(goods_g, depth, volume_ml, kind=asked.reactive)


def _totals(assistants: list[Assistant]) -> tuple[Assistant, ...]:
    """Everything but the dye, summed by name and strength."""
    sums: dict[tuple[str, str], list[Assistant]] = {}
    for each in assistants:
        sums.setdefault((each.name, each.strength), []).append(each)
    return tuple(
        replace(group[0], amount=math.fsum(each.amount for each in group), rule="all baths")
        for group in sums.values()
    )


def _matters(baths: list[Bath], assistants: list[Assistant], asked: DyeAsked) -> set[str]:
    """Name what the cautions have to speak of."""
    classes = {bath.dye_class for bath in baths}
    found = {"powder"} | {name for name in ("acid", "reactive", "natural") if name in classes}
    if any("soda" in each.name for each in assistants):
        found.add("alkali")
    if any(each.name == "vinegar" for each in assistants) and not asked.vinegar_percent < _STRONG:
        found.add("strong acid")
    return found
