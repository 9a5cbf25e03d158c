"""From the chromaticities of three primaries and a white to the matrix of a profile."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.photo.profile import D50_XYZ, Matrix

__all__ = ["BRADFORD", "BT_2020", "D65_XY", "light_of", "matrix_of", "rgb_to_xyz_matrix"]

Point = tuple[float, float]
Primaries = tuple[Point, Point, Point]

D65_XY: Point = (0.3127, 0.3290)
"""Chromaticity of D65 as Recommendation ITU-R BT.709 and IEC 61966-2-1 round it."""

BT_2020: Primaries = ((0.708, 0.292), (0.170, 0.797), (0.131, 0.046))
"""Primaries of Recommendation ITU-R BT.2020-2, table 3, whose white is D65."""

BRADFORD = np.array(
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]]
)
"""From XYZ to the responses of cones, sharpened: ICC.1:2022, annex E."""

_FLAT = 1e-6


def light_of(point: Point) -> NDArray[np.float64]:
    """XYZ of a chromaticity at Y = 1.

    Examples
    --------
    >>> light_of((0.25, 0.5)).tolist()
    [0.5, 1.0, 0.5]
    """
    x, y = point
    return np.array([x / y, 1.0, (1 - x - y) / y])


def rgb_to_xyz_matrix(primaries: Primaries, white: Point = D65_XY) -> NDArray[np.float64]:
    """Matrix that takes linear RGB to XYZ relative to its white.

    Parameters
    ----------
    primaries : three (x, y)
        Chromaticities of red, green and blue.
    white : (x, y)
        Of RGB (1, 1, 1).

    Returns
    -------
    ndarray of shape (3, 3)

    References
    ----------
    SMPTE RP 177-1993, "Derivation of basic television color equations".

    Examples
    --------
    >>> rgb_to_xyz_matrix(((0.64, 0.33), (0.3, 0.6), (0.15, 0.06)))[1].round(4).tolist()
    [0.2126, 0.7152, 0.0722]
    """
    columns = np.stack([light_of(point) for point in primaries], axis=1)
    return np.asarray(columns * np.linalg.solve(columns, light_of(white)))


def matrix_of(primaries: Primaries, white: Point = D65_XY) -> Matrix:
    """Linear RGB to XYZ of the profile connection space (D50).

    Parameters
    ----------
    primaries : three (x, y)
        Red, green and blue.
    white : (x, y)

    Returns
    -------
    3 rows of 3 float

    Raises
    ------
    ValueError
        Where the primaries lie on one line, or a y is not above 0: they span no colours.

    References
    ----------
    `rgb_to_xyz_matrix`, and the linear Bradford transform of ICC.1:2022, annex E, for the white.

    Examples
    --------
    >>> srgb = matrix_of(((0.64, 0.33), (0.30, 0.60), (0.15, 0.06)))
    >>> [round(sum(row), 4) for row in srgb]
    [0.9642, 1.0, 0.8249]
    """
    if not min(y for _, y in (*primaries, white)) > 0:
        raise ValueError("the primaries span no colours")
    try:
        matrix = rgb_to_xyz_matrix(primaries, white)
    except np.linalg.LinAlgError:
        matrix = np.zeros((3, 3))
    if not abs(np.linalg.det(matrix)) > _FLAT:
        raise ValueError("the primaries span no colours")
    cones = BRADFORD @ np.array(D50_XYZ) / (BRADFORD @ matrix.sum(axis=1))
    adapted = np.linalg.inv(BRADFORD) @ (cones[:, None] * (BRADFORD @ matrix))
    first, second, third = (tuple(row) for row in adapted.tolist())
    return (first, second, third)
