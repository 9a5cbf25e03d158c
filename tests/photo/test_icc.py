import struct

import numpy as np
import pytest
from PIL import Image, ImageCms

from palette.perception.device import codes_to_lab
from palette.perception.difference import ciede2000
from palette.perception.spaces import srgb8_to_lab
from palette.photo.icc import BrokenProfileError, read_profile, table_to_lab_d50
from palette.photo.profile import ADOBE_RGB, DISPLAY_P3, SRGB, Curve, Profile

SRGB_ICC = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def fixed(value: float) -> bytes:
    return struct.pack(">i", round(value * 65536))


def packed(tags: dict[bytes, bytes], kind: bytes) -> bytes:
    """A profile of these tags; its class, colours and connection space in twelve letters."""
    start, table, body = 132 + 12 * len(tags), b"", b""
    for tag, data in tags.items():
        table += struct.pack(">4sII", tag, start + len(body), len(data))
        body += data
    header = bytearray(128)
    header[8:12] = b"\x02\x40\0\0"
    header[12:24] = kind
    header[36:40] = b"acsp"
    header[68:80] = b"".join(map(fixed, (0.9642, 1.0, 0.8249)))
    whole = bytes(header) + struct.pack(">I", len(tags)) + table + body
    return struct.pack(">I", len(whole)) + whole[4:]


def matrix_icc(profile: Profile, gamma: float | None = None) -> bytes:
    """A version 2 profile with three colorants and one curve, built by hand from ICC.1:2022."""
    curve = (
        b"curv" + bytes(4) + struct.pack(">IH", 1, round(gamma * 256))
        if gamma
        else b"para"
        + bytes(4)
        + struct.pack(">HH", 3, 0)
        + b"".join(map(fixed, profile.curves[0].parameters[:5]))
    )
    curve += bytes(-len(curve) % 4)
    name = profile.name.encode() + b"\0"
    text = b"desc" + bytes(4) + struct.pack(">I", len(name)) + name
    text += bytes(-len(text) % 4)
    parts = {b"desc": text}
    for index, tag in enumerate((b"rXYZ", b"gXYZ", b"bXYZ")):
        parts[tag] = b"XYZ " + bytes(4) + b"".join(fixed(row[index]) for row in profile.matrix)
    for tag in (b"rTRC", b"gTRC", b"bTRC"):
        parts[tag] = curve
    return packed(parts, b"mntrRGB XYZ ")


def test_the_profile_of_the_colour_engine_is_srgb() -> None:
    assert read_profile(SRGB_ICC) is SRGB


def test_the_profile_of_a_real_photograph_is_srgb() -> None:
    from pathlib import Path

    import sklearn.datasets

    path = Path(sklearn.datasets.__file__).parent / "images" / "flower.jpg"
    with Image.open(path) as image:
        assert read_profile(image.info["icc_profile"]) is SRGB


@pytest.mark.parametrize(("profile", "gamma"), [(DISPLAY_P3, None), (ADOBE_RGB, 563 / 256)])
def test_wide_profiles_keep_every_colour(profile, gamma) -> None:
    read = read_profile(matrix_icc(profile, gamma))
    assert read.name == profile.name
    codes = np.random.default_rng(3).random((500, 3))
    np.testing.assert_allclose(codes_to_lab(read, codes), codes_to_lab(profile, codes), atol=0.05)


def test_a_wide_profile_against_the_colour_engine() -> None:
    icc = matrix_icc(ADOBE_RGB, 563 / 256)
    codes = np.random.default_rng(4).integers(0, 256, (300, 3), dtype=np.uint8)
    engine = table_to_lab_d50(Profile(name="x", kind="table", icc=icc), codes)
    through_engine = Profile(name="x", kind="table", icc=icc)
    ours = codes_to_lab(read_profile(icc), codes / 255)
    theirs = codes_to_lab(through_engine, codes / 255)
    inside = np.abs(engine[:, 1:]).max(axis=1) < 120  # its a and b end at 127
    assert ciede2000(ours, theirs)[inside].mean() < 0.4


def test_a_table_profile_of_srgb_against_the_formula() -> None:
    codes = np.random.default_rng(5).integers(0, 256, (300, 3), dtype=np.uint8)
    table = Profile(name="x", kind="table", icc=SRGB_ICC)
    difference = ciede2000(codes_to_lab(table, codes / 255), srgb8_to_lab(codes))
    assert difference.mean() < 0.3  # whole units of a and b


@pytest.mark.parametrize(
    ("icc", "words"),
    [
        (b"", "is cut short"),
        (bytes(200), "is not a colour profile"),
        (SRGB_ICC[:400], "is cut short"),
        (SRGB_ICC[:16] + b"Lab " + SRGB_ICC[20:], "is for Lab pictures"),
        (SRGB_ICC[:128] + struct.pack(">I", 4000) + SRGB_ICC[132:], "lists more tags"),
        (SRGB_ICC.replace(b"rXYZ", b"xXYZ"), "lacks its colorants"),
        (SRGB_ICC.replace(b"para", b"soup"), "has a curve that cannot be read"),
        (SRGB_ICC.replace(b"XYZ \0\0\0\0", b"soup\0\0\0\0"), "has a colorant that cannot be read"),
    ],
)
def test_a_profile_that_cannot_be_is_refused(icc, words) -> None:
    with pytest.raises(BrokenProfileError, match=f"^{words}"):
        read_profile(icc)


def test_colorants_that_do_not_add_up_to_white() -> None:
    icc = matrix_icc(
        Profile(
            name="x",
            kind="matrix",
            curves=SRGB.curves,
            matrix=((0.9, 0.4, 0.1), (0.2, 0.7, 0.1), (0.0, 0.1, 0.7)),
        )
    )
    with pytest.raises(BrokenProfileError, match=r"^has colorants that do not add up to white"):
        read_profile(icc)


@pytest.mark.parametrize("seed", range(40))
def test_a_profile_with_wrong_bytes_never_does_worse_than_a_refusal(seed) -> None:
    generator = np.random.default_rng(seed)
    icc = bytearray(SRGB_ICC)
    for place in generator.integers(0, len(icc), 12):
        icc[place] = int(generator.integers(0, 256))
    try:
        profile = read_profile(bytes(icc))
    except BrokenProfileError:
        return
    assert profile.channels in (1, 3, 4)


# ICC.1:2022, table 68: g, a, b, c, d, e, f as far as the type goes, and its function.
PARAMETRIC = [
    ((2.2,), lambda x: x**2.2),
    ((2.0, 1.1, -0.1), lambda x: np.where(x >= 0.1 / 1.1, np.maximum(1.1 * x - 0.1, 0) ** 2, 0)),
    (
        (2.0, 0.9, -0.09, 0.05),
        lambda x: np.where(x >= 0.1, np.maximum(0.9 * x - 0.09, 0) ** 2 + 0.05, 0.05),
    ),
    (
        (2.4, 0.9, 0.1, 0.08, 0.04),
        lambda x: np.where(x >= 0.04, (0.9 * x + 0.1) ** 2.4, 0.08 * x),
    ),
    (
        (2.4, 0.9, 0.1, 0.08, 0.04, -0.01, 0.02),
        lambda x: np.where(x >= 0.04, (0.9 * x + 0.1) ** 2.4 - 0.01, 0.08 * x + 0.02),
    ),
]


@pytest.mark.parametrize("kind", range(5))
def test_every_type_of_parametric_curve(kind) -> None:
    values, formula = PARAMETRIC[kind]
    tag = b"para" + bytes(4) + struct.pack(">HH", kind, 0) + b"".join(map(fixed, values))
    codes = np.linspace(0, 1, 101) + 1e-4
    curve = read_profile(with_curve(matrix_icc(ADOBE_RGB), tag)).curves[0]
    np.testing.assert_allclose(curve.light(codes), formula(codes), atol=2e-4)


def with_curve(icc: bytes, tag: bytes) -> bytes:
    """The same profile with another curve for all channels, hung on at its end."""
    tag += bytes(-len(tag) % 4)
    data = bytearray(icc)
    (count,) = struct.unpack(">I", data[128:132])
    for index in range(count):
        at = 132 + 12 * index
        if data[at + 1 : at + 4] == b"TRC":
            data[at + 4 : at + 12] = struct.pack(">II", len(icc), len(tag))
    whole = bytes(data) + tag
    return struct.pack(">I", len(whole)) + whole[4:]


def test_what_is_only_near_srgb_keeps_its_own_curve() -> None:
    # A pure gamma of 2.2 differs from the curve of IEC 61966-2-1 by up to 0.009 of the light.
    profile = read_profile(matrix_icc(SRGB, gamma=2.2))
    assert profile.kind == "matrix"
    assert profile.curves[0] == Curve(parameters=(563 / 256, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0))


def test_a_grey_profile_in_lightness_is_left_to_the_engine() -> None:
    # With CIELAB as its connection space the curve of a grey profile gives L (ICC.1:2022, F.2).
    tag = b"curv" + bytes(4) + struct.pack(">I", 0)
    tags = {b"kTRC": tag, b"wtpt": b"XYZ " + bytes(4) + b"".join(map(fixed, (0.9642, 1, 0.8249)))}
    icc = packed(tags, b"prtrGRAYLab ")
    profile = read_profile(icc)
    assert (profile.kind, profile.channels) == ("table", 1)
    grey = table_to_lab_d50(profile, np.array([[128]], dtype=np.uint8))
    assert grey[0, 0] == pytest.approx(100 * 128 / 255, abs=1.0)
