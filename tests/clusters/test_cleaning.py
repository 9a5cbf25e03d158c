import numpy as np

from palette.clusters.cleaning import clean_groups
from palette.clusters.grouping import nearest
from palette.clusters.typical import typical
from palette.perception.even import lab_to_even

GENERATOR = np.random.default_rng(8)
LEAF, EARTH = lab_to_even([[48.0, -20, 32], [40.0, 12, 20]])


def test_the_typical_colour_is_the_peak_and_not_the_mean() -> None:
    peak = LEAF + GENERATOR.normal(0, 1, (300, 3))
    tail = LEAF + np.array([25.0, 0, 0]) * GENERATOR.random((200, 1))
    points = np.concatenate([peak, tail])
    weights = np.ones(500)
    mean = points.mean(axis=0)
    found = typical(points, weights, mean)
    assert np.linalg.norm(found - LEAF) < 2 < np.linalg.norm(mean - LEAF)


def test_no_swatch_in_the_grey_between_two_colours() -> None:
    points = np.concatenate(
        [LEAF + GENERATOR.normal(0, 1, (300, 3)), EARTH + GENERATOR.normal(0, 1, (200, 3))]
    )
    weights = np.full(500, 1 / 500)
    [centre] = clean_groups(points, weights, 1).centres
    assert min(np.linalg.norm(centre - LEAF), np.linalg.norm(centre - EARTH)) < 3


def test_strewn_colours_get_no_swatch_and_are_told() -> None:
    strewn = GENERATOR.random((400, 3)) * [30, 60, 60] + [55, 5, -40]
    points = np.concatenate(
        [LEAF + GENERATOR.normal(0, 2, (300, 3)), EARTH + GENERATOR.normal(0, 2, (300, 3)), strewn]
    )
    weights = np.concatenate([np.full(600, 0.93 / 600), np.full(400, 0.07 / 400)])
    cleaned = clean_groups(points, weights, 3)
    far = nearest(cleaned.centres, np.array([LEAF, EARTH]))[1]
    assert far.max() < 8
    assert sum(part for _, part in cleaned.scattered) > 0.04


def test_two_swatches_are_never_the_same_yarn() -> None:
    points = LEAF + GENERATOR.normal(0, 0.6, (500, 3))
    centres = clean_groups(points, np.full(500, 1 / 500), 8).centres
    assert len(centres) < 4
    apart = np.linalg.norm(centres[:, None] - centres[None], axis=2)
    assert len(centres) == 1 or apart[~np.eye(len(centres), dtype=bool)].min() >= 2.5
