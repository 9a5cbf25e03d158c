"""Which shade of which weft lies where: the picks of a cloth as it will fall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.cloth.weft_yarns import PlainYarn, WeftYarn, pick_positions
from palette.errors import InputError
from palette.stripes.plan import StripePlan

__all__ = ["WeftShades", "weft_shades"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeftShades:
    """Shades of all picks over the columns of a picture; arrays, not to be kept.

    Attributes
    ----------
    labs : ndarray of shape (m, 3)
        Every shade of every weft, CIELAB D65.
    numbers : ndarray of int of shape (picks, columns) or (picks, 1)
        Shade of each pick at each column, left to right; one column where no weft changes.
    plies : dict
        By the number of a marled shade: its two plies (2, 3).
    """

    labs: NDArray[np.float64]
    numbers: NDArray[np.intp]
    plies: dict[int, NDArray[np.float64]]


def weft_shades(
    cloth: StripePlan,
    yarns: Mapping[str, WeftYarn] | None = None,
    *,
    columns: int,
    pick_length_mm: float,
    first_pick: int = 1,
    picks: int | None = None,
    left: float = 0.0,
    right: float = 1.0,
) -> WeftShades:
    """Lay every pick along its yarn.

    Parameters
    ----------
    cloth : StripePlan
    yarns : mapping of str to WeftYarn, optional
        By the stripes' colour names; a weft that is not named is plain, in its stripe's colour.
    columns : int
        Columns across the part shown.
    pick_length_mm : float
        Weft that one pick takes: that decides where a variegated yarn pools.
    first_pick, picks : int
        The part shown, along the cloth; all of it by default.
    left, right : float
        The part shown, across the cloth, in shares of its width.
    """
    given = dict(yarns or {})
    unknown = sorted(set(given) - set(cloth.colours))
    if unknown:
        rule = f"must be wefts of the cloth ({', '.join(cloth.colours)})"
        raise InputError("weft yarns", rule, got=", ".join(unknown))
    if not 0 < pick_length_mm < float("inf"):
        raise InputError("pick length", "must be more than 0", got=f"{pick_length_mm}")
    count = cloth.total_picks - first_pick + 1 if picks is None else picks
    across = left + (np.arange(columns) + 0.5) / columns * (right - left)
    changing = any(len(yarn.shades_lab()) > 1 for yarn in given.values())
    numbers = np.zeros((count, columns if changing else 1), dtype=np.intp)
    labs: list[NDArray[np.float64]] = []
    plies: dict[int, NDArray[np.float64]] = {}
    plain = {stripe.colour: PlainYarn(lab=stripe.lab) for stripe in cloth.stripes}
    for colour, own in pick_positions(cloth).items():
        yarn = given.get(colour, plain[colour])
        start = sum(map(len, labs))
        labs.append(yarn.shades_lab())
        if len(yarn.plies_lab()):
            plies[start] = yarn.plies_lab()
        order = np.flatnonzero((own >= first_pick - 1) & (own < first_pick - 1 + count))
        rows = own[order] - (first_pick - 1)
        if not changing or len(labs[-1]) == 1:
            numbers[rows] = start
            continue
        # The first pick of each weft is thrown from the right, the next comes back.
        travelled = np.where(order[:, np.newaxis] % 2 == 0, 1 - across, across)
        position = (order[:, np.newaxis] + travelled) * pick_length_mm
        numbers[rows] = start + yarn.shade_at(np.asarray(position, dtype=np.float64))
    return WeftShades(labs=np.concatenate(labs), numbers=numbers, plies=plies)
