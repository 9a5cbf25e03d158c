import numpy as np

from palette.perception.difference import ciede2000
from palette.perception.even import even_to_lab, lab_to_even, local_scale
from palette.perception.spaces import srgb8_to_lab

GENERATOR = np.random.default_rng(9)
LABS = srgb8_to_lab(GENERATOR.integers(0, 256, (2000, 3)))


def test_there_and_back() -> None:
    np.testing.assert_allclose(even_to_lab(lab_to_even(LABS)), LABS, atol=1e-6)


def test_straight_distance_stands_for_ciede2000() -> None:
    other = LABS + GENERATOR.normal(0, 6, LABS.shape)
    other[:, 0] = other[:, 0].clip(0, 100)
    ratio = ciede2000(LABS, other) / np.linalg.norm(lab_to_even(LABS) - lab_to_even(other), axis=1)
    assert 0.95 < np.median(ratio) < 1.05
    assert np.mean((ratio > 2 / 3) & (ratio < 4 / 3)) > 0.97


def test_local_scale_brings_short_distances_nearer_still() -> None:
    even = lab_to_even(LABS)
    step = GENERATOR.normal(0, 1.5, even.shape)
    truth = ciede2000(LABS, even_to_lab(even + step))
    plain = np.abs(np.linalg.norm(step, axis=1) / truth - 1).mean()
    scaled = np.abs(np.linalg.norm(step * local_scale(even), axis=1) / truth - 1).mean()
    assert scaled < 0.6 * plain


def test_greys_stay_grey() -> None:
    even = lab_to_even(np.stack([np.linspace(0, 100, 11), np.zeros(11), np.zeros(11)], axis=1))
    assert np.abs(even[:, 1:]).max() < 1e-9
