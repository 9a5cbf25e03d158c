"""From stripes and a warp to the metres and grams of every yarn."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence

from palette.errors import InputError
from palette.loom.chains import WarpStripe, ends_by_colour
from palette.loom.warp import Warp
from palette.stripes.plan import StripePlan
from palette.yarn.amounts import YarnAmount
from palette.yarn.count import YarnCount
from palette.yarn.defaults import ALLOWANCE, TAIL_MM, WEFT_TAKE_UP
from palette.yarn.wefts import Weaving, WeftUse, weft_per_pick_mm, weft_uses

__all__ = ["yarn_amounts"]

UNDYED_WARP_HEX = "#ece7db"
"""Hex of the warp where no colours are given."""


def _weft_colours(cloths: Sequence[StripePlan]) -> dict[str, str]:
    """Hex of each weft, in the order in which they first enter; a name is one colour."""
    colours: dict[str, str] = {}
    for cloth in cloths:
        for stripe in cloth.stripes:
            code = colours.setdefault(stripe.colour, stripe.hex)
            if code != stripe.hex:
                remedy = "Give one of them another name."
                got = f"{code} and {stripe.hex}"
                raise InputError(
                    f"weft {stripe.colour}", "must be one colour", got=got, remedy=remedy
                )
    return colours


def _weft_amount(
    colour: str,
    hex_code: str,
    uses: Sequence[WeftUse],
    *,
    count: YarnCount,
    sampling_share: float,
    allowance: float,
) -> YarnAmount:
    net_m = math.fsum(use.length_m for use in uses)
    sampling_m = sampling_share * math.fsum(use.pick_m for use in uses)
    length_m = (net_m + sampling_m) * (1 + allowance)
    return YarnAmount(
        colour=colour,
        hex=hex_code,
        use="weft",
        count=count.label,
        tex=count.tex,
        picks=sum(use.picks for use in uses),
        starts=sum(use.starts for use in uses),
        net_length_m=net_m,
        length_m=length_m,
        mass_g=count.mass_g(length_m),
        tail_length_m=math.fsum(use.tail_m for use in uses),
        carried_length_m=math.fsum(use.carried_m for use in uses),
        sampling_length_m=sampling_m,
        allowance=allowance,
    )


def _weft_amounts(
    cloths: Sequence[StripePlan],
    warp: Warp,
    weaving: Weaving,
    counts: Mapping[str, YarnCount],
    allowance: float,
) -> tuple[YarnAmount, ...]:
    """Reckon every weft of all cloths, and its part of the sampling."""
    by_cloth = [weft_uses(cloth, weaving) for cloth in cloths]
    sampling_share = warp.sampling_mm / sum(cloth.woven_length_mm for cloth in cloths)
    return tuple(
        _weft_amount(
            colour,
            hex_code,
            [uses[colour] for uses in by_cloth if colour in uses],
            count=counts[colour],
            sampling_share=sampling_share,
            allowance=allowance,
        )
        for colour, hex_code in _weft_colours(cloths).items()
    )


def _warp_amount(part: WarpStripe, warp: Warp, *, count: YarnCount, allowance: float) -> YarnAmount:
    net_m = part.ends * warp.length_mm / 1000
    length_m = net_m * (1 + allowance)
    return YarnAmount(
        colour=part.colour,
        hex=part.hex,
        use="warp",
        count=count.label,
        tex=count.tex,
        picks=0,
        starts=0,
        net_length_m=net_m,
        length_m=length_m,
        mass_g=count.mass_g(length_m),
        ends=part.ends,
        allowance=allowance,
    )


def _check(
    cloths: Sequence[StripePlan],
    warp: Warp,
    colours: Sequence[WarpStripe],
    allowance: float,
) -> None:
    if len(cloths) != len(warp.cloth_lengths_mm):
        rule = f"must be as many as the warp is planned for, {len(warp.cloth_lengths_mm)}"
        raise InputError("cloths", rule, got=f"{len(cloths)}")
    if not 0 <= allowance < math.inf:
        raise InputError("allowance", "must be 0 or more, and finite", got=f"{allowance}")
    ends = sum(part.ends for part in colours)
    if ends != warp.ends:
        rule = f"must come to the warp's {warp.ends} ends"
        raise InputError("warp stripes", rule, got=f"{ends}")


def _known(thing: str, counts: Mapping[str, YarnCount] | None, names: Collection[str]) -> None:
    """Refuse a count for a yarn that is not there: it would act on nothing."""
    for name in counts or {}:
        if name not in names:
            raise InputError(thing, f"must name one of {', '.join(names)}", got=repr(name))


def yarn_amounts(
    cloths: Sequence[StripePlan],
    warp: Warp,
    *,
    weft: YarnCount,
    warp_yarn: YarnCount,
    weft_take_up: float = WEFT_TAKE_UP.value,
    tail_mm: float = TAIL_MM.value,
    allowance: float = ALLOWANCE.value,
    carry_picks: int | None = None,
    shuttles: int | None = None,
    weft_counts: Mapping[str, YarnCount] | None = None,
    warp_stripes: Sequence[WarpStripe] = (),
    warp_counts: Mapping[str, YarnCount] | None = None,
    warp_hex: str = UNDYED_WARP_HEX,
) -> tuple[YarnAmount, ...]:
    """Metres and grams of every yarn of a plan.

    Parameters
    ----------
    cloths : sequence of StripePlan
        Every cloth on the warp, in weaving order.
    warp : Warp
    weft, warp_yarn : YarnCount
        Counts of the yarns.
    weft_take_up : float
        Share of the weft's own length lost to interlacing, in [0, 1).
    tail_mm : float
        Left at each start and at each end of a weft.
    allowance : float
        Share added to everything, weft and warp.
    carry_picks : int, optional
        An idle weft is carried up the selvedge over at most this many picks, else cut; None:
        each plan's own limit, or else the usual few.
    shuttles : int, optional
        Most shuttles in play; None: each plan's own limit.
    weft_counts : mapping of str to YarnCount, optional
        Counts of wefts that are not `weft`, by colour: a finer yarn for the hems.
    warp_stripes : sequence of WarpStripe, optional
        The warp's stripes where it has any; else all ends are one yarn called "warp".
    warp_hex : str
        ``#rrggbb`` of that one yarn.
    warp_counts : mapping of str to YarnCount, optional
        Counts of warp colours that are not `warp_yarn`.

    Returns
    -------
    tuple of YarnAmount
        Wefts in the order in which they first enter, then warps.

    Raises
    ------
    InputError
        Where there are not as many cloths as the warp is planned for, a count is of a yarn that
        is not there, or a value is out of range. Lengths are not compared: a warp that is in hand
        may be longer or shorter than a cloth that is still being fitted to it.

    Notes
    -----
    Where the warp has a length for sampling, it is woven in the same shares as the cloths.
    """
    plain_warp = (WarpStripe(colour="warp", hex=warp_hex, ends=warp.ends),)
    colours = ends_by_colour(tuple(warp_stripes) or plain_warp)
    _check(cloths, warp, colours, allowance)
    pick_mm = weft_per_pick_mm(warp, weft_take_up)
    weaving = Weaving(pick_mm=pick_mm, tail_mm=tail_mm, carry_picks=carry_picks, shuttles=shuttles)
    names = dict.fromkeys(_weft_colours(cloths), weft)
    _known("weft counts", weft_counts, names)
    _known("warp counts", warp_counts, [part.colour for part in colours])
    counts = names | dict(weft_counts or {})
    wefts = _weft_amounts(cloths, warp, weaving, counts, allowance)
    warps = tuple(
        _warp_amount(
            part, warp, count=(warp_counts or {}).get(part.colour, warp_yarn), allowance=allowance
        )
        for part in colours
    )
    return wefts + warps
