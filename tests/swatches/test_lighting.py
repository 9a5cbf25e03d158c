import numpy as np
import pytest

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.light import parse_light, without_cast
from palette.perception.spaces import D65_XYZ, lab_to_srgb8, lab_to_xyz, srgb8_to_lab, xyz_to_lab
from palette.photo.photo import Photo
from palette.swatches.extraction import extract
from palette.swatches.lighting import light_from_neutral, picture


def under_lamp() -> Photo:
    """A grey card (left) beside leaf green (right), as a lamp of illuminant A shows them."""
    import colour

    matrix = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        D65_XYZ, np.array(parse_light("A").white_xyz), transform="Bradford"
    )
    labs = np.array([[60.0, 0.0, 0.0], [50.0, -12.0, 20.0]])
    codes = lab_to_srgb8(xyz_to_lab(lab_to_xyz(labs) @ matrix.T * 0.8))
    return Photo(name="lamp", pixels=codes[None].repeat(50, axis=1).repeat(60, axis=0))


def test_a_grey_card_brings_the_colours_back() -> None:
    photo = under_lamp()
    light = light_from_neutral(photo, (0.25, 0.5))
    assert light.name == "grey at 25,50 per cent"
    labs = [swatch.lab for swatch in extract(photo, 2, light=light).swatches]
    truth = xyz_to_lab(lab_to_xyz([[60.0, 0, 0], [50, -12, 20]]) * 0.8)
    for lab in truth:
        assert float(ciede2000(lab, labs).min()) < 2
    np.testing.assert_allclose(without_cast(light.white_xyz, light), D65_XYZ)


def test_pictures_before_and_after() -> None:
    photo = under_lamp()
    before = picture(photo)
    after = picture(photo, light=light_from_neutral(photo, (0.25, 0.5)))
    np.testing.assert_array_equal(before, photo.pixels)
    card = srgb8_to_lab(after[30, 20])
    assert np.hypot(card[1], card[2]) < 1
    assert np.hypot(*srgb8_to_lab(before[30, 20])[1:]) > 20


def test_a_picture_is_small_enough() -> None:
    photo = Photo(name="x", pixels=np.zeros((300, 1001, 3), dtype=np.uint8))
    assert max(picture(photo, side_px=250).shape) <= 250


def test_what_does_not_count_is_white() -> None:
    kept = np.zeros((4, 4), dtype=bool)
    kept[:2] = True
    photo = Photo(name="x", pixels=np.zeros((4, 4, 3), dtype=np.uint8), kept=kept)
    assert picture(photo)[:, 0, 0].tolist() == [0, 0, 255, 255]


def test_a_black_place_says_nothing() -> None:
    with pytest.raises(InputError, match=r"^--neutral: must be a grey or white place"):
        light_from_neutral(Photo(name="x", pixels=np.zeros((9, 9, 3), np.uint8)), (0.5, 0.5))
