"""The parts of reading a cloth, each against what is known beforehand."""

import itertools

import numpy as np
import pytest

from palette.stripes.reading_light import light_from_slopes
from palette.stripes.reading_segments import cut, edges_between, pick_period, running_mean
from palette.stripes.reading_slant import unslanted
from palette.stripes.reading_yarns import same_yarns


def _every_cut(samples, price):
    """Cheapest cutting by trying all of them: the independent reckoning."""
    height = len(samples)
    best = (np.inf, None)
    for pattern in range(1 << (height - 1)):
        cuts = [0, *(k + 1 for k in range(height - 1) if pattern >> k & 1), height]
        parts = [samples[a:b] for a, b in itertools.pairwise(cuts)]
        cost = sum(((part - part.mean(axis=0)) ** 2).sum() for part in parts) + price * len(parts)
        best = min(best, (cost, cuts))
    return best[1]


@pytest.mark.parametrize("seed", range(5))
def test_cut_is_the_cheapest_of_all(seed):
    rng = np.random.default_rng(seed)
    samples = np.repeat(rng.normal(0, 4, (4, 1)), 3, axis=0) + rng.normal(0, 0.5, (12, 1))
    assert cut(samples, 1.0, 3.0, 0) == _every_cut(samples, 3.0)


def test_edges_do_not_move_with_blur():
    from scipy import ndimage

    light = np.repeat([[0.1] * 3, [0.6] * 3, [0.2] * 3], [30, 25, 45], axis=0)
    blurred = ndimage.gaussian_filter1d(light, 2.5, axis=0, mode="nearest")
    colours = np.array([[0.1] * 3, [0.6] * 3, [0.2] * 3])
    edges = edges_between(blurred, [0, 31, 54, 100], colours, 10.0)
    assert edges == pytest.approx([0, 30, 55, 100], abs=0.05)


@pytest.mark.parametrize("period", [4.0, 6.5, 11.0])
def test_pick_period(period):
    rng = np.random.default_rng(3)
    wave = 0.1 * np.cos(2 * np.pi * np.arange(800) / period)
    rows = np.stack([wave] * 3, axis=1) + rng.normal(0, 0.01, (800, 3))
    assert pick_period(rows)[0] == pytest.approx(period, rel=0.02)


def test_running_mean_takes_a_wave_of_its_length_out():
    wave = np.cos(2 * np.pi * np.arange(200) / 10)[:, None]
    assert np.abs(running_mean(wave, 10.0)[20:-20]).max() < 1e-9


def test_light_that_falls_by_half_is_found_under_stripes():
    rng = np.random.default_rng(4)
    colours = np.repeat(np.log(rng.uniform(0.1, 0.8, (20, 3))), 40, axis=0)
    light = np.log(np.linspace(1.0, 0.5, 800))
    found = light_from_slopes(colours + light[:, None], 3)
    assert np.abs(found - light).max() < 0.08


def test_same_yarns_by_the_gap():
    rng = np.random.default_rng(5)
    yarns = np.array([[40, 10, 10], [46, 10, 10], [70, 0, 20]])
    owner = [0, 1, 2, 0, 2, 1, 0]
    found, _ = same_yarns(yarns[owner] + rng.normal(0, 0.3, (7, 3)), np.ones(7))
    assert found == owner


def test_unslanting_undoes_a_growth_of_picks():
    slope, picks = 0.2, 100
    share = np.linspace(0, 1, picks + 1)
    seen = -np.log(1 - share * (1 - np.exp(-slope))) / slope * 500
    assert unslanted(seen, 500.0, slope) == pytest.approx(share * 500, abs=0.01)
