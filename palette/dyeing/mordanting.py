"""Alum baths for natural dyes: which lots share one, and what goes in."""

from __future__ import annotations

import math

from palette.dyeing.asked import DyeAsked
from palette.dyeing.assistants import alum_mordant
from palette.dyeing.baths import bath_ml
from palette.dyeing.dye_day import DyeLot, MordantBath
from palette.dyeing.lots import skeins_in_baths
from palette.dyeing.packing import pack

__all__ = ["mordant_baths_of"]


def mordant_baths_of(lots: tuple[DyeLot, ...], asked: DyeAsked) -> tuple[MordantBath, ...]:
    """Alum baths, shared by lots of one kind of fibre, each lot in one bath where it fits.

    Parameters
    ----------
    lots : tuple of DyeLot
    asked : DyeAsked

    Returns
    -------
    tuple of MordantBath
        Numbered from 1, those of wool and silk first; pots are given to them with the dye baths.
    """
    capacity = asked.largest_room_ml / asked.ratio_of("natural")
    found: list[MordantBath] = []
    for cellulose in (False, True):
        pieces = [
            (lot.colour, part)
            for lot in lots
            if (lot.fibre.share_of("cellulose") > 0.5) == cellulose
            for part in skeins_in_baths(lot, asked.ratio_of("natural"), asked)
        ]
        masses = tuple(math.fsum(part) for _, part in pieces)
        for indices in pack(masses, capacity):
            dry_g = math.fsum(masses[i] for i in indices)
            mordant = alum_mordant(
                dry_g,
                alum_percent=asked.alum_percent,
                tartar_percent=asked.tartar_percent,
                cellulose=cellulose,
            )
            bath = MordantBath(
                number=len(found) + 1,
                colours=tuple(dict.fromkeys(pieces[i][0] for i in indices)),
                skeins=sum(len(pieces[i][1]) for i in indices),
                dry_g=dry_g,
                volume_ml=bath_ml(dry_g, asked.ratio_of("natural")),
                assistants=mordant,
            )
            found.append(bath)
    return tuple(found)
