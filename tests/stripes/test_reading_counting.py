"""Picks counted in threads: a stripe that was beaten more densely has more of them."""

import numpy as np
import pytest

from palette.stripes.reading_counting import beaten
from palette.stripes.reading_threads import Threads

PICKS = np.array([30, 40, 30, 50])
SPACING = np.array([6.0, 6.3, 6.0, 5.8])


def _cloth(seed=4, size=1.0):
    """Cells of stripes with known picks, and the rows at which they begin."""
    rng = np.random.default_rng(seed)
    spacing = np.repeat(SPACING * size, PICKS)
    places = np.concatenate([[0.0], np.cumsum(spacing)])
    height = int(places[-1])
    turns = np.interp(np.arange(height) + 0.5, places, np.arange(len(places)))
    light = 0.1 * np.cos(2 * np.pi * turns) + rng.normal(0, 0.02, (48, height))
    edges = np.concatenate([[0.0], np.cumsum(PICKS * SPACING * size)])
    return np.repeat(light[..., None], 3, axis=2), np.minimum(edges, height)


@pytest.mark.parametrize("size", [0.45, 0.6, 1.0, 2.0])
def test_uneven_beat_is_taken_out(size):
    # A pick of less than four rows turns by more than a right angle from row to row.
    cells, edges = _cloth(size=size)
    threads = Threads(period=6.0 * size, strength=2.0, slope=0.0, slope_doubt=0.1)
    length = np.diff(edges) / edges[-1]
    true = PICKS / PICKS.sum()
    counted = beaten(cells, edges, threads, 0.0, length)
    assert counted.sum() == pytest.approx(1)
    assert np.abs(counted - true).max() < 0.5 * np.abs(length - true).max()


def test_threads_that_cannot_be_seen_change_nothing():
    cells, edges = _cloth()
    faint = Threads(period=6.0, strength=1.0, slope=0.0, slope_doubt=0.1)
    length = np.diff(edges) / edges[-1]
    assert beaten(cells, edges, faint, 0.0, length) is length
