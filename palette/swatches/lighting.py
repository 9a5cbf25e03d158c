"""The light of a photograph from a grey place in it."""

from __future__ import annotations

from palette.perception.device import codes_to_xyz
from palette.perception.light import Light
from palette.photo.photo import Photo
from palette.photo.selection import neutral_codes

__all__ = ["light_from_neutral"]


def light_from_neutral(photo: Photo, point: tuple[float, float]) -> Light:
    """Light of a photograph, from a place in it that is grey or white in truth.

    Parameters
    ----------
    photo : Photo
    point : (across, down)
        Shares of the width and the height of the whole picture, also where the photograph is
        only a region of it; a small window round the place is averaged in linear light.

    Returns
    -------
    Light

    Raises
    ------
    InputError
        Where the place is black, blown out or outside the picture.

    Examples
    --------
    >>> import numpy as np
    >>> warm = Photo(name="card", pixels=np.full((9, 9, 3), [180, 150, 110], dtype=np.uint8))
    >>> light_from_neutral(warm, (0.5, 0.5)).name
    'grey at 50,50 per cent'
    """
    xyz = codes_to_xyz(photo.profile, neutral_codes(photo, point)).mean(axis=0)
    x, _, z = (float(value) for value in xyz / xyz[1])
    return Light(
        name=f"grey at {point[0] * 100:g},{point[1] * 100:g} per cent", white_xyz=(x, 1.0, z)
    )
