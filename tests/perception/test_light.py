import numpy as np
import pytest

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.light import Light, parse_light, without_cast
from palette.perception.spaces import D65_XYZ, xyz_to_lab


def colorchecker_xyz(illuminant: str) -> np.ndarray:
    """24 patches of the ColorChecker under one illuminant, by integration of the spectra."""
    import colour

    shape = colour.SPECTRAL_SHAPE_DEFAULT
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape)
    light = colour.SDS_ILLUMINANTS[illuminant].copy().align(shape)
    patches = [
        patch.copy().align(shape)
        for patch in colour.SDS_COLOURCHECKERS["BabelColor Average"].values()
    ]
    return np.array(
        [colour.sd_to_XYZ(p, observer, light, method="Integration") / 100 for p in patches]
    )


def test_colorchecker_under_lamp_light_is_brought_back() -> None:
    # Reflectances: BabelColor average of ColorChecker charts, as carried by colour-science.
    daylight, lamp = colorchecker_xyz("D65"), colorchecker_xyz("A")
    truth = xyz_to_lab(daylight)
    before = ciede2000(xyz_to_lab(lamp), truth)
    after = ciede2000(xyz_to_lab(without_cast(lamp, parse_light("A"))), truth)
    assert before.mean() > 15
    assert after.mean() < 2.5  # what no linear adaptation can do away with: metamerism
    assert after.max() < 5.5


def test_the_white_of_a_light_comes_out_neutral() -> None:
    for text in ("A", "D50", "F2", "3200 K", "6500K"):
        light = parse_light(text)
        np.testing.assert_allclose(without_cast(light.white_xyz, light), D65_XYZ, atol=1e-12)


def test_daylight_changes_nothing() -> None:
    assert (
        ciede2000(
            xyz_to_lab(without_cast([0.2, 0.3, 0.1], parse_light("D65"))),
            xyz_to_lab([0.2, 0.3, 0.1]),
        )
        < 0.02
    )


def test_lamp_of_2856_kelvin_is_close_to_illuminant_a() -> None:
    # CIE 15:2018: illuminant A is a black body of 2856 K
    np.testing.assert_allclose(
        parse_light("2856 K").white_xyz, parse_light("A").white_xyz, atol=0.01
    )


@pytest.mark.parametrize(
    ("text", "illuminant"), [("5003 K", "D50"), ("6504 K", "D65"), ("7504 K", "D75")]
)
def test_the_temperature_of_daylight_is_daylight(text, illuminant) -> None:
    # CIE 15:2018, table 1 and note: the temperatures are 5000, 6500, 7500 K times 1.4388 / 1.4380
    white = without_cast(parse_light(illuminant).white_xyz, parse_light(text))
    assert ciede2000(xyz_to_lab(white), [100.0, 0.0, 0.0]) < 0.3


def test_lamps_pass_into_daylight_without_a_step() -> None:
    whites = [parse_light(f"{kelvin} K").white_xyz for kelvin in range(3500, 5501, 20)]
    steps = np.abs(np.diff(whites, axis=0)).max(axis=1)
    assert steps.max() < 0.012


def test_adaptation_from_d50_as_published() -> None:
    # Bradford matrix from D50 to D65 of CSS Color Module Level 4 (W3C), sample code, rounded.
    published = [
        [0.9554734, -0.0230985, 0.0632592],
        [-0.0283697, 1.0099954, 0.0210414],
        [0.0123140, -0.0205077, 1.3303659],
    ]
    ours = without_cast(np.eye(3), parse_light("D50")).T
    np.testing.assert_allclose(ours, published, atol=4e-4)


@pytest.mark.parametrize("text", ["", "Z9", "bright", "K"])
def test_an_unknown_light(text) -> None:
    with pytest.raises(InputError, match=r"^--light: must be a CIE illuminant or a colour temp"):
        parse_light(text)


@pytest.mark.parametrize("text", ["100 K", "90000 K", "0K"])
def test_a_temperature_out_of_range(text) -> None:
    with pytest.raises(InputError, match=r"^--light: must be from 1667 to 25000 K; got "):
        parse_light(text)


@pytest.mark.parametrize("white", [(0.0, 1.0, 1.0), (1.0, 1.0, float("nan")), (1.0, 1.0, -1.0)])
def test_a_white_without_light(white) -> None:
    with pytest.raises(InputError, match=r"^light: must have a white with X, Y and Z over 0"):
        Light(name="x", white_xyz=white)
