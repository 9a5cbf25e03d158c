"""Colour spaces: sRGB, CIE XYZ and CIELAB, all for illuminant D65 and the 2 degree observer.

These few lines are plain numpy on purpose. colour-science takes 1.8 s to load, and every command
shows colours; the conversions are closed formulas of two standards, and the tests hold them
against colour-science and scikit-image on random colours. Everything that is more than a closed
formula (differences, adaptation, spectra, Munsell) goes through colour-science.

The matrix is derived from the chromaticities of the standard instead of being copied at four
digits, so that a grey is exactly neutral.

References
----------
IEC 61966-2-1:1999, sRGB: primaries, white point and transfer curve.
CIE 15:2018, section 8.2.1: CIELAB.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.errors import InputError
from palette.photo.primaries import D65_XY, light_of, rgb_to_xyz_matrix

__all__ = [
    "D65_XYZ",
    "hex_to_lab",
    "lab_to_hex",
    "lab_to_linear_srgb",
    "lab_to_srgb8",
    "lab_to_xyz",
    "linear_srgb_to_lab",
    "linear_srgb_to_xyz",
    "linear_to_srgb",
    "srgb8_to_lab",
    "srgb_to_linear",
    "xyz_to_lab",
]

_SRGB_PRIMARIES_XY = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))
_KAPPA = 24389 / 27  # CIE 15:2018, exact form
_EPSILON = 216 / 24389
_GAMUT_TOLERANCE = 1 / 510  # half of one 8 bit code: what the hex cannot show anyway


D65_XYZ = light_of(D65_XY)
"""White of CIELAB D65 here: XYZ of shape (3,) with Y = 1."""


@cache
def _srgb_matrix() -> NDArray[np.float64]:
    return rgb_to_xyz_matrix(_SRGB_PRIMARIES_XY)


@cache
def _srgb_matrix_inverse() -> NDArray[np.float64]:
    return np.asarray(np.linalg.inv(_srgb_matrix()), dtype=np.float64)


def srgb_to_linear(srgb: ArrayLike) -> NDArray[np.float64]:
    """Undo the transfer curve of sRGB; values outside [0, 1] are mirrored about zero.

    Examples
    --------
    >>> srgb_to_linear([0.0, 0.5, 1.0]).round(4).tolist()
    [0.0, 0.214, 1.0]
    """
    values = np.asarray(srgb, dtype=float)
    size = np.abs(values)
    curve = ((np.maximum(size, 0.04045) + 0.055) / 1.055) ** 2.4
    return np.asarray(np.sign(values) * np.where(size <= 0.04045, size / 12.92, curve))


def linear_to_srgb(linear: ArrayLike) -> NDArray[np.float64]:
    """Apply the transfer curve of sRGB; values outside [0, 1] are mirrored about zero.

    Examples
    --------
    >>> linear_to_srgb([0.0, 0.2140411, 1.0]).round(4).tolist()
    [0.0, 0.5, 1.0]
    """
    values = np.asarray(linear, dtype=float)
    size = np.abs(values)
    curve = 1.055 * np.maximum(size, 0.0031308) ** (1 / 2.4) - 0.055
    return np.asarray(np.sign(values) * np.where(size <= 0.0031308, 12.92 * size, curve))


def xyz_to_lab(xyz: ArrayLike) -> NDArray[np.float64]:
    """CIELAB from XYZ (Y of white = 1), any leading shape.

    Parameters
    ----------
    xyz : array_like of shape (..., 3)
        Tristimulus values relative to D65; small negatives are carried through.

    Returns
    -------
    ndarray of shape (..., 3), L in [0, 100] for colours from black to white

    Examples
    --------
    >>> bool(np.allclose(xyz_to_lab(D65_XYZ), [100, 0, 0]))
    True
    """
    ratio = np.asarray(xyz, dtype=float) / D65_XYZ
    f = np.where(ratio > _EPSILON, np.cbrt(ratio), (_KAPPA * ratio + 16) / 116)
    fx, fy, fz = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)], axis=-1)


def lab_to_xyz(lab: ArrayLike) -> NDArray[np.float64]:
    """XYZ (Y of white = 1) from CIELAB, any leading shape.

    Examples
    --------
    >>> lab_to_xyz([100.0, 0.0, 0.0]).round(5).tolist()
    [0.95046, 1.0, 1.08906]
    """
    values = np.asarray(lab, dtype=float)
    fy = (values[..., 0] + 16) / 116
    f = np.stack([fy + values[..., 1] / 500, fy, fy - values[..., 2] / 200], axis=-1)
    return np.asarray(np.where(f > 6 / 29, f**3, (116 * f - 16) / _KAPPA) * D65_XYZ)


def linear_srgb_to_lab(linear: ArrayLike) -> NDArray[np.float64]:
    """CIELAB from linear sRGB in [0, 1] (values outside are carried through).

    Examples
    --------
    >>> round(float(linear_srgb_to_lab([1.0, 1.0, 1.0])[0]), 6)
    100.0
    """
    return xyz_to_lab(linear_srgb_to_xyz(linear))


def linear_srgb_to_xyz(linear: ArrayLike) -> NDArray[np.float64]:
    """XYZ (Y of white = 1) from linear sRGB in [0, 1].

    Examples
    --------
    >>> linear_srgb_to_xyz([0.0, 1.0, 0.0]).round(4).tolist()
    [0.3576, 0.7152, 0.1192]
    """
    return np.asarray(np.asarray(linear, dtype=float) @ _srgb_matrix().T)


def lab_to_linear_srgb(lab: ArrayLike) -> NDArray[np.float64]:
    """Linear sRGB from CIELAB, unclipped: outside [0, 1] where sRGB cannot show the colour.

    Examples
    --------
    >>> lab_to_linear_srgb([0.0, 0.0, 0.0]).tolist()
    [0.0, 0.0, 0.0]
    """
    return np.asarray(lab_to_xyz(lab) @ _srgb_matrix_inverse().T)


def srgb8_to_lab(rgb: ArrayLike) -> NDArray[np.float64]:
    """CIELAB from 8 bit sRGB codes, any leading shape.

    Parameters
    ----------
    rgb : array_like of uint8, or of whole numbers from 0 to 255, shape (..., 3)

    Returns
    -------
    ndarray of shape (..., 3)

    Raises
    ------
    InputError
        For other numbers: light from 0 to 1 is no code.

    Examples
    --------
    >>> srgb8_to_lab([93, 115, 58]).round(1).tolist()
    [45.5, -18.4, 28.8]
    """
    codes = np.asarray(rgb)
    if codes.dtype != np.uint8:
        if not (np.issubdtype(codes.dtype, np.integer) and ((codes >= 0) & (codes <= 255)).all()):
            rule = "must be whole numbers from 0 to 255"
            raise InputError(
                "sRGB codes", rule, got=f"{codes.dtype} {codes.min()} to {codes.max()}"
            )
        codes = codes.astype(np.uint8)
    return linear_srgb_to_lab(_linear_of_codes()[codes])


@cache
def _linear_of_codes() -> NDArray[np.float64]:
    return srgb_to_linear(np.arange(256) / 255)


def lab_to_srgb8(lab: ArrayLike) -> NDArray[np.uint8]:
    """8 bit sRGB codes from CIELAB, each channel clipped to what sRGB can show.

    Raises
    ------
    InputError
        Where a number is not finite.

    Examples
    --------
    >>> lab_to_srgb8([45.5, -18.4, 28.8]).tolist()
    [93, 115, 58]
    """
    values = _finite(lab)
    srgb = np.clip(linear_to_srgb(lab_to_linear_srgb(values)), 0, 1)
    return np.rint(srgb * 255).astype(np.uint8)


def lab_to_hex(lab: ArrayLike) -> tuple[str, bool]:
    """Nearest ``#rrggbb`` of one colour, and whether sRGB can show it.

    Parameters
    ----------
    lab : array_like of shape (3,)

    Returns
    -------
    hex : str
        Lower case ``#rrggbb``, clipped channel by channel.
    in_srgb : bool
        False where a channel had to be clipped by more than half a code.

    Examples
    --------
    >>> lab_to_hex([45.5, -18.4, 28.8])
    ('#5d733a', True)
    >>> lab_to_hex([87.0, -95.0, 85.0])[1]
    False
    """
    srgb = linear_to_srgb(lab_to_linear_srgb(_finite(lab)))
    inside = bool(np.all((srgb >= -_GAMUT_TOLERANCE) & (srgb <= 1 + _GAMUT_TOLERANCE)))
    red, green, blue = (int(code) for code in np.rint(np.clip(srgb, 0, 1) * 255))
    return f"#{red:02x}{green:02x}{blue:02x}", inside


def _finite(lab: ArrayLike) -> NDArray[np.float64]:
    values = np.asarray(lab, dtype=float)
    if not np.isfinite(values).all():
        raise InputError(
            "CIELAB", "must be finite numbers", got=f"{values[~np.isfinite(values)][0]}"
        )
    return values


def hex_to_lab(text: str) -> tuple[float, float, float]:
    """CIELAB of ``#rrggbb`` or ``#rgb``, with or without the hash.

    Raises
    ------
    InputError
        Where the text is not three or six hexadecimal digits.

    Examples
    --------
    >>> [round(value, 1) for value in hex_to_lab("#5d733a")]
    [45.5, -18.4, 28.8]
    """
    digits = text.strip().removeprefix("#")
    if len(digits) == 3:
        digits = "".join(2 * digit for digit in digits)
    if len(digits) != 6 or any(digit not in "0123456789abcdefABCDEF" for digit in digits):
        raise InputError(
            "colour", "must be written #rrggbb", got=repr(text), remedy="Write it like #5d733a."
        )
    lightness, a, b = srgb8_to_lab([int(digits[i : i + 2], 16) for i in (0, 2, 4)])
    return float(lightness), float(a), float(b)
