"""From the codes of a device to CIELAB D65, through the profile of the photograph."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.perception.spaces import (
    D65_XYZ,
    lab_to_xyz,
    linear_srgb_to_lab,
    linear_srgb_to_xyz,
    srgb_to_linear,
    xyz_to_lab,
)
from palette.photo.icc import table_to_lab_d50
from palette.photo.primaries import BRADFORD
from palette.photo.profile import D50_XYZ, Profile

__all__ = ["codes_to_lab", "codes_to_xyz", "d50_to_d65"]


@cache
def d50_to_d65() -> NDArray[np.float64]:
    """Matrix of shape (3, 3) from XYZ of the connection space to XYZ under D65.

    Linear Bradford, the adaptation that profiles are made with, so that a picture in any
    profile with a D65 white comes back to its own numbers.

    Examples
    --------
    >>> (d50_to_d65() @ [0.9642, 1.0, 0.8249]).round(5).tolist()
    [0.95046, 1.0, 1.08906]
    """
    there, here = BRADFORD @ D50_XYZ, BRADFORD @ D65_XYZ
    return np.asarray(np.linalg.inv(BRADFORD) @ np.diag(here / there) @ BRADFORD)


def codes_to_lab(profile: Profile, codes: ArrayLike) -> NDArray[np.float64]:
    """CIELAB D65 of device codes.

    Parameters
    ----------
    profile : Profile
    codes : array_like of shape (n, channels)
        In [0, 1]; for CMYK, 1 is full ink.

    Returns
    -------
    ndarray of shape (n, 3)
        Unclipped: colours outside sRGB keep their numbers.

    Examples
    --------
    >>> from palette.photo.profile import DISPLAY_P3
    >>> codes_to_lab(DISPLAY_P3, [[0.0, 1.0, 0.0]]).round(1).tolist()
    [[86.6, -115.3, 107.7]]
    """
    values = np.asarray(codes, dtype=float)
    if profile.kind == "srgb":
        return linear_srgb_to_lab(srgb_to_linear(values))
    return xyz_to_lab(codes_to_xyz(profile, values))


def codes_to_xyz(profile: Profile, codes: ArrayLike) -> NDArray[np.float64]:
    """XYZ under D65 (Y of white = 1) of device codes; parameters as `codes_to_lab`.

    Examples
    --------
    >>> from palette.photo.profile import GREY
    >>> codes_to_xyz(GREY, [[1.0]]).round(4).tolist()
    [[0.9505, 1.0, 1.0891]]
    """
    values = np.asarray(codes, dtype=float)
    if profile.kind == "srgb":
        return linear_srgb_to_xyz(srgb_to_linear(values))
    if profile.kind == "ink":
        paper = 1 - values[:, :3]  # plain subtractive guess; the reader of the file has warned
        return linear_srgb_to_xyz(srgb_to_linear(paper * (1 - values[:, 3:])))
    if profile.kind == "table":
        return _pcs_lab_to_xyz(
            table_to_lab_d50(profile, np.rint(values * 255).astype(np.uint8))
        ) @ (d50_to_d65().T)
    light = np.stack([c.light(values[:, i]) for i, c in enumerate(profile.curves)], axis=1)
    if profile.kind == "grey":
        return np.asarray(light * D65_XYZ)
    return np.asarray(light @ np.array(profile.matrix).T @ d50_to_d65().T)


def _pcs_lab_to_xyz(lab: NDArray[np.float64]) -> NDArray[np.float64]:
    """XYZ of the connection space: the formula of CIELAB with the white swapped."""
    return np.asarray(lab_to_xyz(lab) / D65_XYZ * D50_XYZ)
