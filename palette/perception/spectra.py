"""Reflectance spectra behind colours: recovered from CIELAB, and turned back into it.

Fibres and dyes mix wavelength by wavelength, so a mix is reckoned on spectra. A colour alone does
not say which spectrum it has; it is recovered with a basis learnt from measured reflectances
(Otsu, Yamamoto and Hachisuka 2018), which predicts mixes of measured spectra better than every
other recovery that colour-science carries, and better than three broad channels. The comparison
is a test.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.perception.spaces import D65_XYZ, lab_to_xyz, xyz_to_lab

__all__ = ["WAVELENGTHS_NM", "recovered_spectra", "spectra_to_lab"]

WAVELENGTHS_NM: tuple[int, ...] = tuple(range(380, 731, 10))
"""Wavelengths of every spectrum here, in nanometres: those of the basis."""

DARKEST, BRIGHTEST = 0.001, 0.999
"""Reflectances are kept between these: no yarn absorbs or returns everything."""


@cache
def _weights() -> NDArray[np.float64]:
    """Weights of shape (n wavelengths, 3) that turn a reflectance into XYZ relative to D65."""
    import colour

    shape = colour.SpectralShape(WAVELENGTHS_NM[0], WAVELENGTHS_NM[-1], 10)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape)
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(shape)
    weights = np.asarray(observer.values * light.values[:, np.newaxis], dtype=float)
    return np.asarray(weights / weights.sum(axis=0) * D65_XYZ)


@cache
def _basis() -> Any:  # noqa: ANN401 - a class of a library without types
    """Basis of the recovery: means and principal components, by region of chromaticity."""
    from colour.recovery.otsu2018 import DATASET_REFERENCE_OTSU2018

    return DATASET_REFERENCE_OTSU2018


def _recovered(xyz: NDArray[np.float64]) -> NDArray[np.float64]:
    """Mean of the region and three components, so that the colour is met."""
    total = xyz.sum()
    white = D65_XYZ / D65_XYZ.sum()
    components, mean = _basis().cluster(xyz[:2] / total if total > 0 else white[:2])
    colours = components @ _weights()
    return np.asarray(mean + np.linalg.solve(colours.T, xyz - mean @ _weights()) @ components)


def recovered_spectra(labs: ArrayLike) -> NDArray[np.float64]:
    """Reflectance spectra that look like the given colours under D65.

    Parameters
    ----------
    labs : array_like of shape (n, 3)
        CIELAB D65, 2 degree observer.

    Returns
    -------
    ndarray of shape (n, 36)
        Reflectances in (0, 1) at `WAVELENGTHS_NM`. Their colour is the given one to about
        CIEDE2000 0.3 for dyed things; a colour that no reflectance has is met as nearly as
        clipping allows.

    References
    ----------
    Otsu, Yamamoto and Hachisuka (2018), "Reproducing Spectral Reflectances From Tristimulus
    Colours", Computer Graphics Forum 37, 370-381; through colour-science.

    Examples
    --------
    >>> spectra = recovered_spectra([[45.0, -20.0, 30.0], [40.0, 40.0, 30.0]])
    >>> spectra.shape, [WAVELENGTHS_NM[i] for i in spectra[:, 8:30].argmax(axis=1) + 8]
    ((2, 36), [530, 670])
    """
    xyzs = lab_to_xyz(np.atleast_2d(np.asarray(labs, dtype=float)))
    spectra = np.array([_recovered(xyz) for xyz in xyzs])
    return np.asarray(np.clip(spectra, DARKEST, BRIGHTEST))


def spectra_to_lab(reflectances: ArrayLike) -> NDArray[np.float64]:
    """CIELAB of reflectance spectra under D65.

    Parameters
    ----------
    reflectances : array_like of shape (..., 36)
        At `WAVELENGTHS_NM`.

    Returns
    -------
    ndarray of shape (..., 3)

    Examples
    --------
    >>> spectra_to_lab(np.ones(len(WAVELENGTHS_NM))).round(6).tolist()
    [100.0, 0.0, 0.0]
    """
    return xyz_to_lab(np.asarray(reflectances, dtype=float) @ _weights())
