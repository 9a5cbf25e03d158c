"""Munsell notation, for a dyer's notes."""

from __future__ import annotations

import warnings

import numpy as np
from numpy.typing import ArrayLike

from palette.perception.difference import is_neutral
from palette.perception.spaces import D65_XYZ, lab_to_xyz

__all__ = ["munsell_notations"]


def munsell_notations(labs: ArrayLike) -> tuple[str, ...]:
    """Munsell notation of CIELAB colours: hue, value / chroma.

    Parameters
    ----------
    labs : array_like of shape (n, 3)
        CIELAB D65; adapted to illuminant C, for which the system is defined (Bradford).

    Returns
    -------
    tuple of n str
        "5.0GY 4.0/4.0"; "N 5.0" for greys; "" for a colour beyond the renotation data.

    References
    ----------
    Newhall, Nickerson and Judd (1943), "Final report of the O.S.A. subcommittee on the spacing
    of the Munsell colors", Journal of the Optical Society of America 33, 385-418.

    Examples
    --------
    >>> munsell_notations([[51.0, 0.0, 0.0]])
    ('N 5.0',)
    """
    colours = np.asarray(labs, dtype=float).reshape(-1, 3)
    return tuple(_notation(lab) for lab in colours)


def _notation(lab: np.ndarray) -> str:
    import colour
    from colour.adaptation import matrix_chromatic_adaptation_VonKries

    if not 1 < lab[0] < 99.5:
        return "N 0.0" if lab[0] <= 1 else "N 10.0"
    with warnings.catch_warnings(), colour.domain_range_scale("reference"):
        warnings.simplefilter("ignore")  # remarks on extrapolation; the result is checked below
        white = colour.xy_to_XYZ(colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["C"])
        matrix = matrix_chromatic_adaptation_VonKries(D65_XYZ, white, transform="Bradford")
        xyy = colour.XYZ_to_xyY(np.asarray(matrix) @ lab_to_xyz(lab))
        if is_neutral(lab):
            value = colour.notation.munsell_value_ASTMD1535(xyy[2] * 100)
            return f"N {float(value):.1f}"
        try:
            return _spaced(str(colour.xyY_to_munsell_colour(xyy)))
        except (ValueError, RuntimeError, AssertionError):
            return ""


def _spaced(notation: str) -> str:
    return "" if "nan" in notation.lower() else notation
