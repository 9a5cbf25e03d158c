"""How sure a reading is of every stripe, and what makes it doubt."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.stripes.cloth_photo_profile import ClothProfile, half_rows
from palette.stripes.reading_segments import running_mean
from palette.stripes.reading_sequence import Sequence
from palette.stripes.reading_yarns import yarn_distance

__all__ = ["doubts_of"]

Array = NDArray[np.float64]

_CLEAR = 6.0  # times the noise at which an edge is beyond doubt


def doubts_of(profile: ClothProfile, found: Sequence) -> list[tuple[float, str]]:
    """Confidence in each stripe, and the reason where it is low.

    Parameters
    ----------
    profile : ClothProfile
    found : Sequence

    Returns
    -------
    list of (float, str)
        The least of three: how clearly its colour differs from its neighbours', how clearly its
        yarn differs from the next nearest yarn, and how well the left and the right half of the
        picture agree on its colour.
    """
    count = len(found.yarns)
    widths = np.diff(found.edges)
    per_pick = max(found.rows_per_pick, 2.0)
    picks = np.maximum(widths / per_pick, 0.5)
    noise = found.noise_lab / np.sqrt(np.maximum(picks, 1))[:, None]
    apart = yarn_distance(found.labs)
    halves = _halves(profile, found)
    doubts = []
    for number in range(count):
        scale = float(np.linalg.norm(noise[number]))
        beside = [k for k in (number - 1, number + 1) if 0 <= k < count]
        clear = min((apart[number, k] for k in beside), default=99.0) / (_CLEAR * scale)
        yarn = _yarn_margin(found, number)
        agree = 1.6 - halves[number] / (4 * scale + 2.0)
        candidates = [
            (clear, "hardly differs from its neighbour"),
            (yarn, "could be another of the yarns"),
            (agree, "differs between the left and the right of the picture"),
            (picks[number] / 1.2, "is narrower than a pick or two"),
        ]
        least, why = min(candidates)
        confidence = float(np.clip(least, 0, 1))
        doubts.append((confidence, why if confidence < 0.5 else ""))
    return doubts


def _yarn_margin(found: Sequence, number: int) -> float:
    """Near 1 where a stripe is much nearer to its own yarn than to any other."""
    to_yarns = yarn_distance(np.vstack([found.labs[number], found.yarn_labs]))[0, 1:]
    own = found.yarns[number]
    others = np.delete(to_yarns, own)
    if not len(others):
        return 1.0
    return float((others.min() - to_yarns[own]) / (0.5 * others.min() + 1e-9))


def _halves(profile: ClothProfile, found: Sequence) -> Array:
    """Colour difference of each stripe between the left and the right half."""
    sides = []
    for rows in half_rows(profile):
        smooth = running_mean(np.exp(rows), max(found.rows_per_pick, 2.0))
        sides.append(found.colours_of(np.log(smooth)))
    change = sides[0] - sides[1]
    change -= np.median(change, axis=0)
    return np.asarray(np.linalg.norm(change, axis=1))
