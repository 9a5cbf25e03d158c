import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.perception.spaces import (
    D65_XYZ,
    hex_to_lab,
    lab_to_hex,
    lab_to_linear_srgb,
    lab_to_srgb8,
    lab_to_xyz,
    linear_srgb_to_lab,
    linear_to_srgb,
    srgb8_to_lab,
    srgb_to_linear,
    xyz_to_lab,
)

RANDOM_CODES = np.random.default_rng(20051).integers(0, 256, (5000, 3), dtype=np.uint8)


def test_srgb_to_cielab_against_colour_science() -> None:
    import colour

    with colour.domain_range_scale("reference"):
        xyz = colour.sRGB_to_XYZ(RANDOM_CODES / 255)
        expected = colour.XYZ_to_Lab(
            xyz, colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
        )
    # colour-science carries the matrix of the standard at its four printed digits
    np.testing.assert_allclose(srgb8_to_lab(RANDOM_CODES), expected, atol=0.05, rtol=0)


def test_xyz_to_cielab_against_colour_science_to_the_last_digits() -> None:
    import colour

    xyz = np.random.default_rng(1).random((5000, 3)) ** 3
    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    with colour.domain_range_scale("reference"):
        expected = colour.XYZ_to_Lab(xyz, white)
        back = colour.Lab_to_XYZ(expected, white)
    np.testing.assert_allclose(xyz_to_lab(xyz), expected, atol=1e-9, rtol=0)
    np.testing.assert_allclose(lab_to_xyz(expected), back, atol=1e-12, rtol=0)


def test_the_transfer_curve_against_colour_science() -> None:
    import colour

    values = np.linspace(0, 1, 1001)
    np.testing.assert_allclose(
        srgb_to_linear(values), colour.models.eotf_sRGB(values), atol=1e-12, rtol=0
    )


def test_srgb_to_cielab_against_scikit_image() -> None:
    from skimage.color import rgb2lab

    # scikit-image takes white as 0.95047, 1, 1.08883
    np.testing.assert_allclose(
        srgb8_to_lab(RANDOM_CODES), rgb2lab(RANDOM_CODES[None] / 255)[0], atol=0.06, rtol=0
    )


def test_every_grey_is_exactly_neutral() -> None:
    lab = srgb8_to_lab(np.repeat(np.arange(256)[:, None], 3, axis=1))
    assert np.abs(lab[:, 1:]).max() < 1e-9
    assert lab[0].tolist() == pytest.approx([0, 0, 0], abs=1e-9)
    assert lab[-1].tolist() == pytest.approx([100, 0, 0], abs=1e-9)


def test_8_bit_codes_survive_the_way_there_and_back() -> None:
    np.testing.assert_array_equal(lab_to_srgb8(srgb8_to_lab(RANDOM_CODES)), RANDOM_CODES)


def test_xyz_of_white() -> None:
    np.testing.assert_allclose(lab_to_xyz([100, 0, 0]), D65_XYZ)
    np.testing.assert_allclose(
        D65_XYZ, [0.95046, 1, 1.08906], atol=5e-6
    )  # ASTM E308: .95047 1 1.08883


def test_linear_light_is_not_clipped() -> None:
    wide = [87.0, -95.0, 85.0]
    linear = lab_to_linear_srgb(wide)
    assert linear.min() < 0
    np.testing.assert_allclose(linear_srgb_to_lab(linear), wide, atol=1e-9)


def test_curve_is_mirrored_about_zero() -> None:
    np.testing.assert_allclose(linear_to_srgb(srgb_to_linear([-0.2, 0.3])), [-0.2, 0.3])


@pytest.mark.parametrize("lab", [(60.0, 0.0, 0.0), (100.0, 0.0, 0.0), (0.0, 0.0, 0.0)])
def test_greys_black_and_white_are_in_srgb(lab) -> None:
    assert lab_to_hex(lab)[1]


@given(st.tuples(*[st.integers(0, 255)] * 3))
def test_hex_survives_the_way_there_and_back(codes) -> None:
    text = "#{:02x}{:02x}{:02x}".format(*codes)
    assert lab_to_hex(hex_to_lab(text)) == (text, True)


def test_short_and_bare_hex() -> None:
    assert hex_to_lab("#fa0") == hex_to_lab("FFAA00")


@pytest.mark.parametrize("text", ["", "#12", "#12345g", "moss", "#1234567"])
def test_a_colour_that_is_no_hex_is_refused(text) -> None:
    with pytest.raises(InputError, match=r"^colour: must be written #rrggbb; got '.*'\. Write"):
        hex_to_lab(text)


@pytest.mark.parametrize(
    ("codes", "got"),
    [
        ([300, 0, 0], "int64 0 to 300"),
        ([-1, 0, 0], "int64 -1 to 0"),
        ([0.9, 0.9, 0.9], "float64 0.9"),
    ],
)
def test_what_is_no_code_is_refused_and_not_wrapped(codes, got) -> None:
    with pytest.raises(
        InputError, match=f"sRGB codes: must be whole numbers from 0 to 255; got {got}"
    ):
        srgb8_to_lab(codes)


def test_codes_of_any_whole_type_are_the_same_colour() -> None:
    code = [93, 115, 58]
    for kind in (np.uint8, np.int16, np.uint16, np.int64):
        assert srgb8_to_lab(np.array(code, dtype=kind)).tolist() == srgb8_to_lab(code).tolist()


@pytest.mark.parametrize("function", [lab_to_srgb8, lab_to_hex])
@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_colour_that_is_not_finite_has_no_code(function, bad) -> None:
    with pytest.raises(InputError, match="CIELAB: must be finite numbers"):
        function([50.0, bad, 0.0])


def test_a_colour_is_outside_from_half_a_code_on() -> None:
    # One code beyond 255 in red, by the curve of IEC 61966-2-1: seen, so told.
    beyond = linear_srgb_to_lab(srgb_to_linear(np.array([256 / 255, 0.5, 0.5])))
    within = linear_srgb_to_lab(srgb_to_linear(np.array([255.4 / 255, 0.5, 0.5])))
    assert not lab_to_hex(beyond)[1]
    assert lab_to_hex(within)[1]
