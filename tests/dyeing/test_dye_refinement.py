"""Spectra of dyes refined by all samples together."""

import numpy as np
import pytest

from palette.dyeing.dye_refinement import refined_strengths
from palette.perception.difference import ciede2000
from palette.perception.spectra import WAVELENGTHS_NM

AMOUNTS = np.array(
    [(c, 0, 0) for c in (0.3, 1, 2)] + [(0, c, 0) for c in (0.3, 1, 2)] + [(0.5, 0.5, 0.2)], float
)


def distorted(known_dyes) -> np.ndarray:
    """True strengths with a smooth error of up to a half."""
    nm = np.array(WAVELENGTHS_NM, dtype=float)
    return known_dyes.per_cent * np.exp(0.4 * np.sin(nm / 40 + np.arange(3)[:, np.newaxis]))


def test_samples_bring_the_strengths_nearer(known_dyes) -> None:
    wrong = distorted(known_dyes)
    labs = known_dyes.colours(AMOUNTS)
    better = refined_strengths(wrong, known_dyes.undyed, AMOUNTS, labs, noise=0.5)

    def error(strengths: np.ndarray) -> float:
        dyes = type(known_dyes)()
        truth = dyes.colours([(0.7, 0.2, 0.0), (0.2, 1.0, 0.1), (1.5, 1.0, 0.0)])
        dyes.per_cent = strengths
        guess = dyes.colours([(0.7, 0.2, 0.0), (0.2, 1.0, 0.1), (1.5, 1.0, 0.0)])
        return float(ciede2000(truth, guess).mean())

    assert error(better) < 0.25 * error(wrong)


def test_what_is_right_already_stays(known_dyes) -> None:
    labs = known_dyes.colours(AMOUNTS)
    kept = refined_strengths(known_dyes.per_cent, known_dyes.undyed, AMOUNTS, labs, noise=0.5)
    start = np.maximum(known_dyes.per_cent, 1e-4)
    assert kept == pytest.approx(start, rel=1e-2)


def test_samples_that_are_not_trusted_change_little(known_dyes) -> None:
    wrong = distorted(known_dyes)
    labs = known_dyes.colours(AMOUNTS)
    little = refined_strengths(wrong, known_dyes.undyed, AMOUNTS, labs, noise=1e3)
    assert little == pytest.approx(np.maximum(wrong, 1e-4), rel=1e-2)
