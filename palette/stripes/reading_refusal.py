"""Pictures that are not of a striped cloth, told by how they change along and across the lines."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.errors import PhotoError
from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_light import DARKEST
from palette.stripes.cloth_photo_profile import ClothProfile
from palette.stripes.reading_values import ReadStripe

__all__ = ["check_read", "check_striped", "striped_share"]

_GROUPS = 12  # side by side
_BANDS = 200  # one below the other
_STRIPED = 0.45  # rendered cloths come to 0.93 and more, photographs of other things to under 0.4
_PLAIN = 2.0  # CIELAB: a cloth that changes by less is of one colour
_FEWEST = 8  # stripes
_UNSURE = 0.6  # part of the stripes
_ONCE = 0.55  # yarns as a part of the stripes: an old cloth comes back to its yarns
_RULE = "must show a cloth with stripes from side to side"
_REMEDY = (
    "Give a photograph of a striped cloth, seen from straight above; where it is only a part of "
    "the picture, name that with --region."
)


def striped_share(profile: ClothProfile) -> float:
    """Give the part of the change of colour in a cloth that goes from stripe to stripe.

    The cloth is looked at in parts side by side, each against its own level, so that light and
    the stripes of a warp do not count. In a striped cloth all parts change alike along the warp.

    Parameters
    ----------
    profile : ClothProfile

    Returns
    -------
    float
        From 0, where the parts have nothing in common, to 1; 1 too where there is no change.
    """
    start, stop = profile.ends
    cells = np.exp(profile.cells[:, start:stop])
    rows = max(1, round(max(profile.threads.window, cells.shape[1] / _BANDS)))
    parts = [_banded(group, rows) for group in np.array_split(cells, min(len(cells), _GROUPS))]
    labs = linear_srgb_to_lab(np.maximum(np.stack(parts) - DARKEST, 0))
    labs = labs - np.nanmedian(labs, axis=1, keepdims=True)
    common = np.nanmedian(labs, axis=0)
    along = float(((common - common.mean(axis=0)) ** 2).sum(axis=1).mean())
    across = float(np.nanmean(((labs - common) ** 2).sum(axis=2)))
    return along / (along + across) if along + across > _PLAIN**2 else 1.0


def _banded(cells: NDArray[np.float64], rows: int) -> NDArray[np.float64]:
    """Mean of every so many rows; what lies beyond the picture takes the mean of the rest."""
    seen: NDArray[np.bool_] = np.asarray(np.isfinite(cells).all(axis=2), dtype=np.bool_)
    light = np.where(seen[..., None], cells, 0.0).sum(axis=0)
    count = seen.sum(axis=0).astype(float)
    bands = np.arange(0, len(count), rows)
    light, count = np.add.reduceat(light, bands), np.add.reduceat(count, bands)
    mean = light.sum(axis=0) / max(float(count.sum()), 1.0)
    return np.where(count[:, None] > 0, light / np.maximum(count, 1.0)[:, None], mean)


def check_striped(profile: ClothProfile, *, thing: str) -> ClothProfile:
    """Give a profile back, or refuse it: its colours change along the lines as across them.

    Raises
    ------
    PhotoError
    """
    if striped_share(profile) < _STRIPED:
        got = "colours that change along the lines as much as across them"
        raise PhotoError(thing, _RULE, got=got, remedy=_REMEDY)
    return profile


def check_read(stripes: tuple[ReadStripe, ...], *, thing: str) -> tuple[ReadStripe, ...]:
    """Give stripes back, or refuse them: most are unsure, and few colours come again.

    Raises
    ------
    PhotoError
    """
    yarns = len({stripe.colour for stripe in stripes})
    unsure = sum(bool(stripe.doubt) for stripe in stripes)
    many, vague = yarns >= _ONCE * len(stripes), unsure >= _UNSURE * len(stripes)
    if len(stripes) >= _FEWEST and many and vague:
        got = f"{len(stripes)} bands in {yarns} colours, {unsure} of them unsure"
        raise PhotoError(thing, _RULE, got=got, remedy=_REMEDY)
    return stripes
