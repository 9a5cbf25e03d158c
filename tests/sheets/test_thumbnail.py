import io

import numpy as np
import pytest
from PIL import Image

from palette.photo.photo import Photo
from palette.sheets.thumbnail import thumbnail_jpeg, thumbnail_pixels
from palette.swatches.lighting import light_from_neutral


def photo_of(pixels: np.ndarray) -> Photo:
    return Photo(name="leaf", pixels=pixels)


@pytest.mark.parametrize(
    ("height", "width"), [(1, 1), (1, 5000), (3000, 4000), (901, 7), (2, 1801)]
)
def test_longer_side_is_within_the_limit(height: int, width: int) -> None:
    small = thumbnail_pixels(photo_of(np.full((height, width, 3), 90, np.uint8)), longest_px=900)
    assert max(small.shape[:2]) <= 900
    assert np.all(np.abs(small.astype(int) - 90) <= 1)


def test_small_pictures_keep_their_pixels() -> None:
    pixels = np.random.default_rng(1).integers(0, 256, (20, 30, 3), dtype=np.uint8)
    small = thumbnail_pixels(photo_of(pixels))
    assert np.max(np.abs(small.astype(int) - pixels)) <= 1


def test_a_block_is_averaged() -> None:
    pixels = np.zeros((4, 4, 3), np.uint8)
    pixels[:2, :2] = [[[80] * 3, [120] * 3], [[100] * 3, [100] * 3]]
    small = thumbnail_pixels(photo_of(pixels), longest_px=2)
    assert small.shape == (2, 2, 3)
    assert abs(int(small[0, 0, 0]) - 100) <= 1
    assert small[1, 1, 0] == 0


def test_sixteen_bit_is_scaled() -> None:
    small = thumbnail_pixels(photo_of(np.full((3, 3, 3), 65535, np.uint16)))
    assert np.all(small == 255)


def test_jpeg_opens_and_is_the_same_each_time() -> None:
    photo = photo_of(np.full((30, 40, 3), 120, np.uint8))
    data = thumbnail_jpeg(photo)
    assert data == thumbnail_jpeg(photo)
    assert Image.open(io.BytesIO(data)).size == (40, 30)


def test_the_cast_of_a_light_can_be_taken_away() -> None:
    warm = photo_of(np.full((9, 9, 3), [180, 150, 110], np.uint8))
    light = light_from_neutral(warm, (0.5, 0.5))
    small = thumbnail_pixels(warm, light=light)
    assert np.ptp(small[4, 4].astype(int)) <= 1
