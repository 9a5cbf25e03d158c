"""The sample images: what their list says, what their script makes, and what the library finds."""

import hashlib
import importlib
import json
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from skimage.color import rgb2lab

from palette.perception.difference import ciede2000
from palette.photo.reading import read_photo
from palette.swatches.extraction import extract

FOLDER = Path(__file__).parents[1] / "sample_images"
TRUTH = json.loads((FOLDER / "truth.json").read_text(encoding="utf-8"))
NAMES = sorted(TRUTH)
LARGE = 0.03  # a true colour of this share or more has to be found
NEAR = 5.0  # CIEDE2000
SHARE_WITHIN = 0.03


@pytest.fixture(scope="module")
def scripts():
    """The rendering scripts, which are no package."""
    sys.path.insert(0, str(FOLDER))
    try:
        yield lambda name: importlib.import_module(name)
    finally:
        sys.path.remove(str(FOLDER))


@pytest.mark.parametrize("name", NAMES)
def test_file_is_the_one_listed(name):
    data = (FOLDER / name).read_bytes()
    assert hashlib.sha256(data).hexdigest() == TRUTH[name]["sha256"]
    assert len(data) == TRUTH[name]["bytes"] < 1_500_000


@pytest.mark.parametrize("name", NAMES)
def test_picture_has_three_megapixels_and_no_metadata(name):
    with Image.open(FOLDER / name) as picture:
        width, height = picture.size
        assert width * height >= 3_000_000
        assert not picture.getexif()
        assert set(picture.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_every_picture_in_the_folder_is_listed():
    assert {path.name for path in FOLDER.glob("*.jpg")} == set(NAMES)
    assert len(NAMES) >= 3


@pytest.mark.parametrize("name", NAMES)
def test_true_shares_sum_to_one(name):
    assert sum(colour["share"] for colour in TRUTH[name]["colours"]) == pytest.approx(1, abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_true_hex_and_lab_are_one_colour(name):
    for colour in TRUTH[name]["colours"]:
        rgb = np.array([[[int(colour["hex"][i : i + 2], 16) for i in (1, 3, 5)]]], np.uint8)
        lab = rgb2lab(rgb)[0, 0]  # scikit-image's own conversion, IEC 61966-2-1 and CIE 15
        assert (
            float(ciede2000(lab, np.array(colour["lab"]))) < 1.0
        )  # rounding to eight bits, near neutral


@pytest.mark.parametrize("name", NAMES)
def test_palette_finds_every_true_colour(name):
    palette = extract(read_photo(FOLDER / name), colours=8)
    found = np.array([swatch.lab for swatch in palette.swatches])
    for colour in TRUTH[name]["colours"]:
        if colour["share"] >= LARGE:
            difference = ciede2000(found, np.array(colour["lab"]))
            nearest = palette.swatches[int(np.argmin(difference))]
            assert difference.min() <= NEAR, colour["name"]
            assert nearest.share == pytest.approx(colour["share"], abs=SHARE_WITHIN), colour["name"]


@pytest.mark.parametrize("name", NAMES)
def test_script_renders_the_picture_that_is_stored(name, scripts):
    scale = 0.2
    pixels, colours = scripts("render").render(name, scale)
    with Image.open(FOLDER / name) as picture:
        stored = np.asarray(picture.resize(pixels.shape[1::-1], Image.Resampling.BOX), np.float64)
    smooth = np.asarray(Image.fromarray(pixels).reduce(4), np.float64)
    stored = np.asarray(Image.fromarray(stored.astype(np.uint8)).reduce(4), np.float64)
    assert np.mean(np.abs(smooth - stored)) < 6  # levels of 255: drawn coarser, with its own grain
    shares = {colour["name"]: colour["share"] for colour in colours}
    for colour in TRUTH[name]["colours"]:
        assert shares.get(colour["name"], 0) == pytest.approx(colour["share"], abs=0.02)


def test_readme_lists_the_truth(scripts):
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert scripts("readme_truth").truth_as_text(TRUTH) in text


def test_cloth_stripes_fill_the_cloth():
    cloth = TRUTH["striped-cloth.jpg"]["cloth"]
    first = 1
    for stripe in cloth["stripes"]:
        assert stripe["first_pick"] == first
        first += stripe["picks"]
    assert cloth["length_mm"] == pytest.approx((first - 1) / cloth["picks_per_cm"] * 10, abs=0.01)
