"""Colours told by the code points of ITU-T H.273, in PNG, AVIF and HEIC files."""

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from palette.perception.device import codes_to_lab
from palette.photo.code_points import CodePoints, profile_of_code_points
from palette.photo.profile import DISPLAY_P3, SRGB
from palette.photo.reading import read_photo

GREEN = (40, 200, 60)


def png(*chunks: tuple[bytes, bytes], mode: str = "RGB") -> bytes:
    """PNG of one green with more chunks behind its header."""
    file = io.BytesIO()
    Image.new("RGB", (16, 16), GREEN).convert(mode).save(file, "PNG")
    data = file.getvalue()
    more = b"".join(
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        for kind, body in chunks
    )
    return data[:33] + more + data[33:]


def avif(primaries: int, transfer: int, *, marked: bool = True) -> bytes:
    """AVIF of one green whose box of colour tells these code points."""
    file = io.BytesIO()
    Image.new("RGB", (64, 64), GREEN).save(file, "AVIF", quality=100, subsampling="4:4:4")
    data = file.getvalue()
    at = data.index(b"colrnclx") + 8
    points = struct.pack(">HH", primaries, transfer)
    mark = b"colr" if marked else b"free"
    return data[: at - 8] + mark + b"nclx" + points + data[at + 4 :]


def read(tmp_path, name: str, data: bytes):
    path = tmp_path / name
    path.write_bytes(data)
    return read_photo(path)


def cicp(primaries: int, transfer: int) -> tuple[bytes, bytes]:
    return b"cICP", bytes([primaries, transfer, 0, 1])


def gamma(value: float) -> tuple[bytes, bytes]:
    return b"gAMA", struct.pack(">I", round(value * 100_000))


def chromaticities(*values: float) -> tuple[bytes, bytes]:
    return b"cHRM", struct.pack(">8I", *(round(value * 100_000) for value in values))


P3 = chromaticities(0.3127, 0.3290, 0.680, 0.320, 0.265, 0.690, 0.150, 0.060)


@pytest.mark.parametrize(
    ("name", "data"),
    [("p3.png", png(cicp(12, 13))), ("p3.avif", avif(12, 13))],
    ids=["PNG", "AVIF"],
)
def test_display_p3_keeps_its_colours(tmp_path, name, data) -> None:
    photo = read(tmp_path, name, data)
    assert (photo.profile, photo.warnings) == (DISPLAY_P3, ())
    codes = photo.pixels[0, :1]
    np.testing.assert_allclose(codes, [GREEN], atol=2)
    assert codes_to_lab(photo.profile, codes / 255)[0, 1] < (
        codes_to_lab(SRGB, codes / 255)[0, 1] - 5
    )


@pytest.mark.parametrize(
    "data", [png(cicp(1, 13)), png(cicp(2, 2)), png(cicp(1, 1)), png()], ids=range(4)
)
def test_what_says_srgb_or_nothing_is_srgb(tmp_path, data) -> None:
    photo = read(tmp_path, "x.png", data)
    assert (photo.profile, photo.warnings) == (SRGB, ())


@pytest.mark.parametrize("points", [(1, 13), (2, 2), (1, 6)])
def test_avif_of_srgb(tmp_path, points) -> None:
    assert read(tmp_path, "x.avif", avif(*points)).profile == SRGB
    assert read(tmp_path, "y.avif", avif(12, 13, marked=False)).profile == SRGB


def test_in_png_code_points_go_before_a_profile_and_primaries(tmp_path) -> None:
    # PNG, third edition, 4.3: cICP, iCCP, sRGB, then gAMA with cHRM.
    assert read(tmp_path, "a.png", png(P3, cicp(1, 13))).profile == SRGB
    assert read(tmp_path, "b.png", png(P3, (b"sRGB", b"\0"))).profile == SRGB


def test_primaries_of_a_png(tmp_path) -> None:
    profile = read(tmp_path, "p3.png", png(P3)).profile
    np.testing.assert_allclose(profile.matrix, DISPLAY_P3.matrix, atol=2e-4)
    assert (profile.kind, profile.curves) == ("matrix", DISPLAY_P3.curves)


def test_primaries_and_gamma_of_a_png(tmp_path) -> None:
    profile = read(tmp_path, "p3.png", png(gamma(1 / 1.8), P3)).profile
    np.testing.assert_allclose(profile.matrix, DISPLAY_P3.matrix, atol=2e-4)
    assert float(profile.curves[0].light(0.5)) == pytest.approx(0.5**1.8, abs=1e-3)
    assert profile.name == "RGB with primaries of its own with gamma 1.8"


def test_primaries_of_srgb_are_srgb(tmp_path) -> None:
    same = chromaticities(0.3127, 0.3290, 0.64, 0.33, 0.30, 0.60, 0.15, 0.06)
    assert read(tmp_path, "x.png", png(gamma(1 / 2.2), same)).profile == SRGB


def test_primaries_that_cannot_be(tmp_path) -> None:
    photo = read(tmp_path, "x.png", png(chromaticities(*[0.3] * 8)))
    assert photo.profile == SRGB
    assert photo.warnings == ("the primaries span no colours: read as sRGB",)


def test_code_points_do_not_touch_a_grey_picture(tmp_path) -> None:
    assert read(tmp_path, "x.png", png(cicp(12, 13), mode="L")).profile.kind == "grey"


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ((12, 16), "a picture coded for very bright screens (HDR): its colours are a guess"),
        ((22, 13), "the colours named (22) are not known: read as sRGB"),
        ((1, 11), "the curve named (11) is not known: read with that of sRGB"),
    ],
)
def test_what_has_to_be_guessed_is_told(tmp_path, points, said) -> None:
    assert read(tmp_path, "x.png", png(cicp(*points))).warnings == (said,)
    assert read(tmp_path, "x.avif", avif(*points)).warnings == (said,)


# ITU-T H.273, table 3: 4 is gamma 2.2, 5 gamma 2.8, 8 linear.
@pytest.mark.parametrize(("transfer", "gamma"), [(4, 2.2), (5, 2.8), (8, 1.0)])
def test_pure_gammas(transfer, gamma) -> None:
    odd: list[str] = []
    profile = profile_of_code_points(CodePoints(primaries=9, transfer=transfer), odd)
    assert float(profile.curves[2].light(0.5)) == pytest.approx(0.5**gamma)
    assert (profile.name, odd) == (f"BT.2020 with gamma {gamma:g}", [])


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[:40],
        lambda data: data.replace(b"ipco", b"\0\0\0\0"),
        lambda data: data[: data.index(b"colr") - 4] + b"\0\0\0\2" + data[data.index(b"colr") :],
    ],
    ids=["cut short", "no properties", "a box too small"],
)
def test_damaged_boxes_tell_nothing(damage) -> None:
    from palette.photo.code_points import _in_boxes

    assert list(_in_boxes(avif(12, 13))) == [CodePoints(primaries=12, transfer=13)]
    assert list(_in_boxes(damage(avif(12, 13)))) == []
