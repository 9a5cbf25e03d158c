"""Colours of photographs, gathered for grouping: measured, corrected, and some left out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.clusters.choosing import Map
from palette.errors import InputError
from palette.perception.device import codes_to_lab, codes_to_xyz
from palette.perception.even import lab_to_even
from palette.perception.light import Light, without_cast
from palette.perception.spaces import xyz_to_lab
from palette.photo.counting import count_colours
from palette.photo.photo import Photo

__all__ = ["LEAVE_OUT_REACH", "Taken", "measured", "take"]

LEAVE_OUT_REACH = 12.0
"""How near (about CIEDE2000) a colour must be to one that is left out, to go with it."""

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Taken:
    """Counted colours of one or more photographs.

    Attributes
    ----------
    labs : ndarray of shape (n, 3)
        CIELAB D65.
    even : ndarray of shape (n, 3)
        The same in the even space.
    weights : ndarray of shape (n,)
        They sum to 1; every photograph has the same part in them, whatever its size.
    maps : list of Map
        Where they lie, photograph by photograph.
    """

    labs: Points
    even: Points
    weights: Points
    maps: list[Map]


def measured(photo: Photo, codes: Points, light: Light | None = None) -> Points:
    """CIELAB D65 of device codes in [0, 1] of a photograph, with the cast of a light taken away.

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.zeros((1, 1, 3), dtype=np.uint8))
    >>> measured(leaf, np.ones((1, 3))).round(3).tolist()
    [[100.0, 0.0, 0.0]]
    """
    if light is None:
        return codes_to_lab(photo.profile, codes)
    return xyz_to_lab(without_cast(codes_to_xyz(photo.profile, codes), light))


def take(
    photos: tuple[Photo, ...],
    *,
    light: Light | None = None,
    leave_out: tuple[tuple[float, float, float], ...] = (),
) -> Taken:
    """Count and measure the colours of photographs.

    Parameters
    ----------
    photos : tuple of Photo
    light : Light, optional
    leave_out : tuple of CIELAB colours
        Colours that do not count, with everything within `LEAVE_OUT_REACH` of them.

    Returns
    -------
    Taken

    Raises
    ------
    InputError
        Where leaving colours out leaves nothing.
    """
    labs, evens, weights, maps = [], [], [], []
    first = 0
    for photo in photos:
        counted = count_colours(photo)
        lab = measured(photo, counted.codes, light)
        even = lab_to_even(lab)
        stays = _stays(even, leave_out)
        kept = counted.weights[stays]
        if not kept.sum() > 0:
            raise InputError(
                "--leave-out",
                "must leave something of every picture",
                got=f"colours that are all of {photo.name}",
                remedy="Leave out fewer colours.",
            )
        where = counted.where
        if not stays.all():
            where = np.append(np.where(stays, np.cumsum(stays) - 1, -1), -1)[where]
        maps.append(Map(where=where.astype(np.int32), first=first, last=first + len(kept)))
        labs.append(lab[stays])
        evens.append(even[stays])
        weights.append(kept / kept.sum() / len(photos))
        first += len(kept)
    return Taken(
        labs=np.concatenate(labs),
        even=np.concatenate(evens),
        weights=np.concatenate(weights),
        maps=maps,
    )


def _stays(even: Points, leave_out: tuple[tuple[float, float, float], ...]) -> NDArray[np.bool_]:
    stays = np.ones(len(even), dtype=bool)
    for lab in leave_out:
        stays &= ((even - lab_to_even(lab)) ** 2).sum(axis=1) > LEAVE_OUT_REACH**2
    return stays
