import pytest

from palette.perception.munsell import munsell_notations


def test_foliage_of_the_colorchecker() -> None:
    # The maker's notation for the patch is 6.7GY 4.2/4.1; its xyY for illuminant C is printed
    # beside it (McCamy, Marcus and Davidson 1976): .3372 .4220 13.29.
    import numpy as np
    from colour import CCS_ILLUMINANTS, xy_to_XYZ, xyY_to_XYZ
    from colour.adaptation import matrix_chromatic_adaptation_VonKries

    from palette.perception.spaces import D65_XYZ, xyz_to_lab

    white = xy_to_XYZ(CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["C"])
    matrix = matrix_chromatic_adaptation_VonKries(white, D65_XYZ, transform="Bradford")
    lab = xyz_to_lab(matrix @ xyY_to_XYZ(np.array([0.3372, 0.4220, 0.1329])))
    [notation] = munsell_notations([lab])
    hue, rest = notation.split("GY ")
    value, chroma = map(float, rest.split("/"))
    assert float(hue) == pytest.approx(6.7, abs=0.4)
    assert value == pytest.approx(4.2, abs=0.1)
    assert chroma == pytest.approx(4.1, abs=0.3)


def test_greys_black_and_white() -> None:
    assert munsell_notations([[0, 0, 0], [100, 0, 0], [51, 0.5, -0.5]]) == (
        "N 0.0",
        "N 10.0",
        "N 5.0",
    )


def test_a_faint_tint_is_no_grey() -> None:
    grey, tint = munsell_notations([[60.0, 1.9, 0.0], [60.0, 3.0, 0.0]])
    assert grey == "N 5.9"
    assert tint
    assert not tint.startswith("N")
