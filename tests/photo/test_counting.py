import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.perception.device import codes_to_lab
from palette.photo.counting import count_colours
from palette.photo.photo import Photo
from palette.photo.profile import ADOBE_RGB, CMYK_WITHOUT_PROFILE, DISPLAY_P3, GREY, SRGB, Profile

GREY_RAMP = Profile(name="only the engine reads it", kind="table", icc=b"x")


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


def test_a_small_picture_is_counted_finely_and_a_large_one_coarsely() -> None:
    ramp = np.arange(256, dtype=np.uint8)[None, :, None].repeat(3, axis=2)
    assert len(count_colours(photo_of(ramp.repeat(8, axis=0))).codes) == 128
    large = ramp.repeat(10, axis=1).repeat(1700, axis=0)
    assert len(count_colours(photo_of(large)).codes) == 32
    assert len(count_colours(photo_of(large, profile=GREY_RAMP)).codes) == 64


@pytest.mark.parametrize("profile", [DISPLAY_P3, ADOBE_RGB], ids=["P3", "Adobe"])
@pytest.mark.parametrize("shape", [(120, 160), (2100, 2100)])
def test_a_scene_in_another_space_falls_into_the_same_boxes(profile, shape) -> None:
    pixels = np.random.default_rng(1).integers(20, 230, (40, 40, 3))
    pixels = pixels.repeat(-(-shape[0] // 40), axis=0).repeat(-(-shape[1] // 40), axis=1)
    pixels = np.ascontiguousarray(pixels[: shape[0], : shape[1]], dtype=np.uint8)
    light = SRGB.curves[0].light(np.arange(256) / 255)[pixels]
    light = light @ np.linalg.solve(np.array(profile.matrix), np.array(SRGB.matrix)).T
    grid = np.linspace(0, 1, 8193)
    codes = np.interp(light, profile.curves[0].light(grid), grid)
    wide = photo_of(np.rint(codes * 65535).astype(np.uint16), profile=profile)
    one, other = count_colours(photo_of(pixels)), count_colours(wide)
    np.testing.assert_array_equal(one.where, other.where)
    np.testing.assert_allclose(
        codes_to_lab(SRGB, one.codes), codes_to_lab(profile, other.codes), atol=1.0
    )


def test_colours_beyond_srgb_are_told_apart() -> None:
    greens = np.array([[[60, 250, 40], [120, 250, 40], [60, 250, 100]]], dtype=np.uint8)
    counted = count_colours(photo_of(greens, profile=DISPLAY_P3))
    assert len(counted.codes) == 3
