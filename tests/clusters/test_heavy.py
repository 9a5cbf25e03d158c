import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from palette.clusters.heavy import HEAVY, heavy_places


@given(st.integers(0, 2**32 - 1))
def test_every_mass_has_a_place_near_it(seed) -> None:
    generator = np.random.default_rng(seed)
    points = generator.uniform(0, 60, (200, 3))
    weights = generator.dirichlet(np.full(200, 0.05)) * 0.999 + 0.001 / 200
    places = heavy_places(points, weights)
    for heavy in points[weights >= HEAVY]:
        assert np.linalg.norm(places - heavy, axis=1).min() < 11  # cover, and a box of 4.5


def test_little_colours_have_none() -> None:
    points = np.array([[0.0, 0, 0], [50, 0, 0], [0, 50, 0]])
    places = heavy_places(points, np.array([0.96, 0.02, 0.02]))
    np.testing.assert_array_equal(places, points[:1])
