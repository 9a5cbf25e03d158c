import os
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.clusters.grouping import gather, group, nearest
from palette.clusters.splitting import split

GENERATOR = np.random.default_rng(2)
BLOBS = np.array([[10.0, 0, 0], [40, 20, 0], [60, -20, 10], [80, 0, -20]])
POINTS = (BLOBS[:, None] + GENERATOR.normal(0, 1.5, (4, 200, 3))).reshape(-1, 3)
WEIGHTS = GENERATOR.random(800) / 400


def test_well_parted_groups_are_found() -> None:
    centres = group(POINTS, WEIGHTS, 4)
    assert nearest(BLOBS, centres)[1].max() < 0.5


def test_splitting_alone_finds_them_too() -> None:
    assert nearest(BLOBS, split(POINTS, WEIGHTS, 4))[1].max() < 0.5


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 9))
def test_order_of_the_points_does_not_matter(seed, count) -> None:
    order = np.random.default_rng(seed).permutation(len(POINTS))
    one = group(POINTS, WEIGHTS, count)
    other = group(POINTS[order], WEIGHTS[order], count)
    np.testing.assert_allclose(one, other, atol=1e-6)


def test_fewer_points_than_groups() -> None:
    assert len(group(np.array([[1.0, 2, 3], [1, 2, 3], [9, 9, 9]]), np.ones(3), 8)) == 2


def test_a_stray_point_pulls_little() -> None:
    points = np.concatenate([np.zeros((100, 3)), [[60.0, 0, 0]]])
    assert np.abs(group(points, np.ones(101), 1)).max() < 0.6  # the mean would be at 0.59 ...
    heavy = np.concatenate([np.ones(100), [20.0]])
    assert group(points, heavy, 1)[0, 0] < 3  # ... and here at 10


def test_fixed_centres_keep_their_points() -> None:
    fixed = BLOBS[:1]
    centres = group(POINTS, WEIGHTS, 3, start=BLOBS[1:], fixed=fixed)
    assert nearest(BLOBS[1:], centres)[1].max() < 0.5


@given(st.floats(0.5, 20))
def test_gathering_keeps_weight_and_mean(edge) -> None:
    means, sums = gather(POINTS, WEIGHTS, edge)
    assert sums.sum() == pytest.approx(WEIGHTS.sum())
    np.testing.assert_allclose(sums @ means, WEIGHTS @ POINTS)


@pytest.mark.parametrize("threads", ["1", "2"])
def test_the_number_of_threads_changes_nothing(threads) -> None:
    code = (
        "import numpy as np; from palette.clusters.grouping import group;"
        "g = np.random.default_rng(1); p = g.random((3000, 3)) * 80;"
        "print(group(p, g.random(3000), 8).tobytes().hex())"
    )
    environment = {**os.environ, "OMP_NUM_THREADS": threads, "OPENBLAS_NUM_THREADS": threads}
    run = subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True
    )
    generator = np.random.default_rng(1)
    points = generator.random((3000, 3)) * 80
    assert run.stdout.strip() == group(points, generator.random(3000), 8).tobytes().hex()


def test_boxes_without_weight_are_left_out() -> None:
    points = np.array([[0.0, 0, 0], [1, 0, 0], [50, 0, 0]])
    means, sums = gather(points, np.array([1.0, 0.0, 0.0]), 4.0)
    assert means.tolist() == [[0.0, 0.0, 0.0]]
    assert sums.tolist() == [1.0]
