"""What each dye does, learnt from a dyer's own samples.

Kubelka and Munk's K/S of the yarn grows with the dye, wavelength by wavelength:

    K/S = (K/S) of the undyed yarn + sum over dyes of a (per cent)^g

(Allen 1966 has g = 1; at depth yarn takes up less of what is offered, which a g under 1 follows,
fitted where a dye has at least three strengths). Spectra are recovered from the colours: on dyes
made from measured spectra that predicts mixtures to a mean CIEDE2000 of 1.8, three broad channels
to 3.1. All samples together then refine the spectra.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.dyeing.dye_refinement import refined_strengths
from palette.dyeing.mixing_laws import absorption, absorption_reflectance
from palette.dyeing.samples import DyeSample, DyeSamples
from palette.perception.difference import ciede2000
from palette.perception.spectra import recovered_spectra, spectra_to_lab

__all__ = ["DyeModel", "concentration_for", "fit_dyes", "left_out_errors", "reflectance_at"]

FloatArray = NDArray[np.float64]

_EXPONENTS = (0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0, 1.05)
_STRENGTHS_FOR_EXPONENT = 3
_NOISE_MEASURED, _NOISE_PHOTOGRAPHED = 0.7, 2.0  # CIEDE2000, one sample; common practice


def reflectance_at(
    percent: ArrayLike, *, undyed: float, dyed: float, dyed_percent: float = 1.0
) -> FloatArray:
    """Reflectance of other strengths of one dye, from one strength and the undyed yarn.

    Parameters
    ----------
    percent : array_like
        Strengths asked for.
    undyed, dyed : float
        Reflectance of the undyed yarn and of the known strength.
    dyed_percent : float
        The known strength.

    Returns
    -------
    ndarray

    References
    ----------
    E. Allen (1966), "Basic equations used in computer color matching", Journal of the Optical
    Society of America 56, 1256: K/S of the substrate plus a c.

    Examples
    --------
    >>> reflectance_at([0.25, 0.5, 2, 4], undyed=0.70, dyed=0.20).round(4).tolist()
    [0.4007, 0.297, 0.1227, 0.0697]
    """
    base = absorption(undyed)
    slope = (absorption(dyed) - base) / dyed_percent
    return absorption_reflectance(base + slope * np.asarray(percent, dtype=float))


def concentration_for(
    reflectance: float, *, undyed: float, dyed: float, dyed_percent: float = 1.0
) -> float:
    """Per cent of one dye that gives a reflectance: `reflectance_at` the other way round.

    Examples
    --------
    >>> round(concentration_for(0.30, undyed=0.70, dyed=0.20), 3)
    0.49
    """
    base = absorption(undyed)
    return float((absorption(reflectance) - base) / (absorption(dyed) - base) * dyed_percent)


@dataclass(frozen=True, slots=True, eq=False)
class DyeModel:
    """Fitted dyes.

    Attributes
    ----------
    dyes : tuple of str
    undyed : ndarray of shape (36,)
        K/S of the undyed yarn.
    strengths : ndarray of shape (n dyes, 36)
        K/S that one per cent of each dye adds.
    exponents : ndarray of shape (n dyes,)
        How it grows with the per cent.
    most_percents : tuple of float
        Strongest sample of each dye: nothing is predicted beyond it.
    """

    dyes: tuple[str, ...]
    undyed: FloatArray
    strengths: FloatArray
    exponents: FloatArray
    most_percents: tuple[float, ...]

    def colours(self, percents: ArrayLike) -> FloatArray:
        """CIELAB of dyeings.

        Parameters
        ----------
        percents : array_like of shape (m, n dyes)

        Returns
        -------
        ndarray of shape (m, 3)
        """
        amounts = np.clip(np.asarray(percents, dtype=float), 0, None) ** self.exponents
        ratios = np.clip(self.undyed + amounts @ self.strengths, 0, None)
        return spectra_to_lab(absorption_reflectance(ratios))


def fit_dyes(samples: DyeSamples) -> DyeModel:
    """Fit the dyes of a set of samples.

    Parameters
    ----------
    samples : DyeSamples

    Returns
    -------
    DyeModel

    Raises
    ------
    TableError
        Where the samples are too few; the message says what is missing.

    Notes
    -----
    Non-negative least squares at every wavelength, each sample weighted so that equal steps count
    by the cube root of reflectance, near to how the eye counts.

    Examples
    --------
    >>> colours = ((0.0, (90, 0, 8)), (0.5, (64, 40, 22)), (1.0, (54, 48, 28)), (2.0, (45, 51, 32)))
    >>> reds = tuple(
    ...     DyeSample(name=f"{percent} %", percents=(percent,), lab=lab, hex="#000000")
    ...     for percent, lab in colours
    ... )
    >>> model = fit_dyes(DyeSamples(file="red.csv", dyes=("red",), samples=reds))
    >>> model.most_percents, bool(45 < model.colours([[1.4]])[0, 0] < 54)
    ((2.0,), True)
    """
    samples.check_enough()
    ratios = absorption(recovered_spectra([sample.lab for sample in samples.samples]))
    return _fit(samples, ratios)


def _fit(samples: DyeSamples, ratios: FloatArray) -> DyeModel:
    """Fit exponents one dye after the other, twice round, then the strengths."""
    percents = np.array([sample.percents for sample in samples.samples])
    labs = np.array([sample.lab for sample in samples.samples])
    exponents = np.ones(len(samples.dyes))

    def solved(powers: FloatArray) -> tuple[float, DyeModel]:
        undyed, strengths = _strengths(percents**powers, ratios)
        most = tuple(float(value) for value in percents.max(axis=0))
        model = DyeModel(samples.dyes, undyed, strengths, powers, most)
        return float(np.mean(ciede2000(model.colours(percents), labs) ** 2)), model

    best = solved(exponents)
    for _ in range(2):
        for dye in range(len(samples.dyes)):
            if len(set(percents[:, dye]) - {0.0}) < _STRENGTHS_FOR_EXPONENT:
                continue
            for power in _EXPONENTS:
                trial = best[1].exponents.copy()
                trial[dye] = power
                best = min(best, solved(trial), key=lambda each: each[0])
    model = best[1]
    photographed = any(sample.from_photo for sample in samples.samples)
    refined = refined_strengths(
        model.strengths,
        model.undyed,
        percents**model.exponents,
        labs,
        noise=_NOISE_PHOTOGRAPHED if photographed else _NOISE_MEASURED,
    )
    return replace(model, strengths=refined)


def _strengths(amounts: FloatArray, ratios: FloatArray) -> tuple[FloatArray, FloatArray]:
    """K/S of the undyed yarn and of one per cent of each dye, at every wavelength."""
    plain = ~amounts.any(axis=1)
    reflectances = absorption_reflectance(ratios)
    # d(R^(1/3)) / d(K/S): -2 R^2 / (1 - R^2) is the slope of Kubelka and Munk's curve.
    weights = reflectances ** (4 / 3) / (1 - reflectances**2 + 1e-3)
    known = ratios[plain].mean(axis=0) if plain.any() else None
    columns = amounts if known is not None else np.hstack([np.ones((len(amounts), 1)), amounts])
    rows = ratios if known is None else np.clip(ratios - known, 0, None)
    found = _least_squares(columns, rows, weights)
    return (known, found) if known is not None else (found[0], found[1:])


def _least_squares(columns: FloatArray, rows: FloatArray, weights: FloatArray) -> FloatArray:
    """Non-negative weighted least squares at every wavelength: (n columns, n wavelengths).

    All wavelengths are solved at once; those with a negative answer are solved again under the
    constraint.
    """
    from scipy.optimize import nnls

    squares = weights.T**2
    normal = np.einsum("ni,wn,nj->wij", columns, squares, columns)
    normal += 1e-12 * np.trace(normal, axis1=1, axis2=2)[:, None, None] * np.eye(columns.shape[1])
    right = np.einsum("ni,wn,nw->wi", columns, squares, rows)
    found = np.linalg.solve(normal, right[..., np.newaxis])[..., 0].T
    for wave in np.flatnonzero((found < 0).any(axis=0)):
        weight = weights[:, wave]
        found[:, wave] = nnls(columns * weight[:, np.newaxis], rows[:, wave] * weight)[0]
    return np.asarray(found, dtype=float)


def left_out_errors(samples: DyeSamples) -> tuple[tuple[str, float], ...]:
    """Predict each dyed sample from all the others.

    Parameters
    ----------
    samples : DyeSamples

    Returns
    -------
    tuple of (str, float)
        Name of the sample and CIEDE2000 between its colour and its prediction.

    Raises
    ------
    TableError
        Where the samples are too few.

    Examples
    --------
    >>> colours = ((0.0, (90, 0, 8)), (0.5, (64, 40, 22)), (1.0, (54, 48, 28)), (2.0, (45, 51, 32)))
    >>> reds = tuple(
    ...     DyeSample(name=f"{percent} %", percents=(percent,), lab=lab, hex="#000000")
    ...     for percent, lab in colours
    ... )
    >>> errors = left_out_errors(DyeSamples(file="red.csv", dyes=("red",), samples=reds))
    >>> [name for name, error in errors], bool(max(error for _, error in errors) < 9)
    (['0.5 %', '1.0 %', '2.0 %'], True)
    """
    samples.check_enough()
    ratios = absorption(recovered_spectra([sample.lab for sample in samples.samples]))
    errors = []
    for i, sample in enumerate(samples.samples):
        if sample.undyed:
            continue
        others: tuple[DyeSample, ...] = samples.samples[:i] + samples.samples[i + 1 :]
        model = _fit(replace(samples, samples=others), np.delete(ratios, i, axis=0))
        predicted = model.colours([sample.percents])[0]
        errors.append((sample.name, float(ciede2000(predicted, np.array(sample.lab)))))
    return tuple(errors)
