"""Matrices from chromaticities, against the registered ones and colour-science."""

import colour
import numpy as np
import pytest
from colour.adaptation import matrix_chromatic_adaptation_VonKries

from palette.photo.primaries import BT_2020, matrix_of
from palette.photo.profile import ADOBE_RGB, D50_XYZ, DISPLAY_P3, SRGB

# Chromaticities of IEC 61966-2-1, SMPTE EG 432-1 and Adobe RGB (1998).
KNOWN = [
    (((0.64, 0.33), (0.30, 0.60), (0.15, 0.06)), SRGB),
    (((0.680, 0.320), (0.265, 0.690), (0.150, 0.060)), DISPLAY_P3),
    (((0.64, 0.33), (0.21, 0.71), (0.15, 0.06)), ADOBE_RGB),
]


@pytest.mark.parametrize(
    ("primaries", "profile"), KNOWN, ids=lambda value: getattr(value, "name", "")
)
def test_the_matrices_of_registered_profiles(primaries, profile) -> None:
    np.testing.assert_allclose(matrix_of(primaries), profile.matrix, atol=2e-4)


def test_bt_2020_as_colour_science_has_it() -> None:
    space = colour.RGB_COLOURSPACES["ITU-R BT.2020"]
    to_d65 = np.asarray(space.matrix_RGB_to_XYZ)
    adapt = matrix_chromatic_adaptation_VonKries(to_d65.sum(axis=1), D50_XYZ, transform="Bradford")
    np.testing.assert_allclose(matrix_of(BT_2020), adapt @ to_d65, atol=2e-4)


@pytest.mark.parametrize("white", [(0.3127, 0.3290), (0.314, 0.351), (0.4476, 0.4074)])
def test_equal_codes_are_the_white_of_the_connection_space(white) -> None:
    np.testing.assert_allclose(np.sum(matrix_of(BT_2020, white), axis=1), D50_XYZ, atol=1e-12)


@pytest.mark.parametrize(
    "primaries",
    [
        ((0.64, 0.33), (0.64, 0.33), (0.15, 0.06)),
        ((0.2, 0.2), (0.3, 0.3), (0.4, 0.4)),
        ((0.64, 0.0), (0.30, 0.60), (0.15, 0.06)),
    ],
)
def test_primaries_that_span_nothing(primaries) -> None:
    with pytest.raises(ValueError, match="the primaries span no colours"):
        matrix_of(primaries)
