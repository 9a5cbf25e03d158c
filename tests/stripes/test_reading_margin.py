"""The margin of a width: from the sharpness of its edges, its threads, and the slant."""

import numpy as np
import pytest
from scipy import stats

from palette.stripes.reading_margin import chance_of_miss, edge_errors
from palette.stripes.reading_settle import Explanation, Seen, settle, window_round
from palette.stripes.reading_smear import Smear, foretold

DARK, LIGHT, MIDDLE = [0.05, 0.05, 0.05], [0.6, 0.6, 0.6], [0.08, 0.08, 0.08]


def _explanation(*colours):
    light = {number: np.array(colour) for number, colour in enumerate(colours)}
    return Explanation(
        edges=np.linspace(0, 60 * len(colours), len(colours) + 1),
        yarns=list(light),
        colours=np.array(colours),
        yarn_light=light,
    )


def _seen(now, *, noise=1.0, bell=1.0, seed=None):
    rows = np.arange(now.edges[-1]) + 0.5
    smear = Smear(window=1.0, bell=bell, colour_bell=bell)
    lab = foretold(rows, now.edges[1:-1], now.colours, smear)
    if seed is not None:
        lab = lab + np.random.default_rng(seed).normal(0, noise, lab.shape)
    return Seen(lab=lab, variance=np.full(lab.shape, noise**2), smear=smear)


def test_soft_and_faint_edges_are_less_sure():
    now = _explanation(DARK, LIGHT, MIDDLE)
    sharp = np.sqrt(np.diag(edge_errors(_seen(now), now)))
    soft = np.sqrt(np.diag(edge_errors(_seen(now, bell=4.0), now)))
    assert (soft > sharp).all()
    faint = _explanation(DARK, MIDDLE, DARK)
    assert edge_errors(_seen(faint), faint)[0, 0] > edge_errors(_seen(now), now)[0, 0]


def test_errors_are_those_of_edges_that_settle_in_noise():
    # The bound of Cramer and Rao is reached by least squares in Gaussian noise.
    now = _explanation(DARK, MIDDLE)
    noise = 3.0
    told = float(np.sqrt(edge_errors(_seen(now, noise=noise), now)[0, 0]))
    places = []
    for seed in range(60):
        seen = _seen(now, noise=noise, seed=seed)
        window = window_round(seen, now, 0, 1)
        _, place = settle(seen, window, now.colours, now.edges[1:2], np.ones(1, dtype=bool))
        places.append(place[0])
    assert np.std(places) == pytest.approx(told, rel=0.3)


@pytest.mark.parametrize(("picks", "allowed"), [(10.0, 1.0), (100.0, 3.0)])
def test_chance_is_that_of_the_bell(picks, allowed):
    chance = chance_of_miss(np.array([picks]), np.array([0.8]))[0]
    assert chance == pytest.approx(2 * stats.norm.sf(allowed / 0.8))
