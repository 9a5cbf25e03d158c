from pathlib import Path

import numpy as np
import pytest
import sklearn.datasets
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from palette.errors import InputError
from palette.perception.device import codes_to_xyz
from palette.perception.difference import ciede2000
from palette.perception.light import parse_light, without_cast
from palette.perception.spaces import hex_to_lab, lab_to_xyz, srgb8_to_lab, xyz_to_lab
from palette.photo.photo import Photo
from palette.photo.profile import ADOBE_RGB, D50_XYZ, DISPLAY_P3, SRGB, Profile
from palette.photo.reading import read_photo
from palette.photo.selection import within_region
from palette.swatches.extraction import MOST_COLOURS, extract

IMAGES = Path(sklearn.datasets.__file__).parent / "images"
LEAF, EARTH, SKY, BEETLE = (93, 115, 58), (110, 80, 60), (170, 200, 230), (200, 30, 30)


def photo_of(pixels: np.ndarray, **more) -> Photo:
    return Photo(name="x", pixels=np.ascontiguousarray(pixels, dtype=np.uint8), **more)


def bank(beetle: int = 0) -> np.ndarray:
    """Sky over leaf over earth, with grain and, if asked, a beetle of so many pixels' radius."""
    generator = np.random.default_rng(0)
    pixels = np.empty((200, 300, 3))
    pixels[:50], pixels[50:150], pixels[150:] = SKY, LEAF, EARTH
    if beetle:
        down, across = np.ogrid[:200, :300]
        pixels[(down - 100) ** 2 + (across - 80) ** 2 < beetle**2] = BEETLE
    return np.clip(pixels + generator.normal(0, 3, pixels.shape), 0, 255).astype(np.uint8)


def nearest_difference(palette, colour) -> float:
    return float(ciede2000([s.lab for s in palette.swatches], srgb8_to_lab(colour)).min())


@pytest.fixture(scope="module")
def flower() -> Photo:
    return read_photo(IMAGES / "flower.jpg")


@pytest.mark.parametrize("name", ["flower.jpg", "china.jpg"])
def test_real_photographs(name) -> None:
    palette = extract(read_photo(IMAGES / name))
    assert len(palette.swatches) == 8
    shares = [swatch.share for swatch in palette.swatches]
    assert shares == sorted(shares, reverse=True)
    assert palette.source.photos == (name,)
    assert (palette.source.width_px, palette.source.height_px) == (640, 427)


def test_shares_of_known_areas() -> None:
    palette = extract(photo_of(bank()), 3)
    assert [round(swatch.share, 3) for swatch in palette.swatches] == [0.5, 0.25, 0.25]
    for colour in (LEAF, EARTH, SKY):
        assert nearest_difference(palette, colour) < 1


def test_places_tell_top_from_bottom() -> None:
    swatches = sorted(extract(photo_of(bank()), 3).swatches, key=lambda swatch: swatch.place[1])
    assert [round(swatch.place[1], 2) for swatch in swatches] == [0.13, 0.5, 0.88]
    assert all(abs(swatch.place[0] - 0.5) < 0.01 for swatch in swatches)


def test_the_same_photograph_gives_the_same_palette(flower) -> None:
    assert extract(flower) == extract(flower)


def test_one_colour_asked_for_eight() -> None:
    palette = extract(photo_of(np.full((20, 20, 3), LEAF)))
    assert [swatch.hex for swatch in palette.swatches] == ["#5d733a"]
    assert palette.swatches[0].share == 1
    assert palette.warnings == ("one colour found; 8 asked",)


def test_two_colours_asked_for_eight() -> None:
    pixels = np.full((20, 20, 3), LEAF)
    pixels[:5] = EARTH
    palette = extract(photo_of(pixels))
    assert [swatch.hex for swatch in palette.swatches] == ["#5d733a", "#6e503c"]
    assert palette.warnings == ("2 colours found; 8 asked",)


def test_a_picture_of_one_pixel() -> None:
    assert extract(photo_of([[LEAF]]), 1).swatches[0].hex == "#5d733a"


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 12))
def test_shares_sum_to_one_and_names_differ(seed, colours) -> None:
    pixels = np.random.default_rng(seed).integers(0, 256, (17, 23, 3))
    palette = extract(photo_of(pixels), colours)
    assert sum(swatch.share for swatch in palette.swatches) == pytest.approx(1)
    assert 1 <= len(palette.swatches) <= colours
    assert len({swatch.name for swatch in palette.swatches}) == len(palette.swatches)


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_shuffling_the_pixels_changes_no_colour(seed) -> None:
    pixels = bank()[::2, ::2]
    order = np.random.default_rng(seed).permutation(pixels.reshape(-1, 3))
    one = extract(photo_of(pixels), 4, accents=False)
    other = extract(photo_of(order.reshape(pixels.shape)), 4, accents=False)
    for swatch, twin in zip(one.swatches, other.swatches, strict=True):
        assert swatch.lab == pytest.approx(twin.lab, abs=1e-6)
        assert swatch.share == pytest.approx(twin.share)


# Accents ----------------------------------------------------------------------------------------


def test_the_beetle_is_found_and_marked() -> None:
    palette = extract(photo_of(bank(beetle=8)), 4)
    [accent] = [swatch for swatch in palette.swatches if swatch.accent]
    assert float(ciede2000(accent.lab, srgb8_to_lab(BEETLE))) < 2
    assert accent.share == pytest.approx(np.pi * 64 / 60000, rel=0.1)
    assert accent.place == pytest.approx((80 / 300, 0.5), abs=0.02)


def test_the_beetle_goes_unmarked_where_accents_are_not_wanted() -> None:
    palette = extract(photo_of(bank(beetle=8)), 3, accents=False)
    assert not any(swatch.accent for swatch in palette.swatches)


def test_speckle_is_no_accent() -> None:
    pixels = bank()
    pixels[np.random.default_rng(3).random(pixels.shape[:2]) < 0.004] = BEETLE
    assert not any(swatch.accent for swatch in extract(photo_of(pixels), 4).swatches)


# How many ---------------------------------------------------------------------------------------


def test_auto_counts_and_says_why() -> None:
    palette = extract(photo_of(bank(beetle=8)), None)
    assert len(palette.swatches) == 4
    assert palette.source.colours_asked is None
    assert palette.source.why.startswith("one more would ")
    assert palette.source.why.endswith("; accents are counted on top")


# Settings ---------------------------------------------------------------------------------------


def test_a_kept_colour_stays_exactly(flower) -> None:
    palette = extract(flower, 6, keep=["#d02090"])
    [kept] = [swatch for swatch in palette.swatches if swatch.hex == "#d02090"]
    assert kept.lab == pytest.approx(hex_to_lab("#d02090"))
    assert len(palette.swatches) == 6
    assert ("keep", "#d02090") in palette.source.settings


def test_a_kept_colour_that_the_picture_lacks_is_told() -> None:
    palette = extract(photo_of(np.full((9, 9, 3), LEAF)), 2, keep=["#d02090"])
    [kept] = [swatch for swatch in palette.swatches if swatch.hex == "#d02090"]
    assert kept.share == 0
    assert "nothing in the picture is nearest to the kept colour" in palette.warnings[0]


def test_colours_left_out_do_not_count() -> None:
    palette = extract(photo_of(bank()), 3, leave_out=["#aac8e6"])
    assert nearest_difference(palette, SKY) > 15
    assert max(swatch.share for swatch in palette.swatches) == pytest.approx(2 / 3, abs=0.01)


def test_leaving_out_everything() -> None:
    with pytest.raises(InputError, match=r"^--leave-out: must leave something of every picture"):
        extract(photo_of(np.full((9, 9, 3), LEAF)), leave_out=["#5d733a"])


def test_folded_shadows_follow_the_leaf_and_not_the_sun() -> None:
    lit = lab_to_xyz(srgb8_to_lab([LEAF, EARTH]))
    light = np.linspace(0.15, 1, 100)[None, :, None]  # shade to sun, left to right
    xyz = np.repeat(lit[:, None] * light, 40, axis=0).reshape(80, 100, 3)
    from palette.perception.spaces import lab_to_srgb8

    photo = photo_of(lab_to_srgb8(xyz_to_lab(xyz)))
    palette = extract(photo, 2, shadows="fold")
    assert [round(swatch.share, 2) for swatch in palette.swatches] == [0.5, 0.5]
    hues = sorted(np.degrees(np.arctan2(s.lab[2], s.lab[1])) for s in palette.swatches)
    truth = sorted(np.degrees(np.arctan2(b, a)) for _, a, b in srgb8_to_lab([LEAF, EARTH]))
    assert hues == pytest.approx(truth, abs=4)
    kept = extract(photo, 2)
    assert min(s.lab[0] for s in palette.swatches) > min(s.lab[0] for s in kept.swatches)


def test_lamp_light_is_taken_away() -> None:
    lamp = parse_light("A")
    truth = srgb8_to_lab([LEAF, SKY])
    import colour

    matrix = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        lab_to_xyz([100, 0, 0]), np.array(lamp.white_xyz), transform="Bradford"
    )
    from palette.perception.spaces import lab_to_srgb8

    warm = lab_to_srgb8(xyz_to_lab(0.5 * lab_to_xyz(truth) @ matrix.T))
    photo = photo_of(np.repeat(warm[:, None], 10, axis=1).repeat(10, axis=0))
    expected = xyz_to_lab(0.5 * lab_to_xyz(truth))
    found = extract(photo, 2, light=lamp)
    for lab in expected:
        assert float(ciede2000([s.lab for s in found.swatches], lab).min()) < 2
    np.testing.assert_allclose(
        without_cast(codes_to_xyz(SRGB, warm / 255), lamp), lab_to_xyz(expected), atol=0.02
    )


def codes_of(labs: np.ndarray, profile: Profile) -> np.ndarray:
    """16 bit codes of CIELAB colours in the space of a profile (its own inverse, for tests)."""
    from palette.perception.device import d50_to_d65

    linear = lab_to_xyz(labs) @ np.linalg.inv(d50_to_d65()).T @ np.linalg.inv(profile.matrix).T
    grid = np.linspace(0, 1, 4097)
    light = profile.curves[0].light(grid)
    assert len(D50_XYZ) == 3
    return np.rint(np.interp(linear, light, grid) * 65535).astype(np.uint16)


@pytest.mark.parametrize("profile", [DISPLAY_P3, ADOBE_RGB])
@pytest.mark.parametrize("name", ["coffee", "chelsea", "astronaut"])
def test_one_scene_in_another_space_gives_the_same_palette(name, profile) -> None:
    import skimage

    photo = read_photo(Path(skimage.__file__).parent / "data" / f"{name}.png")
    labs = srgb8_to_lab(photo.pixels)
    other = extract(Photo(name="x", pixels=codes_of(labs, profile), profile=profile))
    for swatch in extract(photo).swatches:
        assert float(ciede2000(swatch.lab, [s.lab for s in other.swatches]).min()) < 1


def test_a_green_outside_srgb_keeps_its_numbers_and_is_told() -> None:
    codes = np.full((9, 9, 3), (60, 250, 40), dtype=np.uint8)
    palette = extract(photo_of(codes, profile=DISPLAY_P3), 1)
    [swatch] = palette.swatches
    assert not swatch.in_srgb
    assert swatch.lab[1] < -95
    assert "lies outside sRGB" in palette.warnings[0]


def test_several_photographs_count_alike_whatever_their_size() -> None:
    small, large = np.full((10, 10, 3), LEAF), np.full((90, 90, 3), EARTH)
    palette = extract([photo_of(small), photo_of(large)], 2)
    assert [swatch.share for swatch in palette.swatches] == [0.5, 0.5]
    assert palette.source.photos == ("x", "x")


def test_a_region_decides_the_palette() -> None:
    palette = extract(within_region(photo_of(bank()), (0, 0, 1, 0.25)), 2)
    assert nearest_difference(palette, SKY) < 2
    assert ("region", "0,0,100,25 per cent") in palette.source.settings


def test_noise_gives_an_answer() -> None:
    noise = np.random.default_rng(1).integers(0, 256, (100, 100, 3))
    assert len(extract(photo_of(noise)).swatches) == 8


@pytest.mark.parametrize("colours", [0, -1, MOST_COLOURS + 1])
def test_a_count_out_of_range(colours) -> None:
    with pytest.raises(
        InputError, match=rf"^--colours: must be from 1 to 64, or auto; got {colours}"
    ):
        extract(photo_of(bank()), colours)


def test_more_kept_than_asked() -> None:
    with pytest.raises(InputError, match=r"^--keep: must be at most --colours \(1\); got 2"):
        extract(photo_of(bank()), 1, keep=["#000", "#fff"])


def test_an_unknown_way_with_shadows() -> None:
    with pytest.raises(InputError, match=r"^--shadows: must be keep or fold; got 'drop'"):
        extract(photo_of(bank()), shadows="drop")


def test_no_photograph() -> None:
    with pytest.raises(InputError, match=r"^photo: must be given; got none"):
        extract([])


def test_a_kept_colour_that_is_none() -> None:
    with pytest.raises(InputError, match=r"^colour: must be written #rrggbb; got 'mossy'"):
        extract(photo_of(bank()), keep=["mossy"])


def test_a_photo_in_shades_of_grey(tmp_path) -> None:
    path = tmp_path / "grey.png"
    Image.fromarray(np.tile(np.arange(256, dtype=np.uint8), (20, 1))).save(path)
    palette = extract(read_photo(path), 4)
    assert all(abs(s.lab[1]) < 0.01 and abs(s.lab[2]) < 0.01 for s in palette.swatches)


@pytest.mark.parametrize(
    "colour", [(float("nan"), 0.0, 0.0), (50.0, 0.0), (500.0, 0.0, 0.0), ((1.0, 2.0, 3.0),)]
)
@pytest.mark.parametrize(("option", "thing"), [("keep", "keep"), ("leave_out", "leave out")])
def test_a_colour_given_as_numbers_must_be_one(option, thing, colour) -> None:
    rule = f"^{thing}: must be three finite numbers, the first from 0 to 100; got "
    with pytest.raises(InputError, match=rule):
        extract(photo_of(bank()), 4, **{option: [colour]})


def test_a_kept_colour_may_be_an_array() -> None:
    palette = extract(photo_of(bank()), 4, keep=[np.array([50.0, 10.0, 20.0])])
    assert (50.0, 10.0, 20.0) in [swatch.lab for swatch in palette.swatches]
    assert len({*palette.swatches}) == len(palette.swatches)
