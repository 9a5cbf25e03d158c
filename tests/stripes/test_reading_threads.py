"""Spacing of the picks, of threads made for it."""

import numpy as np
import pytest

from palette.stripes.reading_slant import foreshortening
from palette.stripes.reading_threads import Threads, find_threads


def _cells(period, slope=0.0, height=900, cells=60, depth=0.1, uneven=0.02, seed=3):
    rng = np.random.default_rng(seed)
    place = np.linspace(-0.5, 0.5, height)
    turns = np.cumsum(np.exp(-slope * place)) / period
    turns = turns + np.interp(turns, np.arange(4 * height), rng.normal(0, uneven, 4 * height))
    wave = depth * np.cos(2 * np.pi * turns)
    stripes = np.repeat(rng.uniform(-1, 0, height // 30 + 1), 30)[:height]
    light = wave + stripes + rng.normal(0, 0.03, (cells, height))
    return np.repeat(light[..., None], 3, axis=2)


@pytest.mark.parametrize("period", [3.3, 4.7, 7.1, 11.4])
def test_spacing_is_found(period):
    found = find_threads(_cells(period))
    assert found.period == pytest.approx(period, rel=0.02)
    assert found.counted == found.period


@pytest.mark.parametrize("slope", [-0.12, 0.0, 0.15])
def test_slope_is_found(slope):
    assert find_threads(_cells(6.0, slope)).slope == pytest.approx(slope, abs=0.03)


def test_without_threads_nothing_is_counted():
    found = find_threads(_cells(6.0, depth=0.0))
    assert found.counted == 0
    assert found.window <= 4.5


def test_rows_beyond_the_picture_do_no_harm():
    cells = _cells(5.0)
    cells[:8, :40] = np.nan
    assert find_threads(cells).period == pytest.approx(5.0, rel=0.02)


def test_selvedges_tell_the_slant_before_threads_do():
    threads = Threads(period=5.0, strength=2.0, slope=-0.2, slope_doubt=0.02)
    assert foreshortening(threads, 0.03, 1000) == pytest.approx(0.06)
    faint = Threads(period=5.0, strength=1.0, slope=-0.2, slope_doubt=0.02)
    assert foreshortening(faint, None, 1000) == 0
