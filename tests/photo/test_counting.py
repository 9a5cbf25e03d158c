from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.photo import counting
from palette.photo.counting import count_colours
from palette.photo.photo import Photo
from palette.photo.profile import CMYK_WITHOUT_PROFILE, GREY


def photo_of(pixels: np.ndarray, **more) -> Photo:
    return Photo(name="x", pixels=pixels, **more)


@settings(max_examples=30)
@given(st.integers(1, 40), st.integers(1, 40), st.integers(0, 2**32 - 1))
def test_weights_sum_to_one_and_the_mean_is_kept(rows, columns, seed) -> None:
    pixels = np.random.default_rng(seed).integers(0, 256, (rows, columns, 3), dtype=np.uint8)
    counted = count_colours(photo_of(pixels))
    assert counted.weights.sum() == pytest.approx(1)
    np.testing.assert_allclose(
        counted.weights @ counted.codes, pixels.reshape(-1, 3).mean(axis=0) / 255, atol=1e-12
    )
    assert counted.pixels == rows * columns


@settings(max_examples=30)
@given(st.integers(0, 2**32 - 1))
def test_shuffling_the_pixels_changes_nothing(seed) -> None:
    generator = np.random.default_rng(seed)
    pixels = generator.integers(0, 256, (23, 31, 3), dtype=np.uint8)
    shuffled = generator.permutation(pixels.reshape(-1, 3)).reshape(pixels.shape)
    one, other = count_colours(photo_of(pixels)), count_colours(photo_of(shuffled))
    np.testing.assert_allclose(one.codes, other.codes, atol=1e-12)
    np.testing.assert_array_equal(one.weights, other.weights)


def test_one_colour_comes_back_exactly() -> None:
    counted = count_colours(photo_of(np.full((50, 60, 3), (93, 115, 58), dtype=np.uint8)))
    assert (counted.codes * 255).tolist() == [[93.0, 115.0, 58.0]]


def test_words_and_channels_agree() -> None:
    pixels = np.random.default_rng(0).integers(0, 256, (37, 41, 3), dtype=np.uint8)
    for cell, bits in product((1, 2, 3), (5, 6)):
        by_words = counting._index(pixels, cell, bits)
        by_channels = counting._index(np.asfortranarray(pixels), cell, bits)
        np.testing.assert_array_equal(by_words, by_channels)


@pytest.mark.parametrize("period", [1, 2, 3, 4, 5, 8])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_no_stripe_hides_between_the_cells_of_a_large_picture(monkeypatch, period, axis) -> None:
    monkeypatch.setattr(counting, "_EVERY_PIXEL_UP_TO", 10_000)  # cells of 3 x 3 and more
    rows, columns = np.indices((320, 480))
    along = (rows, columns, rows + columns)[axis]
    white = (along // period) % 2 == 0
    pixels = np.where(white[..., None], 255, 0).astype(np.uint8).repeat(3, axis=2)
    counted = count_colours(photo_of(pixels))
    share = counted.weights[counted.codes[:, 0] > 0.5].sum()
    assert share == pytest.approx(white.mean(), abs=0.025)


def test_shares_of_a_large_picture(monkeypatch) -> None:
    monkeypatch.setattr(counting, "_EVERY_PIXEL_UP_TO", 20_000)
    rows, columns = np.indices((600, 800))
    disc = (rows - 200) ** 2 + (columns - 500) ** 2 < 130**2
    pixels = np.where(disc[..., None], (200, 40, 40), (60, 90, 50)).astype(np.uint8)
    counted = count_colours(photo_of(pixels))
    assert counted.weights[counted.codes[:, 0] > 0.5].sum() == pytest.approx(disc.mean(), abs=2e-3)


def test_pixels_that_do_not_count_are_not_counted() -> None:
    pixels = np.zeros((10, 10, 3), dtype=np.uint8)
    pixels[:, 5:] = 255
    kept = np.zeros((10, 10), dtype=bool)
    kept[:, 5:] = True
    counted = count_colours(photo_of(pixels, kept=kept))
    assert counted.codes.tolist() == [[1.0, 1.0, 1.0]]
    assert (counted.where[:, :5] == -1).all()
    assert counted.pixels == 50


def test_grey_and_deep_and_ink() -> None:
    grey = count_colours(photo_of(np.full((4, 4, 1), 100, dtype=np.uint8), profile=GREY))
    assert (grey.codes * 255).tolist() == [[100.0]]
    deep = count_colours(photo_of(np.full((4, 4, 3), 30001, dtype=np.uint16)))
    assert (deep.codes * 65535).round(6).tolist() == [[30001.0] * 3]
    ink = photo_of(np.full((4, 4, 4), 40, dtype=np.uint8), profile=CMYK_WITHOUT_PROFILE)
    assert (count_colours(ink).codes * 255).round(6).tolist() == [[40.0] * 4]


def test_the_map_says_where_colours_lie() -> None:
    pixels = np.zeros((10, 20, 3), dtype=np.uint8)
    pixels[:, 10:] = 255
    counted = count_colours(photo_of(pixels))
    left, right = counted.where[:, :10], counted.where[:, 10:]
    assert counted.codes[np.unique(left)].max() == 0
    assert counted.codes[np.unique(right)].min() == 1
