import numpy as np
import pytest

from palette.photo.profile import ADOBE_RGB, D50_XYZ, DISPLAY_P3, SRGB, Curve


@pytest.mark.parametrize(
    ("profile", "name"),
    [(SRGB, "sRGB"), (DISPLAY_P3, "Display P3"), (ADOBE_RGB, "Adobe RGB (1998)")],
)
def test_colorants_against_colour_science(profile, name) -> None:
    import colour

    space = colour.RGB_COLOURSPACES[name]
    white = colour.xy_to_XYZ(space.whitepoint)
    adaptation = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        white, np.array(D50_XYZ), transform="Bradford"
    )
    np.testing.assert_allclose(profile.matrix, adaptation @ space.matrix_RGB_to_XYZ, atol=3e-4)


def test_adobe_curve_against_colour_science() -> None:
    import colour

    codes = np.linspace(0, 1, 101)
    expected = colour.RGB_COLOURSPACES["Adobe RGB (1998)"].cctf_decoding(codes)
    np.testing.assert_allclose(ADOBE_RGB.curves[0].light(codes), expected, atol=1e-12)


def test_srgb_curve_against_colour_science() -> None:
    import colour

    codes = np.linspace(0, 1, 101)
    np.testing.assert_allclose(
        SRGB.curves[0].light(codes), colour.models.eotf_sRGB(codes), atol=1e-7
    )


def test_a_table_is_read_between_its_entries() -> None:
    assert Curve(table=(0.0, 0.2, 1.0)).light([0.25, 0.5, 0.75]).tolist() == pytest.approx(
        [0.1, 0.2, 0.6]
    )
