import numpy as np
import pytest

from palette.perception.device import codes_to_lab, codes_to_xyz, d50_to_d65
from palette.perception.difference import ciede2000
from palette.perception.spaces import D65_XYZ, lab_to_hex, srgb8_to_lab
from palette.photo.profile import (
    ADOBE_RGB,
    CMYK_WITHOUT_PROFILE,
    D50_XYZ,
    DISPLAY_P3,
    GREY,
    SRGB,
    Profile,
)

CODES = np.random.default_rng(6).random((400, 3))


def test_adaptation_matrix_against_colour_science() -> None:
    import colour

    expected = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        np.array(D50_XYZ), D65_XYZ, transform="Bradford"
    )
    np.testing.assert_allclose(d50_to_d65(), expected, atol=1e-12)


@pytest.mark.parametrize(
    ("profile", "name"), [(DISPLAY_P3, "Display P3"), (ADOBE_RGB, "Adobe RGB (1998)")]
)
def test_wide_spaces_against_colour_science(profile, name) -> None:
    import colour

    with colour.domain_range_scale("reference"):
        xyz = colour.RGB_to_XYZ(CODES, name, apply_cctf_decoding=True)
        white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
        expected = colour.XYZ_to_Lab(xyz, white)
    assert ciede2000(codes_to_lab(profile, CODES), expected).max() < 0.1


def test_a_spring_green_of_display_p3_keeps_its_numbers_and_is_outside_srgb() -> None:
    lab = codes_to_lab(DISPLAY_P3, [[0.55, 0.98, 0.2]])[0]
    text, inside = lab_to_hex(lab)
    assert not inside
    assert float(ciede2000(lab, srgb8_to_lab([int(text[i : i + 2], 16) for i in (1, 3, 5)]))) > 1


def test_the_two_ways_for_srgb_agree() -> None:
    as_matrix = Profile(name="x", kind="matrix", curves=SRGB.curves, matrix=SRGB.matrix)
    np.testing.assert_allclose(codes_to_lab(as_matrix, CODES), codes_to_lab(SRGB, CODES), atol=0.1)


@pytest.mark.parametrize("profile", [SRGB, DISPLAY_P3, ADOBE_RGB])
def test_equal_codes_are_neutral_in_every_space(profile) -> None:
    greys = np.repeat(np.linspace(0, 1, 21)[:, None], 3, axis=1)
    assert np.abs(codes_to_lab(profile, greys)[:, 1:]).max() < 0.02


def test_grey_and_ink_white() -> None:
    np.testing.assert_allclose(codes_to_xyz(GREY, [[1.0]])[0], D65_XYZ)
    np.testing.assert_allclose(codes_to_xyz(CMYK_WITHOUT_PROFILE, [[0.0] * 4])[0], D65_XYZ)
    assert codes_to_xyz(CMYK_WITHOUT_PROFILE, [[0.0, 0.0, 0.0, 1.0]]).max() == 0
