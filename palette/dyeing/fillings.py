"""The fillings of a dye day: every bath gets its pot and its round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_day import Bath, DyeLot, MordantBath
from palette.dyeing.packing import rounds_of_pots

__all__ = ["in_rounds"]


def in_rounds(
    lots: Sequence[DyeLot],
    mordant_baths: Sequence[MordantBath],
    baths: Sequence[Bath],
    asked: DyeAsked,
) -> tuple[tuple[MordantBath, ...], tuple[Bath, ...]]:
    """Give every bath its pot and its round.

    A dye bath waits for the mordant baths that hold yarn of its lot, and an acid bath of mixed
    yarn for the reactive ones.

    Parameters
    ----------
    lots : sequence of DyeLot
        Each with the numbers of its baths.
    mordant_baths : sequence of MordantBath
    baths : sequence of Bath
    asked : DyeAsked
        For the pots, and how full they may be.

    Raises
    ------
    InputError
        A bath that no pot holds.
    """
    of_one_lot = {number: lot.baths for lot in lots for number in lot.baths}
    first = len(mordant_baths)
    after: list[tuple[int, ...]] = [()] * first
    for bath in baths:
        mordanted = [i for i, each in enumerate(mordant_baths) if bath.colour in each.colours]
        reactive = [
            first + i
            for i, each in enumerate(baths)
            if (each.dye_class, bath.dye_class) == ("reactive", "acid")
            and each.number in of_one_lot[bath.number]
        ]
        after.append((*mordanted, *reactive))
    volumes = [bath.volume_ml for bath in mordant_baths] + [bath.volume_ml for bath in baths]
    given = rounds_of_pots(tuple(volumes), asked.room_ml(), after=tuple(after))
    places = [(number, asked.pots_ml[pot]) for number, pot in given]
    return (
        tuple(
            replace(bath, round=number, pot_ml=pot)
            for bath, (number, pot) in zip(mordant_baths, places[:first], strict=True)
        ),
        tuple(
            replace(bath, round=number, pot_ml=pot)
            for bath, (number, pot) in zip(baths, places[first:], strict=True)
        ),
    )
