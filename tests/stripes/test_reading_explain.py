"""Explanations: alternatives are taken where they are better, and only there."""

import numpy as np
import pytest

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.reading_explain import alternatives, explained
from palette.stripes.reading_settle import Explanation, Seen, joined
from palette.stripes.reading_smear import Smear, foretold

YARNS = {
    0: np.array([0.1, 0.05, 0.3]),
    1: np.array([0.6, 0.5, 0.2]),
    2: np.array([0.2, 0.4, 0.1]),
}
SMEAR = Smear(window=4.0, bell=1.3, colour_bell=1.3)
NOISE = np.array([0.8, 0.5, 0.5])


def _sequence(yarns, widths):
    return Explanation(
        edges=np.concatenate([[0.0], np.cumsum(widths)]).astype(float),
        yarns=list(yarns),
        colours=np.array([YARNS[yarn] for yarn in yarns]),
        yarn_light=YARNS,
    )


def _seen(truth, seed=1):
    rows = np.arange(int(truth.edges[-1])) + 0.5
    lab = foretold(rows, truth.edges[1:-1], truth.colours, SMEAR)
    noise = np.random.default_rng(seed).normal(0, 0.4, lab.shape) * NOISE
    return Seen.of(lab + noise, NOISE, SMEAR)


TRUTH = _sequence([0, 1, 0, 2, 1, 2], [30, 24, 8, 40, 8, 30])


@pytest.mark.parametrize(
    ("yarns", "widths"),
    [
        ([0, 1, 0, 2, 1, 2], [33, 20, 9, 39, 10, 29]),  # edges off
        ([0, 1, 2, 1, 2], [30, 28, 44, 8, 30]),  # a narrow stripe missed
        ([0, 2, 1, 0, 2, 1, 2], [28, 4, 22, 8, 40, 8, 30]),  # a passage taken for a stripe
        ([0, 1, 0, 2, 0, 2], [30, 24, 8, 40, 8, 30]),  # another yarn in place of one
    ],
)
def test_wrong_beginnings_come_to_the_truth(yarns, widths):
    found = explained(_seen(TRUTH), _sequence(yarns, widths))
    assert found.yarns == TRUTH.yarns
    assert found.edges == pytest.approx(TRUTH.edges, abs=0.4)


def test_every_alternative_to_the_truth_is_worse():
    seen = _seen(TRUTH)
    found = explained(seen, TRUTH)
    for number in range(len(found.yarns)):
        for other in alternatives(seen, found, number):
            assert other.worse > 5


def test_clear_stripe_is_surer_than_one_of_a_near_yarn():
    near = {**YARNS, 1: YARNS[0] * 1.15}
    truth = _sequence([0, 1, 2], [40, 8, 40])
    truth.yarn_light = near
    truth.colours[1] = near[1]
    clear = _sequence([0, 1, 2], [40, 8, 40])
    worst = [
        min(other.worse for other in alternatives(_seen(case), case, 1)) for case in (truth, clear)
    ]
    assert worst[0] < worst[1]


def test_neighbours_of_one_yarn_are_joined():
    found = joined(_sequence([0, 0, 1], [10, 20, 30]))
    assert found.yarns == [0, 1]
    assert found.edges.tolist() == [0, 30, 60]
    assert len(linear_srgb_to_lab(found.colours)) == 2
