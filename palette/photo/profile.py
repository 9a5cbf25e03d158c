"""What the codes of a device mean: a colour profile as a value."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = [
    "ADOBE_RGB",
    "CMYK_WITHOUT_PROFILE",
    "D50_XYZ",
    "DISPLAY_P3",
    "GREY",
    "SRGB",
    "Curve",
    "Profile",
]

D50_XYZ = (0.9642, 1.0, 0.8249)
"""White of the profile connection space, ICC.1:2022, section 7.2.16."""

Matrix = tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """How one channel of a device turns codes into light.

    Attributes
    ----------
    table : tuple of float
        Light at evenly spaced codes, both in [0, 1]; empty where `parameters` are given.
    parameters : tuple of 7 float
        g, a, b, c, d, e, f of ``(a x + b)^g + e`` from d upwards and ``c x + f`` below
        (ICC.1:2022, table 68, function type 4; the shorter types are special cases of it).
    """

    table: tuple[float, ...] = ()
    parameters: tuple[float, ...] = (1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0)

    def light(self, codes: ArrayLike) -> NDArray[np.float64]:
        """Light in [0, 1] of codes in [0, 1], any shape.

        Examples
        --------
        >>> Curve(parameters=(2.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0)).light([0.5]).tolist()
        [0.25]
        """
        x = np.asarray(codes, dtype=float)
        if self.table:
            places = np.linspace(0, 1, len(self.table))
            return np.asarray(np.interp(x, places, self.table), dtype=np.float64)
        g, a, b, c, d, e, f = self.parameters
        upper = np.maximum(a * x + b, 0) ** g + e
        return np.asarray(np.where(x >= d, upper, c * x + f), dtype=np.float64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Meaning of the codes of one photograph.

    Attributes
    ----------
    name : str
        As a person would say it: "sRGB", "Display P3".
    kind : str
        "srgb" (exactly that standard), "matrix" (three curves and a matrix), "grey" (one
        curve), "table" (only the colour engine can read it; `icc` holds it), or "ink" (CMYK
        without a profile).
    channels : int
        1, 3 or 4.
    curves : tuple of Curve
        One for each channel of a "matrix" or "grey" profile.
    matrix : 3 rows of 3 float
        Linear RGB to XYZ of the connection space (D50).
    icc : bytes
        The profile itself, for "table".
    """

    name: str
    kind: str
    channels: int = 3
    curves: tuple[Curve, ...] = ()
    matrix: Matrix = ()
    icc: bytes = b""


_SRGB_CURVE = Curve(parameters=(2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045, 0.0, 0.0))
_ADOBE_CURVE = Curve(parameters=(563 / 256, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0))

SRGB = Profile(
    name="sRGB",
    kind="srgb",
    curves=(_SRGB_CURVE,) * 3,
    matrix=(
        (0.43607, 0.38515, 0.14307),
        (0.22249, 0.71687, 0.06061),
        (0.01392, 0.09708, 0.71410),
    ),
)
"""IEC 61966-2-1, colorants adapted to D50 as the registered profile gives them."""

DISPLAY_P3 = Profile(
    name="Display P3",
    kind="matrix",
    curves=(_SRGB_CURVE,) * 3,
    matrix=(
        (0.51512, 0.29198, 0.15710),
        (0.24120, 0.69225, 0.06657),
        (-0.00105, 0.04189, 0.78407),
    ),
)
"""Primaries of SMPTE RP 431-2 with D65 and the curve of sRGB, adapted to D50."""

ADOBE_RGB = Profile(
    name="Adobe RGB (1998)",
    kind="matrix",
    curves=(_ADOBE_CURVE,) * 3,
    matrix=(
        (0.60974, 0.20528, 0.14919),
        (0.31111, 0.62567, 0.06322),
        (0.01947, 0.06087, 0.74457),
    ),
)
"""Adobe RGB (1998) colour image encoding, annex, adapted to D50."""

GREY = Profile(name="grey with the curve of sRGB", kind="grey", channels=1, curves=(_SRGB_CURVE,))

CMYK_WITHOUT_PROFILE = Profile(name="CMYK without a profile", kind="ink", channels=4)
