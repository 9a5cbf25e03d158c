import numpy as np
import pytest

from palette.clusters.how_many import how_many

GENERATOR = np.random.default_rng(12)


@pytest.mark.parametrize("count", [1, 2, 3, 5, 7])
def test_well_parted_colours_are_counted(count) -> None:
    middles = np.array([[20 * i, 25 * (-1) ** i, 15 * (i % 3)] for i in range(count)], dtype=float)
    points = (middles[:, None] + GENERATOR.normal(0, 1.2, (count, 150, 3))).reshape(-1, 3)
    found, why = how_many(points, np.full(len(points), 1 / len(points)))
    assert found == count
    assert why.startswith("one more would ")


def test_a_single_colour() -> None:
    assert how_many(np.zeros((1, 3)), np.ones(1)) == (
        1,
        "the picture has no more colours than that",
    )
