"""Codes of any RGB photograph as sRGB would have them, beyond its bounds too."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from palette.photo.profile import SRGB, Profile

__all__ = ["common_codes"]


def common_codes(codes: NDArray[Any], profile: Profile, top_code: int) -> NDArray[np.float32]:
    """Codes of sRGB for codes of another matrix profile.

    A scene saved in sRGB, in Display P3 and in Adobe RGB has other codes in each. Counted in
    boxes of its own codes, its colours fall together otherwise each time; counted in boxes of
    these, they do not.

    Parameters
    ----------
    codes : ndarray of shape (3, ...), unsigned
        From 0 to `top_code`.
    profile : Profile
        Of kind "matrix".
    top_code : int

    Returns
    -------
    ndarray of the same shape, float32
        0 to 1 within sRGB; below and above for colours outside it, on the curve of IEC 61966-2-1
        mirrored about 0 (as extended sRGB has it, IEC 61966-2-2).

    Examples
    --------
    >>> from palette.photo.profile import DISPLAY_P3
    >>> green = np.array([[[60]], [[250]], [[40]]], dtype=np.uint8)
    >>> common_codes(green, DISPLAY_P3, 255).ravel().astype(float).round(2).tolist()
    [-0.44, 1.0, -0.25]
    """
    every = np.arange(top_code + 1) / top_code
    light = np.stack(
        [
            curve.light(every).astype(np.float32)[plane]
            for curve, plane in zip(profile.curves, codes, strict=True)
        ]
    )
    across = np.linalg.solve(np.array(SRGB.matrix), np.array(profile.matrix)).astype(np.float32)
    linear = np.tensordot(across, light, axes=1)
    size = np.abs(linear)
    curved = np.float32(1.055) * size ** np.float32(1 / 2.4) - np.float32(0.055)
    curved = np.where(size > 0.0031308, curved, np.float32(12.92) * size)
    return np.asarray(np.copysign(curved, linear), dtype=np.float32)
