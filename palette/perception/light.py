"""The light a photograph was taken in, and taking its cast away."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.errors import InputError
from palette.perception.spaces import D65_XYZ

__all__ = ["Light", "parse_light", "without_cast"]

_TRANSFORM = "Bradford"
_KELVIN = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*[kK]\s*")
_LEAST_K, _MOST_K = 1667.0, 25000.0  # span of the fit for the locus of black bodies (Kang 2002)
_LAMP_K, _DAYLIGHT_K = 4000.0, 5000.0  # IES TM-30-18: lamps up to here, daylight from there on
_OBSERVER = "CIE 1931 2 Degree Standard Observer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Light:
    """One light: what it is called, and the XYZ of a white in it.

    Attributes
    ----------
    name : str
    white_xyz : tuple of 3 float
        Y = 1.
    """

    name: str
    white_xyz: tuple[float, float, float]

    def __post_init__(self) -> None:
        """Refuse a white without light in it."""
        if not all(0 < value < 10 for value in self.white_xyz):
            raise InputError(
                "light", "must have a white with X, Y and Z over 0", got=f"{self.white_xyz}"
            )


def parse_light(text: str) -> Light:
    """Light from a CIE illuminant or a colour temperature.

    Parameters
    ----------
    text : str
        ``A``, ``D50``, ``F2``, ``LED-B3`` ..., or ``2700 K``.

    Returns
    -------
    Light

    Raises
    ------
    InputError
        Where there is no such illuminant, or the temperature is outside 1667 to 25000 K.

    Notes
    -----
    A temperature up to 4000 K is that of a lamp, on the locus of black bodies (Kang, Moon, Hong,
    Lee, Cho and Kim 2002, Journal of the Korean Physical Society 41, 865-871); from 5000 K on it
    is that of a phase of daylight (CIE 15:2018, 4.1.2), which is greener; between them a mixture
    of both, as IES TM-30-18 has it.

    Examples
    --------
    >>> [round(value, 3) for value in parse_light("A").white_xyz]
    [1.098, 1.0, 0.356]
    >>> parse_light("2700 K").name
    '2700 K'
    """
    import colour

    match = _KELVIN.fullmatch(text)
    if match:
        kelvin = float(match[1].replace(",", "."))
        if not _LEAST_K <= kelvin <= _MOST_K:
            raise InputError(
                "--light",
                f"must be from {_LEAST_K:.0f} to {_MOST_K:.0f} K",
                got=repr(text),
                remedy="Candles are near 1900 K, shade near 8000 K.",
            )
        return _from_xy(f"{kelvin:g} K", *_chromaticity(kelvin))
    illuminants = colour.CCS_ILLUMINANTS[_OBSERVER]
    names = {name.upper(): name for name in illuminants}
    name = names.get(
        text.strip().upper().replace("FL", "F").replace("F", "FL"), names.get(text.strip().upper())
    )
    if name is None:
        raise InputError(
            "--light",
            "must be a CIE illuminant or a colour temperature",
            got=repr(text),
            remedy="Write it like A, D50, F2 or 2700 K.",
        )
    x, y = illuminants[name]
    return _from_xy(text.strip(), float(x), float(y))


def _chromaticity(kelvin: float) -> tuple[float, float]:
    """Chromaticity of a lamp, or of daylight, of one colour temperature."""
    import colour

    lamp = np.asarray(colour.temperature.CCT_to_xy_Kang2002(kelvin), dtype=float)
    daylight = np.asarray(colour.temperature.CCT_to_xy_CIE_D(max(kelvin, _LAMP_K)), dtype=float)
    part = min(max((kelvin - _LAMP_K) / (_DAYLIGHT_K - _LAMP_K), 0.0), 1.0)
    x, y = (1 - part) * lamp + part * daylight
    return float(x), float(y)


def _from_xy(name: str, x: float, y: float) -> Light:
    return Light(name=name, white_xyz=(x / y, 1.0, (1 - x - y) / y))


def without_cast(xyz: ArrayLike, light: Light) -> NDArray[np.float64]:
    """XYZ as it would be under D65, by a published chromatic adaptation.

    Parameters
    ----------
    xyz : array_like of shape (..., 3)
        What the photograph holds, relative to a white of Y = 1.
    light : Light
        The light it was taken in: its white comes out neutral.

    Returns
    -------
    ndarray of shape (..., 3)

    References
    ----------
    Bradford transform: Lam (1985), "Metamerism and colour constancy", University of
    Bradford, in the linear form of colour-science.

    Examples
    --------
    >>> lamp = parse_light("A")
    >>> without_cast(lamp.white_xyz, lamp).round(5).tolist()
    [0.95046, 1.0, 1.08906]
    """
    import colour
    from colour.adaptation import matrix_chromatic_adaptation_VonKries

    with colour.domain_range_scale("reference"):
        matrix = matrix_chromatic_adaptation_VonKries(
            np.array(light.white_xyz), D65_XYZ, transform=_TRANSFORM
        )
    return np.asarray(np.asarray(xyz, dtype=float) @ np.asarray(matrix).T)
