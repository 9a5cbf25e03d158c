"""Where grouping begins: colours split in two, again and again."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.clusters.splitting import split

CHANCE = np.random.default_rng(7)
THREE = np.array([[20.0, 0, 0], [50, 30, 0], [80, 0, 30]])
CLOUDS = (THREE[:, None] + CHANCE.normal(0, 2, (3, 200, 3))).reshape(-1, 3)


def test_clouds_that_stand_apart_are_told_apart() -> None:
    means = split(CLOUDS[:400], np.ones(400), 2)
    apart = np.linalg.norm(means[:, None] - THREE[None, :2], axis=2)
    assert apart.min(axis=0).max() < 1


@given(st.integers(1, 12), st.integers(0, 2**32 - 1))
def test_the_order_of_the_points_does_not_matter(count, seed) -> None:
    order = np.random.default_rng(seed).permutation(len(CLOUDS))
    weights = np.linspace(1, 2, len(CLOUDS))
    means = split(CLOUDS, weights, count)
    again = split(CLOUDS[order], weights[order], count)
    np.testing.assert_allclose(means, again, atol=1e-9)


@given(st.integers(1, 9))
def test_the_means_of_the_parts_make_up_that_of_the_whole(count) -> None:
    # Weighted by their parts: the parts are those nearest to the hyperplanes of the splits, so
    # only the mean of one group is told exactly; of more, that all lie within the points.
    means = split(CLOUDS, np.ones(len(CLOUDS)), count)
    assert len(means) == count
    assert (means >= CLOUDS.min(axis=0)).all()
    assert (means <= CLOUDS.max(axis=0)).all()
    if count == 1:
        np.testing.assert_allclose(means[0], CLOUDS.mean(axis=0))


def test_no_more_groups_than_colours() -> None:
    assert len(split(THREE, np.ones(3), 8)) == 3
    assert len(split(THREE[:1], np.ones(1), 8)) == 1


def test_stray_points_open_no_group() -> None:
    # One point in a thousand far away, against a cloud twice as wide as the others.
    points = np.concatenate([CHANCE.normal(0, 8, (999, 3)), [[90.0, 0, 0]]])
    means = split(points, np.ones(1000), 2)
    assert np.linalg.norm(means - [90.0, 0, 0], axis=1).min() > 60


def test_a_heavier_cloud_is_split_before_a_lighter_one_of_the_same_width() -> None:
    far = np.array([0.0, 60, 0])
    cloud = CHANCE.normal(0, 5, (500, 3))
    points = np.concatenate([cloud, cloud + far])
    means = split(points, np.repeat([3.0, 1.0], 500), 3)
    assert (means[:, 1] > 30).sum() == 1


@pytest.mark.parametrize("axis", range(3))
def test_a_line_of_colours_is_cut_across(axis) -> None:
    points = np.zeros((100, 3))
    points[:, axis] = np.arange(100)
    assert sorted(split(points, np.ones(100), 2)[:, axis].tolist()) == [24.5, 74.5]
