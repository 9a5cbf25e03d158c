import numpy as np
import pytest
from PIL import Image

from palette.errors import InputError, PhotoError
from palette.photo.photo import Photo
from palette.photo.profile import GREY
from palette.photo.selection import (
    neutral_codes,
    parse_point,
    parse_region,
    within_mask,
    within_region,
)


@pytest.fixture
def ramp() -> Photo:
    columns = np.arange(100, dtype=np.uint8)
    return Photo(name="ramp", pixels=np.tile(columns[None, :, None], (50, 1, 3)))


def test_a_region_is_cut_out(ramp) -> None:
    cut = within_region(ramp, (0.2, 0.0, 0.5, 0.4))
    assert cut.pixels.shape == (20, 30, 3)
    assert int(cut.pixels[0, 0, 0]) == 20
    assert cut.settings == (("region", "20,0,50,40 per cent"),)


@pytest.mark.parametrize(
    "region",
    [(0.5, 0, 0.5, 1), (0.6, 0, 0.4, 1), (0, 0.9, 1, 0.1), (-0.1, 0, 1, 1), (0, 0, 1.2, 1)],
)
def test_a_region_outside_the_picture(ramp, region) -> None:
    with pytest.raises(InputError, match=r"^--region: must lie inside the picture, left before"):
        within_region(ramp, region)


def test_a_region_with_nan(ramp) -> None:
    with pytest.raises(InputError, match=r"^--region: must lie inside the picture"):
        within_region(ramp, (float("nan"), 0, 1, 1))


def test_a_region_of_no_pixel(ramp) -> None:
    with pytest.raises(InputError, match=r"^--region: must hold at least one pixel; got 0,0,0\.1,"):
        within_region(ramp, (0, 0, 0.001, 1))


@pytest.mark.parametrize(
    "text", ["", "10,20,30", "a,b,c,d", "10,20,130,40", "10;20;30;40", "nan,0,1,1"]
)
def test_a_region_that_cannot_be_read(text) -> None:
    with pytest.raises(
        InputError, match=r"^--region: must be 4 per cents .* Write it like 10,20,60"
    ):
        parse_region(text)


def test_per_cent_signs_are_fine() -> None:
    assert parse_region(" 10%, 20 %,60,80") == (0.1, 0.2, 0.6, 0.8)
    assert parse_point("50%,0") == (0.5, 0.0)


def test_a_point_that_cannot_be_read() -> None:
    with pytest.raises(InputError, match=r"^--neutral: must be 2 per cents .*got 'middle'"):
        parse_point("middle")


def test_a_mask_keeps_what_is_white(ramp, tmp_path) -> None:
    path = tmp_path / "mask.png"
    cover = np.zeros((50, 100), dtype=np.uint8)
    cover[:, 60:] = 255
    Image.fromarray(cover).save(path)
    kept = within_mask(ramp, path).kept
    assert kept is not None
    assert kept[:, 60:].all()
    assert not kept[:, :60].any()


def test_a_mask_of_another_size(ramp, tmp_path) -> None:
    path = tmp_path / "mask.png"
    Image.new("L", (10, 10), 255).save(path)
    with pytest.raises(
        InputError, match=r"^--mask: must be as large as the picture, 100 x 50; got 10 x 10 \(mask"
    ):
        within_mask(ramp, path)


def test_a_mask_that_leaves_nothing(ramp, tmp_path) -> None:
    path = tmp_path / "mask.png"
    Image.new("L", (100, 50), 0).save(path)
    with pytest.raises(InputError, match=r"^--mask: must leave something; got a mask"):
        within_mask(ramp, path)


def test_a_mask_that_is_no_picture(ramp, tmp_path) -> None:
    with pytest.raises(PhotoError, match=r"^none\.png: must be a file"):
        within_mask(ramp, tmp_path / "none.png")


def test_a_region_of_masked_pixels_only(ramp, tmp_path) -> None:
    path = tmp_path / "mask.png"
    cover = np.zeros((50, 100), dtype=np.uint8)
    cover[:, 60:] = 255
    Image.fromarray(cover).save(path)
    with pytest.raises(InputError, match=r"^--region: must hold a colour"):
        within_region(within_mask(ramp, path), (0, 0, 0.5, 1))


def test_neutral_point_on_black(ramp) -> None:
    with pytest.raises(InputError, match=r"^--neutral: must be a grey or white place .*is black"):
        neutral_codes(ramp, (0.0, 0.5))


def test_neutral_point_blown_out() -> None:
    white = Photo(name="x", pixels=np.full((20, 20, 3), 255, dtype=np.uint8))
    with pytest.raises(InputError, match=r"^--neutral: must be a place that is not blown out"):
        neutral_codes(white, (0.5, 0.5))


def test_neutral_point_outside(ramp) -> None:
    with pytest.raises(InputError, match=r"^--neutral: must lie inside the picture; got 120,50"):
        neutral_codes(ramp, (1.2, 0.5))


def test_neutral_point_of_a_grey_picture() -> None:
    grey = Photo(name="x", pixels=np.full((9, 9, 1), 100, dtype=np.uint8), profile=GREY)
    with pytest.raises(InputError, match=r"^--neutral: must be used on a colour picture"):
        neutral_codes(grey, (0.5, 0.5))


def test_neutral_codes_come_from_round_the_point(ramp) -> None:
    codes = neutral_codes(ramp, (0.8, 0.5)) * 255
    assert 78 <= codes.min() <= codes.max() <= 82
