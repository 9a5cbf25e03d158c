"""Which way the stripes of a cloth run, and how far from level."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.stripes.cloth_photo_light import Light, averaged, logarithm
from palette.stripes.reading_segments import pick_period, running_mean

__all__ = ["find_direction", "stripe_energy"]

_SMALL_SIDE_PX = 320
_LARGEST_DEGREES = 8.0
_STEP_DEGREES = 0.8
_BORDER = 0.17
_NO_TOP = 0.5  # worth of lines without an angle at which they are sharpest


def stripe_energy(small: NDArray[np.float32], degrees: float) -> float:
    """How sharply rows change once a picture is sheared level; largest at the true angle.

    Parameters
    ----------
    small : ndarray of shape (height, width, 3)
        Logarithm of light.
    degrees : float
        Angle that is tried: rows that go down to the right are positive.

    Returns
    -------
    float
        Mean square of the change of the row means over three pixels, in the median of three
        parts of the picture, so that one edge of a table does not decide.
    """
    height, width = small.shape[:2]
    shift = np.round((np.arange(width) - width / 2) * np.tan(np.deg2rad(degrees))).astype(int)
    margin = int(np.abs(shift).max())
    rows = np.arange(margin, height - margin)
    if len(rows) < 16:
        return 0.0
    level = small[rows[:, None] + shift[None, :], np.arange(width)[None, :]]
    parts = np.array_split(level, 3, axis=1)
    energies = []
    for part in parts:
        profile = part.mean(axis=1)
        change = profile[3:] - profile[:-3]
        energies.append(float(np.mean(np.sort((change**2).sum(axis=1)))))
    return float(np.median(energies))


def find_direction(light: Light, upright: bool | None = None) -> tuple[bool, float, float]:
    """Find the direction of the stripes.

    Parameters
    ----------
    light : ndarray of shape (height, width, 3)
        Linear light.
    upright : bool, optional
        Whether the stripes stand upright in the picture, where the person said so.

    Returns
    -------
    upright : bool
    degrees : float
        How far from level (or from upright) they run.
    lead : float
        How many times stronger they are than the best across them; near 1: a check, or none.
    """
    factor = max(1, min(light.shape[:2]) // _SMALL_SIDE_PX)
    small = logarithm(averaged(light, factor, None))
    steps = np.arange(-_LARGEST_DEGREES, _LARGEST_DEGREES + 0.01, _STEP_DEGREES)
    best: dict[bool, tuple[float, float]] = {}
    for turned in (False, True):
        picture = np.ascontiguousarray(small.transpose(1, 0, 2)) if turned else small
        middle = _central(picture)
        energies = np.array([stripe_energy(middle, float(step)) for step in steps])
        top = int(energies.argmax())
        seen = 1.0 if 0 < top < len(steps) - 1 else _NO_TOP
        best[turned] = (seen, _peak(steps, energies, top))
    worth = {way: seen * _worth(light, way, degrees) for way, (seen, degrees) in best.items()}
    chosen = worth[True] > worth[False] if upright is None else upright
    lead = worth[chosen] / max(worth[not chosen], 1e-12)
    return chosen, best[chosen][1], lead


def _worth(light: Light, turned: bool, degrees: float) -> float:
    """Change from stripe to stripe, the threads themselves smoothed away.

    Ends and picks make fine, even lines both ways; a stripe is what remains when the repeat of the
    thread is taken out.
    """
    picture = _central(light.transpose(1, 0, 2) if turned else light)
    height, width = picture.shape[:2]
    down = np.round((np.arange(width) - width / 2) * np.tan(np.deg2rad(degrees))).astype(int)
    margin = int(np.abs(down).max())
    rows = np.arange(margin, height - margin)
    if len(rows) < 32:
        return 0.0
    worths = []
    for columns in np.array_split(np.arange(width), 3):
        profile = logarithm(picture[rows[:, None] + down[columns], columns].mean(axis=1))
        period, strength = pick_period(profile.astype(float))
        smooth = running_mean(profile.astype(float), 2 * period if strength > 0.1 else 3.0)
        lag = max(3, round(len(rows) / 60))
        worths.append(float(((smooth[lag:] - smooth[:-lag]) ** 2).sum(axis=1).mean()))
    return float(np.median(worths))


def _central(picture: NDArray[np.float32]) -> NDArray[np.float32]:
    """Leave out the borders, where the cloth ends and what it lies on begins."""
    height, width = picture.shape[:2]
    down, across = round(height * _BORDER), round(width * _BORDER)
    return picture[down : height - down, across : width - across]


def _peak(steps: NDArray[np.float64], energies: NDArray[np.float64], top: int) -> float:
    """Top of the parabola through the best angle and its neighbours."""
    if not 0 < top < len(steps) - 1:
        return float(steps[top])
    before, here, after = energies[top - 1 : top + 2]
    curve = before - 2 * here + after
    move = 0.5 * (before - after) / curve if curve < 0 else 0.0
    return float(steps[top] + np.clip(move, -0.5, 0.5) * _STEP_DEGREES)
