"""How sure a reading is of every stripe, and what makes it doubt.

A stripe is as sure as its best alternative is bad: the same stripes without it, with another yarn
in its place, or with a narrow stripe more beside it, each held against the picture. What no
sequence explains well, and colours nearly alike, are doubted as well; so is a width that may well
be off by more than a pick, and a stripe that the edge of the picture cuts.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.cloth_photo_profile import ClothProfile, half_rows
from palette.stripes.reading_explain import alternatives
from palette.stripes.reading_margin import chance_of_miss, width_errors
from palette.stripes.reading_segments import running_mean
from palette.stripes.reading_sequence import Sequence
from palette.stripes.reading_settle import misfits
from palette.stripes.reading_yarns import yarn_distance

__all__ = ["doubts_of"]

Array = NDArray[np.float64]
Doubt = tuple[float, str]

_BEYOND_DOUBT = 24.0  # half the logarithm of a likelihood ratio at which nothing is doubted
_USUAL_MISFIT, _LEAST_MISFIT = 5.0, 3.0
_ALIKE, _OWN = 3.6, 3.0  # CIELAB between yarns nearly alike, and from a stripe to its own yarn
_GROUND = 4.0  # CIELAB between the first stripe and what the cloth lies on
_SEEN_ONCE, _NARROW = 3.0, 1.4  # picks under which a colour seen once, or any, is doubted
_MISSED = 0.1  # chance of a width too far off at which it is doubted

_WIDTH = "may be more than a pick wider or narrower"
_CUT = (0.45, "runs out of the picture, and counts as far as it shows")
_WHY = {
    "without": "may be only the passage between its neighbours",
    "yarn": "could be another of the yarns",
    "more": "may have a narrow stripe beside it",
}


def doubts_of(
    profile: ClothProfile, found: Sequence, picks: Array, slope_error: float
) -> list[Doubt]:
    """Confidence in each stripe, and the reason where it is low.

    Parameters
    ----------
    profile : ClothProfile
    found : Sequence
    picks : ndarray of shape (stripes,)
        Widths that were read.
    slope_error : float
        Standard error of the slant that was taken out.

    Returns
    -------
    list of (float, str)
        Confidence from 0 to 1, the least of all grounds for doubt; the reason where it is under
        one half, else "".
    """
    against = _by_alternatives(found)
    unlike = _by_misfit(found)
    ends = _by_ends(profile, found)
    halves = _by_halves(profile, found)
    missed = chance_of_miss(picks, width_errors(found, picks, slope_error))
    doubts = []
    for number in range(len(found.yarns)):
        candidates = [
            against[number],
            unlike[number],
            ends[number],
            halves[number],
            _by_yarn(found, number),
            _by_width(found, number),
            (0.5 * _MISSED / max(float(missed[number]), 1e-9), _WIDTH),
        ]
        least, why = min(candidates)
        confidence = float(np.clip(least, 0, 1))
        doubts.append((confidence, why if confidence < 0.5 else ""))
    return doubts


def _by_alternatives(found: Sequence) -> list[Doubt]:
    """By how much the best alternative to each stripe is worse."""
    doubts = [(1.0, "")] * len(found.yarns)
    first = found.first_stripe
    for number in range(len(found.explanation.yarns)):
        for other in alternatives(found.seen, found.explanation, number):
            confidence = max(other.worse, 0.0) / _BEYOND_DOUBT
            beside = (number - 1, number) if other.kind == "more" else (number,)
            for place in beside:
                own = place - first
                if 0 <= own < len(doubts):
                    doubts[own] = min(doubts[own], (confidence, _WHY[other.kind]))
    return doubts


def _by_misfit(found: Sequence) -> list[Doubt]:
    """Doubt what no sequence of stripes explains: alternating picks, a fold, a stain."""
    costs = misfits(found.seen, found.explanation)
    own = costs[found.first_stripe : found.first_stripe + len(found.yarns)]
    bound = max(_USUAL_MISFIT * float(np.median(own)), _LEAST_MISFIT)
    return [(0.5 * bound / max(float(cost), 1e-9), "is not one even colour") for cost in own]


def _by_ends(profile: ClothProfile, found: Sequence) -> list[Doubt]:
    """First and last stripe: cut by the picture, like the ground, or perhaps the ground itself."""
    doubts = [(1.0, "")] * len(found.yarns)
    labs = linear_srgb_to_lab(found.explanation.colours)
    for end, (stripe, ground) in enumerate(((0, 0), (-1, -1))):
        if profile.ends[end] is None:
            doubts[stripe] = _CUT
        if found.explanation.yarns[ground] < 0:
            apart = float(np.linalg.norm(found.labs[stripe] - labs[ground]))
            doubts[stripe] = (0.5 * apart / _GROUND, "is much like what the cloth lies on")
        elif profile.ends[1 - end] is not None and all(profile.selvedges):
            doubts[stripe] = (0.4, "may be what the cloth lies on")
    return doubts


def _by_yarn(found: Sequence, number: int) -> Doubt:
    """Colours nearly alike, within a yarn or between two."""
    yarn = found.yarns[number]
    apart = yarn_distance(np.vstack([found.labs[number], found.yarn_labs]))[0, 1:]
    picks = (found.edges[number + 1] - found.edges[number]) / found.seen.smear.window
    own = 0.5 * _OWN / max(float(apart[yarn]), 1e-9) if picks > _SEEN_ONCE else 1.0
    others = np.delete(yarn_distance(found.yarn_labs)[yarn], yarn)
    near = 0.5 * float(others.min()) / _ALIKE if len(others) else 1.0
    return min((own, "differs from the others of its yarn"), (near, "is nearly like another yarn"))


def _by_width(found: Sequence, number: int) -> Doubt:
    """Stripes of a pick or two, the more so where their colour is seen nowhere else."""
    pick = found.rows_per_pick or found.seen.smear.window
    picks = float(found.edges[number + 1] - found.edges[number]) / pick
    once = found.yarns.count(found.yarns[number]) == 1
    narrow = 0.5 * picks / (_SEEN_ONCE if once else _NARROW)
    return (narrow, "is narrow, and its colour is seen once" if once else "is hardly a pick wide")


def _by_halves(profile: ClothProfile, found: Sequence) -> list[Doubt]:
    """Colour of each stripe in the left and the right half of the picture."""
    sides = []
    for rows in half_rows(profile):
        smooth = running_mean(np.exp(rows), found.seen.smear.window)
        sides.append(found.colours_of(np.log(smooth)))
    change = sides[0] - sides[1]
    change -= np.median(change, axis=0)
    picks = np.maximum(np.diff(found.edges) / found.seen.smear.window, 1.0)
    allowed = 2.0 + 4.0 * np.linalg.norm(found.noise_lab) / np.sqrt(picks)
    apart = np.linalg.norm(change, axis=1)
    why = "differs between the left and the right of the picture"
    return [(0.5 * float(a / b), why) for a, b in zip(1.2 * allowed, apart + 1e-9, strict=True)]
