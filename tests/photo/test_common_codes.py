import colour
import numpy as np
import pytest

from palette.photo.common_codes import common_codes
from palette.photo.profile import ADOBE_RGB, DISPLAY_P3, SRGB, Profile

SPACES = {"Display P3": DISPLAY_P3, "Adobe RGB (1998)": ADOBE_RGB}


@pytest.mark.parametrize("name", SPACES)
def test_as_colour_science_has_it(name) -> None:
    """RGB to RGB of colour-science, whose spaces come from the standards themselves."""
    codes = np.random.default_rng(0).integers(0, 65536, (3, 50), dtype=np.uint16)
    with colour.domain_range_scale("reference"):
        linear = colour.RGB_to_RGB(
            codes.T / 65535, name, "sRGB", apply_cctf_decoding=True, apply_cctf_encoding=False
        )
        inside = (linear > 0.001).all(axis=1)
        expected = colour.cctf_encoding(linear[inside], function="sRGB")
    ours = common_codes(codes, SPACES[name], 65535).T[inside]
    assert inside.sum() > 20
    np.testing.assert_allclose(ours, expected, atol=0.004)


def test_codes_of_srgb_come_back() -> None:
    same = Profile(name="same", kind="matrix", curves=SRGB.curves, matrix=SRGB.matrix)
    codes = np.arange(256, dtype=np.uint8)[None, :].repeat(3, axis=0)
    np.testing.assert_allclose(common_codes(codes, same, 255) * 255, codes, atol=0.01)


def test_what_is_beyond_srgb_stays_beyond_it() -> None:
    green = np.array([[0], [255], [0]], dtype=np.uint8)
    red, _, blue = common_codes(green, DISPLAY_P3, 255).ravel()
    assert red < -0.4
    assert blue < -0.25
