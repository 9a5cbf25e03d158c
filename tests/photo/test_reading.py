import contextlib
import io
import os
import struct
import zlib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from palette.errors import PhotoError
from palette.perception.device import codes_to_lab
from palette.perception.difference import ciede2000
from palette.perception.spaces import srgb8_to_lab
from palette.photo.decoding import upright
from palette.photo.photo import Photo
from palette.photo.reading import photo_from_srgb8, read_photo

LEAF, EARTH = (93, 115, 58), (110, 80, 60)


def lab_at(photo: Photo, row: int, column: int) -> np.ndarray:
    codes = photo.pixels[row, column][None] / photo.top_code
    return codes_to_lab(photo.profile, codes)[0]


def assert_two_colours(photo: Photo, most: float) -> None:
    assert (photo.width_px, photo.height_px) == (40, 30)
    for row, colour in ((4, LEAF), (25, EARTH)):
        assert float(ciede2000(lab_at(photo, row, 20), srgb8_to_lab(colour))) <= most


@pytest.mark.parametrize(
    ("name", "options", "most"),
    [
        ("a.png", {}, 0),
        ("a.tif", {}, 0),
        ("a.bmp", {}, 0),
        ("a.jpg", {"quality": 95}, 1.5),
        ("a.webp", {"lossless": True}, 0),
        ("a.avif", {"quality": 95}, 1.5),
        ("a.gif", {}, 1.5),
    ],
)
def test_every_format_gives_the_colours(saved, name, options, most) -> None:
    photo = read_photo(saved(name, **options))
    assert_two_colours(photo, most + 1e-9)
    assert photo.name == name
    assert photo.profile.name == "sRGB"


def test_heic_as_phones_write_it() -> None:
    photo = read_photo(Path(__file__).parents[1] / "data" / "two-colours.heic")
    assert photo.format == "HEIF"
    assert_two_colours(photo, 2.5)


def test_a_wrong_ending_does_not_matter(saved, tmp_path) -> None:
    path = saved("a.png").rename(tmp_path / "holiday.jpg")
    assert read_photo(path).format == "PNG"


def test_palette_png(tmp_path, two_colours) -> None:
    path = tmp_path / "a.png"
    Image.fromarray(two_colours).quantize(2).save(path)
    assert_two_colours(read_photo(path), 0.001)


def test_grey_jpeg_has_one_channel(saved) -> None:
    photo = read_photo(saved("a.jpg", mode="L"))
    assert photo.pixels.shape == (30, 40, 1)
    assert np.abs(lab_at(photo, 4, 4)[1:]).max() < 1e-9


def test_black_and_white_png(saved) -> None:
    assert set(np.unique(read_photo(saved("a.png", mode="1")).pixels)) <= {0, 255}


def test_cmyk_jpeg_without_a_profile_says_that_it_guesses(saved) -> None:
    photo = read_photo(saved("a.jpg", mode="CMYK", quality=95))
    assert photo.warnings == ("a CMYK picture without a colour profile: its colours are a guess",)
    assert_two_colours(photo, 3)


def test_sixteen_bit_grey_keeps_its_depth(tmp_path) -> None:
    path = tmp_path / "deep.tif"
    Image.fromarray(np.full((4, 5), 30000, dtype=np.uint16)).save(path)
    photo = read_photo(path)
    assert photo.pixels.dtype == np.uint16
    assert photo.top_code == 65535
    assert int(photo.pixels[0, 0, 0]) == 30000


def sixteen_bit_png(colour: tuple[int, int, int]) -> bytes:
    def chunk(kind: bytes, data: bytes) -> bytes:
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    rows = (b"\0" + struct.pack(">3H", *colour) * 4) * 4
    header = struct.pack(">IIBBBBB", 4, 4, 16, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(rows))
        + chunk(b"IEND", b"")
    )


def test_sixteen_bit_rgb_png(tmp_path) -> None:
    path = tmp_path / "deep.png"
    path.write_bytes(sixteen_bit_png(tuple(257 * code for code in LEAF)))
    assert float(ciede2000(lab_at(read_photo(path), 0, 0), srgb8_to_lab(LEAF))) < 0.01


def test_sixteen_bit_rgb_tiff(tmp_path) -> None:
    tifffile = pytest.importorskip("tifffile")
    path = tmp_path / "deep.tif"
    tifffile.imwrite(path, np.full((6, 6, 3), LEAF, dtype=np.uint16) * 257, photometric="rgb")
    assert float(ciede2000(lab_at(read_photo(path), 0, 0), srgb8_to_lab(LEAF))) < 0.6


@pytest.mark.parametrize("ending", ["gif", "webp", "png", "tif"])
def test_the_first_of_several_pictures_is_read(tmp_path, two_colours, ending) -> None:
    path = tmp_path / f"moving.{ending}"
    first, second = Image.fromarray(two_colours), Image.new("RGB", (40, 30), "white")
    first.save(
        path,
        save_all=True,
        append_images=[second],
        **({"lossless": True} if ending == "webp" else {}),
    )
    photo = read_photo(path)
    assert photo.warnings == ("2 pictures in the file: the first was read",)
    assert_two_colours(photo, 1.5)


def test_the_picture_of_a_heic_that_a_phone_shows() -> None:
    photo = read_photo(Path(__file__).parents[1] / "data" / "three-colours.heic")
    assert photo.warnings == ("3 pictures in the file: the main one, number 2, was read",)
    assert float(ciede2000(lab_at(photo, 8, 8), srgb8_to_lab(LEAF))) < 2


def test_the_second_picture_of_a_phone_is_not_spoken_of(tmp_path, two_colours) -> None:
    path = tmp_path / "phone.jpg"
    first, second = Image.fromarray(two_colours), Image.new("RGB", (40, 30), "white")
    first.save(path, format="MPO", save_all=True, append_images=[second], quality=95)
    photo = read_photo(path)
    assert photo.warnings == ()
    assert_two_colours(photo, 1.5)


@pytest.mark.parametrize("ending", ["png", "tif", "webp", "jpg", "avif"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_exif_orientation_comes_out_upright(tmp_path, orientation, ending) -> None:
    upright = np.zeros((32, 48, 3), dtype=np.uint8)
    upright[:16, :32] = 255
    upright[:16, 32:] = (200, 0, 0)
    turned = {
        1: lambda p: p,
        2: lambda p: p[:, ::-1],
        3: lambda p: p[::-1, ::-1],
        4: lambda p: p[::-1],
        5: lambda p: p.swapaxes(0, 1),
        6: lambda p: np.rot90(p, 1),
        7: lambda p: p[::-1, ::-1].swapaxes(0, 1),
        8: lambda p: np.rot90(p, -1),
    }[orientation](upright)  # EXIF 2.32, table 6: where row 0 and column 0 lie
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = tmp_path / f"turned.{ending}"
    how = {"webp": {"lossless": True}, "jpg": {"quality": 100}, "avif": {"quality": 100}}
    Image.fromarray(np.ascontiguousarray(turned)).save(path, exif=exif, **how.get(ending, {}))
    pixels = read_photo(path).pixels
    assert pixels.shape == upright.shape
    off = np.abs(pixels.astype(int) - upright).max(axis=2)
    lossy = ending in ("jpg", "avif")  # these smear the edges between the colours
    assert np.quantile(off, 0.8) <= 2 if lossy else off.max() == 0


@pytest.mark.parametrize("mode", ["L", "LA", "RGBA", "CMYK", "1"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_kind_of_picture_is_turned_with_its_cover(tmp_path, orientation, mode) -> None:
    channels = {"L": 1, "1": 1, "LA": 2, "RGBA": 4, "CMYK": 4}[mode]
    codes = np.random.default_rng(orientation).integers(0, 256, (5, 7, channels), dtype=np.uint8)
    if mode == "1":
        codes = np.where(codes > 127, 255, 0).astype(np.uint8)
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = tmp_path / ("turned.tif" if mode in ("CMYK", "L") else "turned.png")
    whole = Image.fromarray(codes.squeeze(), "L" if mode == "1" else mode)
    (whole.convert("1") if mode == "1" else whole).save(path, exif=exif)
    photo = read_photo(path)
    clear = mode in ("LA", "RGBA")
    colours = codes[..., :-1] if clear else codes
    np.testing.assert_array_equal(photo.pixels, upright(colours, orientation))
    if clear and not (codes[..., -1] > 0).all():
        np.testing.assert_array_equal(photo.kept, upright(codes[..., -1] > 0, orientation))


def test_an_orientation_that_does_not_exist_is_told_and_ignored(saved) -> None:
    exif = Image.Exif()
    exif[0x0112] = 42
    photo = read_photo(saved("a.png", exif=exif))
    assert photo.warnings == ("the EXIF orientation must be from 1 to 8; got 42: read as it lies",)
    assert_two_colours(photo, 0.001)


def test_wholly_transparent_pixels_do_not_count(tmp_path, two_colours) -> None:
    clear = np.dstack([two_colours, np.full((30, 40), 255, dtype=np.uint8)])
    clear[:15, :, 3] = 0
    path = tmp_path / "clear.png"
    Image.fromarray(clear).save(path)
    photo = read_photo(path)
    assert photo.kept is not None
    assert not photo.kept[:15].any()
    assert photo.kept[15:].all()


def test_a_palette_png_with_a_transparent_entry(tmp_path, two_colours) -> None:
    path = tmp_path / "clear.png"
    picture = Image.fromarray(two_colours).quantize(2)
    picture.save(path, transparency=picture.getpixel((0, 0)))
    kept = read_photo(path).kept
    assert kept is not None
    assert int(kept.sum()) == 600


def test_pixels_cannot_be_written(saved) -> None:
    with pytest.raises(ValueError, match="read-only"):
        read_photo(saved("a.png")).pixels[0, 0, 0] = 1


def test_a_photo_of_one_pixel(tmp_path) -> None:
    path = tmp_path / "dot.png"
    Image.new("RGB", (1, 1), LEAF).save(path)
    assert read_photo(path).pixels.shape == (1, 1, 3)


# What cannot be used ----------------------------------------------------------------------------


def test_a_missing_file(tmp_path) -> None:
    with pytest.raises(PhotoError, match=r"^gone\.jpg: must be a file; got nothing by that name\."):
        read_photo(tmp_path / "gone.jpg")


def test_a_folder(tmp_path) -> None:
    (tmp_path / "album").mkdir()
    with pytest.raises(PhotoError, match=r"^album: must be a file; got a folder\. Name a photo\."):
        read_photo(tmp_path / "album")


def test_an_empty_file(tmp_path) -> None:
    (tmp_path / "empty.jpg").touch()
    with pytest.raises(PhotoError, match=r"^empty\.jpg: must be a picture; got an empty file\."):
        read_photo(tmp_path / "empty.jpg")


def test_a_file_that_may_not_be_read(saved, monkeypatch) -> None:
    path = saved("a.png")

    def refuse(*_args, **_options):
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Image, "open", refuse)
    with pytest.raises(PhotoError, match=r"^a\.png: must be a file that can be opened; got one th"):
        read_photo(path)


def test_a_text_file_named_jpg(tmp_path) -> None:
    path = tmp_path / "letter.jpg"
    path.write_text("Dear weaver, this is no picture.", encoding="utf-8")
    with pytest.raises(
        PhotoError, match=r"^letter\.jpg: must be a picture; got text\. Give a JPEG"
    ):
        read_photo(path)


@pytest.mark.parametrize(
    ("start", "said"),
    [
        (b"%PDF-1.7\n", "a PDF"),
        (b"PK\3\4", "an archive or a document"),
        (b"\0\0\0\x20ftypqt  ", "a film, or a picture of a kind that is not known here"),
    ],
)
def test_other_files_that_people_name_jpg(tmp_path, start, said) -> None:
    path = tmp_path / "page.jpg"
    path.write_bytes(start + bytes(range(256)))
    with pytest.raises(PhotoError, match=rf"^page\.jpg: must be a picture; got {said}\."):
        read_photo(path)


def test_random_bytes(tmp_path) -> None:
    path = tmp_path / "noise.jpg"
    path.write_bytes(bytes(range(256)) * 4)
    with pytest.raises(PhotoError, match=r"^noise\.jpg: must be a picture; got something else\."):
        read_photo(path)


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.tif", "a.webp", "a.avif", "a.bmp", "a.gif"])
@pytest.mark.parametrize("part", [0.3, 0.6, 0.9])
def test_a_file_cut_short(tmp_path, name, part) -> None:
    noise = np.random.default_rng(0).integers(0, 256, (60, 80, 3), dtype=np.uint8)
    path = tmp_path / name
    Image.fromarray(noise).save(path)
    path.write_bytes(path.read_bytes()[: int(part * path.stat().st_size)])
    with pytest.raises(PhotoError, match=rf"^{name}: must be a (whole )?picture; got ") as caught:
        read_photo(path)
    assert caught.value.exit_code == 3


def test_a_heic_cut_short(tmp_path) -> None:
    whole = (Path(__file__).parents[1] / "data" / "two-colours.heic").read_bytes()
    path = tmp_path / "cut.heic"
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(PhotoError, match=r"^cut\.heic: must be a (whole )?picture; got "):
        read_photo(path)


def test_a_picture_that_is_gigantic_on_purpose(tmp_path) -> None:
    def chunk(kind: bytes, data: bytes) -> bytes:
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    path = tmp_path / "bomb.png"
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", struct.pack(">IIBBBBB", 60000, 60000, 8, 2, 0, 0, 0))
        + chunk(b"IDAT", zlib.compress(b"\0" * 1000))
        + chunk(b"IEND", b"")
    )
    with pytest.raises(PhotoError, match=r"^bomb\.png: must have at most [\d,]+ pixels"):
        read_photo(path)


def test_a_fully_transparent_png(tmp_path) -> None:
    path = tmp_path / "glass.png"
    Image.new("RGBA", (5, 5), (10, 20, 30, 0)).save(path)
    with pytest.raises(
        PhotoError, match=r"^glass\.png: must hold a colour; got transparent pixels only\."
    ):
        read_photo(path)


def test_a_name_that_no_file_can_have() -> None:
    with pytest.raises(PhotoError, match=r"must be a file|cannot be opened"):
        read_photo("leaf\0.jpg")


# Profiles ---------------------------------------------------------------------------------------


def srgb_profile() -> bytes:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def test_a_broken_profile_is_told(saved) -> None:
    photo = read_photo(saved("a.png", icc_profile=srgb_profile()[:200]))
    assert photo.warnings == ("the colour profile is cut short: the picture was read as sRGB",)
    assert_two_colours(photo, 0.001)


def test_a_profile_of_noise_is_told(saved) -> None:
    photo = read_photo(saved("a.png", icc_profile=bytes(200)))
    assert photo.warnings == (
        "the colour profile is not a colour profile: the picture was read as sRGB",
    )


def test_a_lying_profile_is_told(saved) -> None:
    icc = bytearray(srgb_profile())
    icc[16:20] = b"GRAY"
    photo = read_photo(saved("a.png", icc_profile=bytes(icc)))
    assert photo.warnings == ("the colour profile cannot be read: the picture was read as sRGB",)


def test_a_profile_that_is_not_for_such_pictures(saved) -> None:
    photo = read_photo(saved("a.png", mode="L", icc_profile=srgb_profile()))
    assert "is not for grey pictures" in photo.warnings[0]
    assert photo.profile.kind == "grey"


@pytest.mark.parametrize("kind", [b"link", b"abst", b"nmcl"])
def test_a_profile_that_no_picture_can_be_in(saved, kind) -> None:
    icc = bytearray(srgb_profile())
    icc[12:16] = kind
    photo = read_photo(saved("a.png", icc_profile=bytes(icc)))
    assert photo.warnings == (
        "the colour profile is of a kind that no picture can be in: the picture was read as sRGB",
    )


def with_gamma(path: Path, gamma: float) -> Path:
    """Put the chunk of ISO/IEC 15948, 11.3.3.2, after the header of a PNG."""
    body = b"gAMA" + struct.pack(">I", round(100_000 / gamma))
    whole = path.read_bytes()
    chunk = struct.pack(">I", 4) + body + struct.pack(">I", zlib.crc32(body))
    path.write_bytes(whole[:33] + chunk + whole[33:])
    return path


@pytest.mark.parametrize("mode", ["RGB", "L", "P", "LA", "RGBA"])
@pytest.mark.parametrize("gamma", [1.0, 1.8, 2.8])
def test_the_gamma_of_a_png_is_kept(saved, mode, gamma) -> None:
    photo = read_photo(with_gamma(saved("a.png", mode=mode), gamma))
    light = (photo.pixels[4, 4] / 255.0) ** gamma
    lightness = lab_at(photo, 4, 4)[0]
    luminance = light[0] if len(light) == 1 else light @ [0.2126, 0.7152, 0.0722]
    assert lightness == pytest.approx(116 * np.cbrt(luminance) - 16, abs=0.05)
    assert photo.profile.name.endswith(f"with gamma {gamma:.2g}")


def test_the_gamma_of_srgb_is_srgb(saved) -> None:
    assert read_photo(with_gamma(saved("a.png"), 2.2)).profile.kind == "srgb"


@pytest.mark.parametrize("gamma", [0.01, 40.0])
def test_a_gamma_that_no_picture_has(saved, gamma) -> None:
    assert read_photo(with_gamma(saved("a.png"), gamma)).profile.kind == "srgb"


def test_exif_can_name_adobe_rgb(tmp_path, two_colours) -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA001] = 0xFFFF
    exif.get_ifd(0x8769)[0xA005] = {1: "R03"}
    path = tmp_path / "a.jpg"
    Image.fromarray(two_colours).save(path, exif=exif)
    assert read_photo(path).profile.name == "Adobe RGB (1998)"


def test_photo_from_memory() -> None:
    assert photo_from_srgb8("x", np.zeros((2, 3, 3))).pixels.dtype == np.uint8


@pytest.mark.parametrize(
    ("pixels", "words"),
    [
        (np.zeros((2, 3), dtype=np.uint8), r"shape \(height, width, 3\)"),
        (np.zeros((0, 3, 3), dtype=np.uint8), r"shape \(height, width, 3\)"),
        (np.zeros((2, 3, 3)), "uint8 or uint16; got float64"),
    ],
)
def test_a_photo_of_other_arrays_is_refused(pixels, words) -> None:
    with pytest.raises(PhotoError, match=f"^x: pixels must be .*{words}"):
        Photo(name="x", pixels=pixels)


def test_a_photo_with_another_mask_is_refused() -> None:
    with pytest.raises(PhotoError, match=r"^x: kept must be a bool array of shape \(2, 3\)"):
        Photo(name="x", pixels=np.zeros((2, 3, 3), dtype=np.uint8), kept=np.zeros((3, 2), bool))


def test_postscript_is_never_run(tmp_path) -> None:
    page = tmp_path / "loop.jpg"
    page.write_bytes(b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n%%EndComments\n{} loop\n")
    with pytest.raises(PhotoError, match=r"^loop.jpg: must be a picture; got PostScript"):
        read_photo(page)


def test_pipes_and_links_that_lead_nowhere(tmp_path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    with pytest.raises(PhotoError, match="must be a file; got a pipe or a device"):
        read_photo(tmp_path / "pipe.jpg")
    (tmp_path / "round.jpg").symlink_to(tmp_path / "round.jpg")
    with pytest.raises(PhotoError, match="must be a file; got a link that leads nowhere"):
        read_photo(tmp_path / "round.jpg")


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("form", ["AVIF", "WEBP", "PNG", "TIFF", "JPEG", "GIF"])
def test_a_damaged_file_is_read_or_refused_in_one_sentence(tmp_path, capfd, form, seed) -> None:
    chance = np.random.default_rng(seed)
    file = io.BytesIO()
    pixels = chance.integers(0, 256, (40, 60, 3), dtype=np.uint8)
    Image.fromarray(pixels).save(file, form)
    data = bytearray(file.getvalue())
    for place in chance.integers(4, min(400, len(data)), 5):
        data[place] = chance.integers(0, 256)
    path = tmp_path / "damaged"
    path.write_bytes(data)
    with contextlib.suppress(PhotoError):  # whose wording is tested where it is made
        assert read_photo(path).pixels.size
    assert capfd.readouterr().err == ""
