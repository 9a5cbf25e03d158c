"""Pictures of 16 bits a channel: at their depth, whatever the layout of the file."""

import struct
import zlib
from pathlib import Path

import imagecodecs
import numpy as np
import pytest
import tifffile
from PIL import Image

from palette.errors import PhotoError
from palette.perception.device import codes_to_lab
from palette.perception.difference import ciede2000
from palette.photo.reading import read_photo


@pytest.fixture
def codes() -> np.ndarray:
    """24 x 32 pixels, every one different, none of them a multiple of 257."""
    steps = np.arange(24 * 32 * 3, dtype=np.uint16).reshape(24, 32, 3)
    return steps * 28 + 5


def cover_of(codes: np.ndarray) -> np.ndarray:
    cover = np.full(codes.shape[:2], 65535, dtype=np.uint16)
    cover[:6] = 0
    return cover


LAYOUTS = {
    "plain": {},
    "from the big end": {"byteorder": ">"},
    "more than 4 GB can hold": {"bigtiff": True},
    "tiles": {"tile": (16, 16)},
    "strips": {"rowsperstrip": 5},
    "LZW": {"compression": "lzw"},
    "LZW with differences": {"compression": "lzw", "predictor": True},
    "deflate": {"compression": "zlib"},
    "deflate with differences": {"compression": "zlib", "predictor": True, "byteorder": ">"},
    "packbits": {"compression": "packbits"},
}


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("apart", [False, True], ids=["side by side", "apart"])
@pytest.mark.parametrize("kind", ["grey", "rgb", "rgba", "cmyk"])
def test_every_layout_of_a_tiff_gives_the_same_codes(tmp_path, codes, layout, apart, kind) -> None:
    path = tmp_path / "deep.tif"
    clear = {"extrasamples": ["unassalpha"]} if kind == "rgba" else {}
    wanted = {
        "grey": codes[..., :1],
        "rgb": codes,
        "rgba": np.dstack([codes, cover_of(codes)]),
        "cmyk": np.dstack([codes, codes[..., 0]]),
    }[kind]
    data = np.moveaxis(wanted, -1, 0) if apart and kind != "grey" else wanted
    photometric = {"grey": "minisblack", "cmyk": "separated"}.get(kind, "rgb")
    tifffile.imwrite(
        path,
        data[..., 0] if kind == "grey" else data,
        photometric=photometric,
        planarconfig=None if kind == "grey" else "separate" if apart else "contig",
        **clear,
        **LAYOUTS[layout],
    )
    photo = read_photo(path)
    assert photo.pixels.dtype == np.uint16
    np.testing.assert_array_equal(photo.pixels, codes if kind == "rgba" else wanted)
    assert (photo.kept is not None) == (kind == "rgba")
    if photo.kept is not None:
        np.testing.assert_array_equal(photo.kept, cover_of(codes) > 0)


@pytest.mark.parametrize("kind", ["grey", "grey and cover", "rgb", "rgba"])
def test_a_png_keeps_its_depth(tmp_path, codes, kind) -> None:
    path = tmp_path / "deep.png"
    wanted = codes[..., :1] if "grey" in kind else codes
    clear = kind in ("grey and cover", "rgba")
    data = np.dstack([wanted, cover_of(codes)]) if clear else wanted
    path.write_bytes(imagecodecs.png_encode(np.ascontiguousarray(data).squeeze()))
    photo = read_photo(path)
    assert photo.warnings == ()
    np.testing.assert_array_equal(photo.pixels, wanted)
    if clear:
        np.testing.assert_array_equal(photo.kept, cover_of(codes) > 0)
    else:
        assert photo.kept is None


def chunk(kind: bytes, data: bytes) -> bytes:
    body = kind + data
    return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))


def test_one_colour_of_a_deep_png_may_be_clear(tmp_path) -> None:
    codes = np.full((4, 5, 3), 1001, dtype=np.uint16)
    codes[2:] = 2002
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in codes)
    path = tmp_path / "key.png"
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", struct.pack(">IIBBBBB", 5, 4, 16, 2, 0, 0, 0))
        + chunk(b"tRNS", struct.pack(">3H", 2002, 2002, 2002))
        + chunk(b"IDAT", zlib.compress(rows))
        + chunk(b"IEND", b"")
    )
    photo = read_photo(path)
    np.testing.assert_array_equal(photo.pixels, codes)
    assert photo.kept.tolist() == [[True] * 5] * 2 + [[False] * 5] * 2


def test_zero_may_be_white(tmp_path, codes) -> None:
    path = tmp_path / "negative.tif"
    tifffile.imwrite(path, 65535 - codes[..., 0], photometric="miniswhite")
    np.testing.assert_array_equal(read_photo(path).pixels[..., 0], codes[..., 0])


def test_premultiplied_colours_are_taken_back(tmp_path, codes) -> None:
    path = tmp_path / "glass.tif"
    cover = np.full(codes.shape[:2], 32768, dtype=np.uint16)
    data = np.dstack([np.rint(codes * (32768 / 65535)).astype(np.uint16), cover])
    tifffile.imwrite(path, data, photometric="rgb", extrasamples=["assocalpha"])
    read = read_photo(path).pixels.astype(int)
    assert np.abs(read - codes).max() <= 1


def test_a_fourth_channel_that_is_no_cover_is_left_out(tmp_path, codes) -> None:
    path = tmp_path / "infrared.tif"
    data = np.dstack([codes, np.zeros(codes.shape[:2], dtype=np.uint16)])
    tifffile.imwrite(path, data, photometric="rgb", extrasamples=["unspecified"])
    photo = read_photo(path)
    assert photo.kept is None
    np.testing.assert_array_equal(photo.pixels, codes)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_deep_tiff_is_turned_upright(tmp_path, codes, orientation) -> None:
    path = tmp_path / "turned.tif"
    tifffile.imwrite(path, codes, photometric="rgb", extratags=[(274, 3, 1, orientation, True)])
    eight = tmp_path / "eight.tif"
    exif = Image.Exif()
    exif[274] = orientation
    Image.fromarray((codes >> 8).astype(np.uint8)).save(eight, exif=exif)
    np.testing.assert_array_equal(read_photo(path).pixels >> 8, read_photo(eight).pixels)


def wide_profile(primaries: np.ndarray, gamma: float) -> bytes:
    """Profile of three colorants (XYZ under D50) and one gamma, as ICC.1:2022 lays it out."""

    def xyz(values: np.ndarray) -> bytes:
        return b"XYZ \0\0\0\0" + struct.pack(">3i", *(round(float(v) * 65536) for v in values))

    curve = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(gamma * 256)) + b"\0\0"
    tags = [(name, xyz(column)) for name, column in zip("rgb", primaries.T, strict=True)]
    parts = [(f"{name}XYZ".encode(), data) for name, data in tags]
    parts += [(f"{name}TRC".encode(), curve) for name in "rgb"]
    start = 132 + 12 * len(parts)
    table, body = struct.pack(">I", len(parts)), b""
    for name, data in parts:
        table += struct.pack(">4sII", name, start + len(body), len(data))
        body += data
    size = start + len(body)
    header = struct.pack(">I", size) + bytes(12) + b"RGB XYZ " + bytes(12) + b"acsp"
    return header + bytes(128 - len(header)) + table + body


@pytest.mark.parametrize("ending", ["tif", "png"])
def test_a_wide_profile_at_its_depth(tmp_path, codes, ending) -> None:
    """ProPhoto RGB (ISO 22028-2 ROMM RGB: gamma 1.8, D50) against colour-science."""
    import colour

    space = colour.RGB_COLOURSPACES["ProPhoto RGB"]
    icc = wide_profile(space.matrix_RGB_to_XYZ, 1.8)
    path = tmp_path / f"wide.{ending}"
    if ending == "tif":
        tifffile.imwrite(path, codes, photometric="rgb", iccprofile=icc)
    else:
        whole = imagecodecs.png_encode(codes)
        packed = chunk(b"iCCP", b"wide\0\0" + zlib.compress(icc))
        path.write_bytes(whole[:33] + packed + whole[33:])
    photo = read_photo(path)
    assert photo.warnings == ()
    assert photo.profile.kind == "matrix"
    taken = photo.pixels.reshape(-1, 3) / photo.top_code
    with colour.domain_range_scale("reference"):
        light = taken**1.8 @ space.matrix_RGB_to_XYZ.T
        d50, d65 = np.array([0.9642, 1.0, 0.8249]), np.array([0.95046, 1.0, 1.08906])
        xyz = colour.chromatic_adaptation(light, d50, d65, transform="Bradford")
        theirs = colour.XYZ_to_Lab(xyz, np.array([0.3127, 0.3290]))
    ours = codes_to_lab(photo.profile, taken)
    assert float(ciede2000(ours, theirs).max()) < 0.05  # the profile rounds to 1 / 65536


@pytest.mark.parametrize(
    ("data", "options", "said"),
    [
        (np.zeros((4, 5, 3), np.float32), {"photometric": "rgb"}, "a TIFF of decimal numbers"),
        (np.zeros((4, 5, 3), np.float16), {"photometric": "rgb"}, "a TIFF of decimal numbers"),
        (np.zeros((4, 5, 3), np.int16), {"photometric": "rgb"}, "a TIFF of signed numbers"),
        (np.zeros((4, 5, 3), np.uint32), {"photometric": "rgb"}, "a TIFF of 32 bits a channel"),
        (np.zeros((4, 5), np.float32), {}, "decimal numbers"),
        (np.full((4, 5), 70_000, np.uint32), {}, "32 bits"),
    ],
)
def test_other_numbers_are_refused(tmp_path, data, options, said) -> None:
    path = tmp_path / "odd.tif"
    tifffile.imwrite(path, data, **options)
    with pytest.raises(PhotoError, match=rf"^odd\.tif: must .* 8 or 16 bits a channel; got {said}"):
        read_photo(path)


@pytest.mark.parametrize("part", [0.2, 0.5, 0.9])
@pytest.mark.parametrize("ending", ["tif", "lzw.tif", "png"])
def test_a_deep_file_cut_short(tmp_path, codes, ending, part) -> None:
    path = tmp_path / f"cut.{ending}"
    large = np.tile(codes, (9, 9, 1))
    if ending == "png":
        path.write_bytes(imagecodecs.png_encode(large))
    else:
        packed = "lzw" if "lzw" in ending else None
        tifffile.imwrite(path, large, photometric="rgb", compression=packed, rowsperstrip=16)
    path.write_bytes(path.read_bytes()[: int(part * path.stat().st_size)])
    with pytest.raises(PhotoError, match=r"^cut\..*: must be a whole picture; got "):
        read_photo(path)


@pytest.mark.parametrize("ending", ["tif", "png"])
def test_without_the_libraries_the_loss_is_told(tmp_path, codes, ending, monkeypatch) -> None:
    import sys

    path = tmp_path / f"deep.{ending}"
    if ending == "png":
        path.write_bytes(imagecodecs.png_encode(codes))
    else:
        tifffile.imwrite(path, codes, photometric="rgb")
    monkeypatch.setitem(sys.modules, "imagecodecs", None)
    photo = read_photo(path)
    assert photo.warnings == (
        "16 bits a channel in the file: read at 8, so shadows are less exact",
    )
    np.testing.assert_array_equal(photo.pixels, codes >> 8)


def test_a_preview_is_told(tmp_path, codes) -> None:
    path = tmp_path / "raw.tif"
    small = (codes[::4, ::4] >> 8).astype(np.uint8)
    tifffile.imwrite(path, small, photometric="rgb", subfiletype=1)
    assert read_photo(path).warnings == (
        "the first picture in the file is a small preview of it: that was read",
    )


def test_the_folder_of_a_deep_file_may_have_any_name(tmp_path: Path, codes) -> None:
    folder = tmp_path / "Frühling 🌿"
    folder.mkdir()
    path = folder / "Blätter ñ.tif"
    tifffile.imwrite(path, codes, photometric="rgb")
    np.testing.assert_array_equal(read_photo(path).pixels, codes)
