"""Laws by which dyed fibres mix, wavelength by wavelength; reflectances are in [0, 1].

Stearns and Noechel's law is the one used for carded blends: of the plain laws it comes nearest to
measured blends (Wei, Wan and Li 2017: mean CIEDE2000 1.23 over 44 samples; a paper of 2025 in the
Textile Research Journal: 1.14 over 87 yarns). Kubelka and Munk's single constant is for dye on one
fibre; on blends it is far off (6.18 there).
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.mixing_law import BLEND_CONSTANT, mixing_function, reflectance

__all__ = [
    "BLEND_CONSTANTS",
    "FRIELE_WOOL",
    "Law",
    "absorption",
    "absorption_reflectance",
    "blend_reflectance",
    "friele_function",
    "friele_reflectance",
]

FloatArray = NDArray[np.float64]
Law = Literal["stearns-noechel", "friele", "kubelka-munk", "light"]

BLEND_CONSTANTS: dict[str, float] = {
    "wool": BLEND_CONSTANT,  # Stearns and Noechel 1944, from memory
    "viscose": 0.109,  # Davidson and Taylor, from memory
    "acrylic": 0.11,  # from memory
    "viscose melange": 0.136,  # Yang, Wang and Pan, Silk 2021 (9), rotor-spun
}
"""Constant M of Stearns and Noechel's law by fibre."""

FRIELE_WOOL = 0.28
"""Constant of Friele's law for wool (Friele 1952, from memory)."""


def absorption(reflectances: ArrayLike) -> FloatArray:
    """Kubelka and Munk's K/S = (1 - R)^2 / (2 R), which adds up with the amount of dye.

    Examples
    --------
    >>> absorption([0.5, 0.25, 0.1]).tolist()
    [0.25, 1.125, 4.05]
    """
    r = np.asarray(reflectances, dtype=float)
    return np.asarray((1 - r) ** 2 / (2 * r))


def absorption_reflectance(ratios: ArrayLike) -> FloatArray:
    """Reflectance of a K/S: R = 1 + q - sqrt(q^2 + 2 q).

    Examples
    --------
    >>> absorption_reflectance([1.0, 2.0]).round(6).tolist()
    [0.267949, 0.171573]
    """
    q = np.asarray(ratios, dtype=float)
    return np.asarray(1 / (1 + q + np.sqrt(q * (q + 2))))  # the same, without cancellation


def friele_function(reflectances: ArrayLike, *, constant: float = FRIELE_WOOL) -> FloatArray:
    """Friele's f = exp(-s (1 - R)^2 / (2 R)), which adds up by mass in a blend.

    Examples
    --------
    >>> friele_function([0.80, 0.05]).round(6).tolist()
    [0.993024, 0.079898]
    """
    return np.asarray(np.exp(-constant * absorption(reflectances)))


def friele_reflectance(mixed: ArrayLike, *, constant: float = FRIELE_WOOL) -> FloatArray:
    """Reflectance whose `friele_function` is `mixed`.

    Examples
    --------
    >>> round(float(friele_reflectance(0.5 * (0.993024 + 0.079898))), 4)
    0.159
    """
    return absorption_reflectance(-np.log(np.asarray(mixed, dtype=float)) / constant)


def blend_reflectance(
    reflectances: ArrayLike,
    shares: ArrayLike,
    *,
    law: Law = "stearns-noechel",
    constant: float | None = None,
) -> FloatArray:
    """Reflectance of a blend.

    Parameters
    ----------
    reflectances : array_like of shape (n parts, ...)
        Of each part.
    shares : array_like of shape (n parts,)
        By mass; they sum to 1.
    law : {"stearns-noechel", "friele", "kubelka-munk", "light"}
        "light" is the plain average of areas side by side.
    constant : float, optional
        M of Stearns and Noechel's law, or s of Friele's; wool's unless given.

    Returns
    -------
    ndarray of shape (...)

    References
    ----------
    E. I. Stearns and F. Noechel, American Dyestuff Reporter 33 (1944), 177.
    L. F. C. Friele, Journal of the Textile Institute 43 (1952).

    Examples
    --------
    >>> round(float(blend_reflectance([0.60, 0.10], [0.3, 0.7])), 5)
    0.14638
    """
    parts = np.asarray(reflectances, dtype=float)
    weights = np.asarray(shares, dtype=float)
    if law == "light":
        return np.asarray(np.tensordot(weights, parts, axes=1))
    if law == "kubelka-munk":
        return absorption_reflectance(np.tensordot(weights, absorption(parts), axes=1))
    if law == "friele":
        s = FRIELE_WOOL if constant is None else constant
        mixed = np.tensordot(weights, friele_function(parts, constant=s), axes=1)
        return friele_reflectance(mixed, constant=s)
    m = BLEND_CONSTANT if constant is None else constant
    return reflectance(
        np.tensordot(weights, mixing_function(parts, constant=m), axes=1), constant=m
    )
