import numpy as np
import pytest

from palette.clusters.choosing import Map, choose
from palette.clusters.grouping import nearest

GENERATOR = np.random.default_rng(6)
MASSES = np.array([[20.0, -6, 6], [34, -14, 14], [48, -18, 22], [66, -20, 30], [60, 4, 24]])
FLOWERS = np.array([[40.0, 34, 0], [80, 2, 4], [74, -2, 44]])


def bank() -> tuple[np.ndarray, np.ndarray, list[Map]]:
    """Five masses in bands, and three kinds of flowers strewn over them."""
    colours = np.concatenate([MASSES, FLOWERS])
    points = (colours[:, None] + GENERATOR.normal(0, 1.5, (8, 60, 3))).reshape(-1, 3)
    kind = np.repeat(np.arange(200) // 40, 300).reshape(200, 300)
    for index in range(60):
        row, column = index * 37 % 190, index * 101 % 290
        kind[row : row + 5, column : column + 5] = 5 + index % 3
    where = (kind * 60 + GENERATOR.integers(0, 60, kind.shape)).astype(np.int32)
    weights = np.bincount(where.ravel(), minlength=480) / where.size
    return points, weights, [Map(where=where, first=0, last=480)]


def test_eight_swatches_hold_five_masses_and_three_flowers() -> None:
    points, weights, maps = bank()
    choice = choose(points, weights, maps, 8)
    assert len(choice.centres) == 8
    assert choice.accents.sum() == 3
    assert nearest(FLOWERS, choice.centres[choice.accents])[1].max() < 2
    assert nearest(MASSES, choice.centres[~choice.accents])[1].max() < 2


@pytest.mark.parametrize("count", [1, 2, 3, 5, 8, 12])
def test_accents_are_at_most_a_third_or_one(count) -> None:
    choice = choose(*bank(), count)
    assert len(choice.centres) <= count
    assert choice.accents.sum() <= (count + 1) // 3


def test_an_accent_never_costs_a_mass_unlike_all_others() -> None:
    points, weights, maps = bank()
    choice = choose(points, weights, maps, 5)
    far = weights @ nearest(points, choice.centres)[1]
    none = weights @ nearest(points, choose(points, weights, maps, 5, accents=False).centres)[1]
    assert choice.accents.sum() >= 1
    assert far < 2 * none


def test_unasked_no_colour_of_some_mass_is_left_out() -> None:
    points, weights, maps = bank()
    choice = choose(points, weights, maps, None)
    assert nearest(np.concatenate([MASSES, FLOWERS]), choice.centres)[1].max() < 4
    assert "accents are counted on top" in choice.why
