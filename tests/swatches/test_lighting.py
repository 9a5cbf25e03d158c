import numpy as np
import pytest

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.light import parse_light, without_cast
from palette.perception.spaces import D65_XYZ, lab_to_srgb8, lab_to_xyz, xyz_to_lab
from palette.photo.photo import Photo
from palette.photo.selection import within_region
from palette.swatches.extraction import extract
from palette.swatches.lighting import light_from_neutral


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


def test_the_card_may_lie_outside_the_region_that_counts() -> None:
    photo = under_lamp()
    part = within_region(photo, (0.5, 0.0, 1.0, 1.0))
    assert light_from_neutral(part, (0.25, 0.5)) == light_from_neutral(photo, (0.25, 0.5))
    again = within_region(part, (0.0, 0.5, 1.0, 1.0))
    assert light_from_neutral(again, (0.25, 0.5)) == light_from_neutral(photo, (0.25, 0.5))


def test_a_black_place_says_nothing() -> None:
    with pytest.raises(InputError, match=r"^--neutral: must be a grey or white place"):
        light_from_neutral(Photo(name="x", pixels=np.zeros((9, 9, 3), np.uint8)), (0.5, 0.5))
