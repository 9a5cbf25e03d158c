"""The threads of a weft as the picture shows them: how far apart, and how that changes along it.

The light and shade of the picks repeat from pick to pick. Power spectra of short stretches (after
Welch 1967) in groups of columns side by side are added up, so that a weft that wanders does no
harm, along lines on which the spacing grows or shrinks steadily: the foreshortening of a cloth
that is seen at a slant.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Threads", "find_threads"]

Array = NDArray[np.float64]

_LEAST_PX, _MOST_PX = 2.3, 28.0
_GROUPS = ((2.3, 6.5, 10), (5.5, 28.0, 34))  # spacing from, to, and cells in a group for it
_TOP = 0.55  # part of the highest peak above which another may be the picks
_DOUBLE = 0.8  # the same for twice the spacing, of which the peak may be the overtone
_STRETCH = 176  # rows
_PADDED = 2048
_MOST_SLOPE = 0.24
_SEEN = 1.0  # mean logarithm of power over its surroundings above which threads are seen
_CEILING = 4.0
_CLEAR = 1.3  # strength at which the picks are sure enough to count
_COARSE_PX, _CLEAR_COARSE = 14.0, 1.9  # the same for a spacing that stripes may have too
_SAFE_WINDOW, _BLIND_WINDOW = 4.5, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Threads:
    """Spacing of the picks.

    Attributes
    ----------
    period : float
        Rows from pick to pick in the middle; 0 where threads cannot be seen.
    strength : float
        How far the repetition stands out: logarithm of power over what surrounds it.
    slope : float
        Logarithm of the spacing at the last row as a part of that at the first.
    slope_doubt : float
        Standard error of the slope; infinite where it cannot be told.
    """

    period: float
    strength: float
    slope: float
    slope_doubt: float

    @property
    def clear(self) -> bool:
        """Whether the picks stand out enough to count by: stripes too may come at even distances.

        Stripes lie far apart, and seldom so evenly that a slope is found to them.
        """
        needed = _CLEAR if self.period < _COARSE_PX else _CLEAR_COARSE
        return self.period > 0 and self.strength >= needed and math.isfinite(self.slope_doubt)

    @property
    def counted(self) -> float:
        """Rows of a pick where it is seen clearly enough to count by, else 0."""
        return self.period if self.clear else 0.0

    @property
    def window(self) -> float:
        """Rows to smooth over: a pick, or less where what was found may be several."""
        if self.period <= 0:
            return _BLIND_WINDOW
        return self.period if self.clear else min(self.period, _SAFE_WINDOW)


def find_threads(cells: Array) -> Threads:
    """Find the spacing of the picks.

    Parameters
    ----------
    cells : ndarray of shape (cells, height, 3)
        Logarithm of light in narrow columns of the straightened cloth; NaN where not seen.

    Returns
    -------
    Threads
    """
    height = cells.shape[1]
    stretch = min(_STRETCH, height)
    if stretch < 48:
        return Threads(period=0.0, strength=0.0, slope=0.0, slope_doubt=np.inf)
    found = [_in_range(cells, stretch, *group) for group in _GROUPS]
    top = max(peaks[0][1] for peaks, _ in found if peaks) if any(p for p, _ in found) else 0.0
    if top < _SEEN:
        return Threads(period=0.0, strength=top, slope=0.0, slope_doubt=np.inf)
    period, strength, spectra = _picks(found, top)
    return _refined(period, strength, spectra)


Peak = tuple[float, float]
Spectra = tuple[Array, Array]


def _in_range(
    cells: Array, stretch: int, least: float, most: float, group: int
) -> tuple[list[Peak], Spectra]:
    """Peaks (spacing and strength, the strongest first) between two spacings."""
    spectra, places = _spectra(cells, stretch, group)
    frequency = np.asarray(np.fft.rfftfreq(_PADDED), dtype=np.float64)
    kept = np.flatnonzero((frequency > 1 / most) & (frequency < 1 / least))
    slopes = np.arange(-_MOST_SLOPE, _MOST_SLOPE + 0.001, 0.06)
    score = np.max([_along(spectra, frequency, places, slope, kept) for slope in slopes], axis=0)
    near = [score[max(0, k - 14) : k + 15].max() for k in range(len(score))]
    tops = [k for k in range(1, len(score) - 1) if score[k] == near[k] and score[k] > 0.5]
    peaks = sorted(((1 / frequency[kept[k]], float(score[k])) for k in tops), key=lambda p: -p[1])
    return peaks, (spectra, places)


def _picks(found: list[tuple[list[Peak], Spectra]], top: float) -> tuple[float, float, Spectra]:
    """Choose the peak of the picks: the closest spacing of the strong ones, not an overtone."""
    strong = sorted(
        (period, strength, number)
        for number, (peaks, _) in enumerate(found)
        for period, strength in peaks
        if strength >= max(_TOP * top, _SEEN)
    )
    period, strength, number = strong[0]
    for other, power, place in strong[1:]:
        if abs(other / period / 2 - 1) < 0.05 and power >= _DOUBLE * strength:
            period, strength, number = other, power, place
    return period, strength, found[number][1]


def _refined(period: float, strength: float, spectra: Spectra) -> Threads:
    """Spacing and slope at the top of the ridge round a peak."""
    power, places = spectra
    frequency = np.asarray(np.fft.rfftfreq(_PADDED), dtype=np.float64)
    kept = np.flatnonzero(np.abs(frequency * period - 1) < 0.12)
    slopes = np.arange(-_MOST_SLOPE, _MOST_SLOPE + 0.001, 0.02)
    scores = np.stack([_along(power, frequency, places, slope, kept) for slope in slopes])
    at_slope, _ = np.unravel_index(int(scores.argmax()), scores.shape)
    slope, doubt = _peak(slopes, scores.max(axis=1), int(at_slope))
    fine = _along(power, frequency, places, slope, kept)
    weight = np.clip(fine - 0.6 * fine.max(), 0, None)
    centre = float((frequency[kept] * weight).sum() / weight.sum())
    return Threads(period=1 / centre, strength=strength, slope=slope, slope_doubt=doubt)


def _spectra(cells: Array, stretch: int, group: int) -> tuple[Array, Array]:
    """Power over what surrounds it, as a logarithm, of stretches along the warp; and where."""
    light = np.nanmean(cells, axis=2) if np.isfinite(cells).all() else _filled(cells)
    groups = np.array_split(np.arange(len(light)), max(1, len(light) // group))
    height = light.shape[1]
    starts = np.unique(np.linspace(0, height - stretch, max(2, 2 * height // stretch)).astype(int))
    window = np.hanning(stretch)
    total = np.zeros((len(starts), _PADDED // 2 + 1))
    for own in groups:
        change = np.diff(light[own].mean(axis=0), prepend=0.0)
        change[0] = 0.0
        typical = 1.4826 * float(np.median(np.abs(change))) + 1e-9
        change = np.clip(change, -3.5 * typical, 3.5 * typical) / typical
        for number, start in enumerate(starts):
            part = change[start : start + stretch]
            total[number] += np.abs(np.fft.rfft((part - part.mean()) * window, _PADDED)) ** 2
    around = _surroundings(total)
    return np.clip(np.log(total / around), -1, _CEILING), (starts + stretch / 2) / height - 0.5


def _filled(cells: Array) -> Array:
    light = cells.mean(axis=2)
    seen = np.isfinite(light)
    middle = np.nanmedian(np.where(seen, light, np.nan), axis=0, keepdims=True)
    return np.where(seen, light, np.nan_to_num(middle))


def _surroundings(power: Array) -> Array:
    """Median power in a wide neighbourhood of each frequency."""
    from scipy import ndimage

    size = power.shape[1] // 5
    return np.asarray(ndimage.median_filter(power, size=(1, size), mode="nearest") + 1e-12)


def _along(
    spectra: Array, frequency: Array, places: Array, slope: float, kept: NDArray[np.intp]
) -> Array:
    """Mean power along the line on which the spacing changes by this slope."""
    step = frequency[1]
    total = np.zeros(len(kept))
    index = np.arange(spectra.shape[1])
    for own, place in zip(spectra, places, strict=True):
        total += np.interp(frequency[kept] * np.exp(-slope * place) / step, index, own)
    return np.asarray(total / len(places))


def _peak(slopes: Array, ridge: Array, top: int) -> tuple[float, float]:
    """Slope at the top of the ridge, and its standard error from how sharp the top is."""
    if not 0 < top < len(slopes) - 1:
        return float(slopes[top]), np.inf
    near = slice(max(0, top - 2), top + 3)
    curve, tilt, _ = np.polyfit(slopes[near] - slopes[top], ridge[near], 2)
    if curve >= 0:
        return float(slopes[top]), np.inf
    move = float(np.clip(-tilt / (2 * curve), -0.03, 0.03))
    spread = float(np.std(ridge - ridge.max()) + 0.05)
    return float(slopes[top]) + move, float(np.sqrt(0.02 * spread / -curve))
