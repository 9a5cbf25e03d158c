import numpy as np
import pytest

from palette.clusters.accents import find_accents
from palette.clusters.heavy import heavy_places
from palette.clusters.hues import hue_distance

GENERATOR = np.random.default_rng(4)
GREENS = np.array([40.0, -15, 20]) + GENERATOR.normal(0, 4, (500, 3))
RED = np.array([45.0, 40, 20])
POINTS = np.concatenate([GREENS, RED + GENERATOR.normal(0, 1.0, (20, 3))])


def scene(mask: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Map of a green picture with red where the mask is, and the weight of each box."""
    where = GENERATOR.integers(0, 500, mask.shape).astype(np.int32)
    where[mask] = GENERATOR.integers(500, 520, int(mask.sum()))
    weights = np.bincount(where.ravel(), minlength=len(POINTS)) / where.size
    return where, weights


def disc(rows: int, columns: int, radius: float) -> np.ndarray:
    down, across = np.ogrid[:rows, :columns]
    return (down - rows / 3) ** 2 + (across - columns / 2) ** 2 < radius**2


@pytest.mark.parametrize("radius", [6, 9, 15])
def test_a_joined_patch_is_found(radius) -> None:
    where, weights = scene(disc(200, 300, radius))
    [accent] = find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)
    assert np.linalg.norm(accent.centre - RED) < 1.5
    assert accent.part == pytest.approx(np.pi * radius**2 / 60000, rel=0.2)


@pytest.mark.parametrize("part", [0.001, 0.005, 0.01])
def test_speckle_is_not(part) -> None:
    where, weights = scene(GENERATOR.random((200, 300)) < part)
    assert not find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)


def test_a_patch_under_a_thousandth_is_not() -> None:
    where, weights = scene(disc(200, 300, 3.5))
    assert not find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)


def test_several_pieces_together_are_found() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    for row, column in ((20, 30), (90, 200), (150, 100), (60, 120), (170, 260)):
        mask[row : row + 6, column : column + 6] = True
    where, weights = scene(mask)
    assert len(find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)) == 1


def test_a_colour_of_the_bulk_is_no_accent() -> None:
    where, weights = scene(disc(200, 300, 60))
    assert not find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)


def test_the_tail_of_the_greens_is_no_accent() -> None:
    tail = np.array([40.0, -15, 20]) + np.linspace(0, 30, 30)[:, None] * [1, 0.1, 0.2]
    points = np.concatenate([GREENS, tail])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    where[:20, :150] = np.arange(150)[None] // 5 + 500  # shading from leaf to light
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    assert not find_accents(points, weights, where, heavy_places(points, weights), most=3)


def test_no_more_than_asked() -> None:
    where, weights = scene(disc(200, 300, 9))
    assert not find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=0)


def test_flowers_strewn_over_the_picture_are_one_accent() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    for row, column in zip(range(10, 190, 12), (k * 83 % 280 + 5 for k in range(15)), strict=True):
        mask[row : row + 5, column : column + 5] = True
    where, weights = scene(mask)
    [accent] = find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)
    assert np.linalg.norm(accent.centre - RED) < 1.5
    assert accent.part == pytest.approx(mask.mean(), rel=0.1)


@pytest.mark.parametrize("dot", [1, 2, 3])
def test_strewn_dots_are_not(dot) -> None:
    dots = GENERATOR.random((200 // dot, 300 // dot)) < 0.008
    mask = np.zeros((200, 300), dtype=bool)
    grown = dots.repeat(dot, axis=0).repeat(dot, axis=1)
    mask[: grown.shape[0], : grown.shape[1]] = grown
    where, weights = scene(mask)
    assert not find_accents(POINTS, weights, where, heavy_places(POINTS, weights), most=3)


def test_near_black_is_no_accent_for_a_peak() -> None:
    black = np.array([4.0, 0, 0]) + np.linspace(0, 1, 20)[:, None] * [1, 0, 0]
    shade = np.array([4.0, 0, 0]) + np.linspace(0, 36, 40)[:, None] * [1, -0.4, 0.5]
    points = np.concatenate([GREENS, black, shade])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    where[:30, :300] = GENERATOR.integers(520, 560, (30, 300))
    where[100:112, 100:130] = GENERATOR.integers(500, 520, (12, 30))
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    assert not find_accents(points, weights, where, heavy_places(points, weights), most=3)


def test_a_thing_of_another_hue_is_found_with_its_sheen_and_its_dark_side() -> None:
    sheen = np.linspace(0.75, 1.3, 20)[:, None] * [45.0, 40, 20]  # dark red to light red
    points = np.concatenate([GREENS, sheen])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    where[60:76, 100:120] = 500 + np.arange(20)[None]
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    [accent] = find_accents(points, weights, where, heavy_places(points, weights), most=3)
    assert hue_distance(accent.centre[None], RED[None])[0] < 3
    assert accent.part == pytest.approx(16 * 20 / 60000, rel=0.3)


def test_another_hue_with_much_of_the_picture_is_a_mass_and_its_shades_are_no_accents() -> None:
    sheen = np.linspace(0.3, 1.9, 60)[:, None] * [45.0, 40, 20]
    points = np.concatenate([GREENS, sheen])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    where[:40, :300] = 500 + np.arange(300)[None] // 5
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    assert not find_accents(points, weights, where, heavy_places(points, weights), most=3)


def test_the_brighter_of_two_accents_comes_first() -> None:
    dark, bright = np.array([18.0, 20, 8]), np.array([70.0, 30, 35])
    points = np.concatenate([GREENS, [dark, bright]])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    where[20:32, 20:32], where[120:132, 20:32] = 500, 501
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    first, second = find_accents(points, weights, where, heavy_places(points, weights), most=3)
    np.testing.assert_allclose([first.centre, second.centre], [bright, dark], atol=0.5)


def two_discs(first: float, second: float, colours: np.ndarray) -> np.ndarray:
    """Accents, most telling first, of a green picture with a disc of each of two colours."""
    points = np.concatenate([GREENS, *(c + GENERATOR.normal(0, 1.0, (20, 3)) for c in colours)])
    where = GENERATOR.integers(0, 500, (200, 300)).astype(np.int32)
    down, across = np.ogrid[:200, :300]
    for number, radius in enumerate((first, second)):
        mask = (down - 100) ** 2 + (across - 75 - 150 * number) ** 2 < radius**2
        where[mask] = GENERATOR.integers(500 + 20 * number, 520 + 20 * number, int(mask.sum()))
    weights = np.bincount(where.ravel(), minlength=len(points)) / where.size
    found = find_accents(points, weights, where, heavy_places(points, weights), most=2)
    return np.array([accent.centre for accent in found])


def test_a_pure_colour_tells_more_than_a_paler_one_of_four_times_the_area() -> None:
    # Both are about as far from the greens; by lightness alone the pale one would come first.
    first, _ = two_discs(18, 9, np.array([np.array([85.0, 0, 0]), RED]))
    assert np.linalg.norm(first - RED) < 2


def test_of_two_alike_the_larger_tells_more() -> None:
    twin = np.array([45.0, 40, -20])
    assert np.linalg.norm(two_discs(9, 16, np.array([RED, twin]))[0] - twin) < 2
    assert np.linalg.norm(two_discs(16, 9, np.array([RED, twin]))[0] - RED) < 2


def test_four_times_the_area_does_not_count_four_times() -> None:
    # The beetle is four times as small as the dull patch, and more than twice as far and as pure.
    muted = np.array([45.0, 10, -10])
    first, _ = two_discs(18, 9, np.array([muted, RED]))
    assert np.linalg.norm(first - RED) < 2
