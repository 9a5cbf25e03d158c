"""Doubt: what is unsure is named with its place, and clear cloths are left in peace."""

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from palette.photo.photo import Photo
from palette.stripes.reading import read_cloth
from tests.stripes.rendered_cloth import Setting, render

CLEAR = Setting(size=(900, 700), stripes=(10, 12), margin=0.08, picks=(4, 10))


def test_clear_cloth_raises_no_doubt():
    reading = read_cloth(render(31, CLEAR).photo())
    assert reading.unsure == ()
    assert all(stripe.confidence >= 0.5 for stripe in reading.stripes)


def _striped(colours, widths, seed=2):
    """Even bands with a little noise."""
    rng = np.random.default_rng(seed)
    rows = np.repeat(np.array(colours, dtype=float), widths, axis=0)
    picture = rows[:, None] + rng.normal(0, 2.5, (len(rows), 500, 3))
    return Photo(name="bands.png", pixels=picture.clip(0, 255).astype(np.uint8))


def test_soft_passage_is_named_with_its_place():
    red, blue = np.array([150.0, 40, 40]), np.array([40.0, 60, 150])
    soft = [red + (blue - red) * part for part in np.linspace(0, 1, 60)]
    colours = [red, blue, red, *soft, red, blue, red]
    widths = [60, 60, 60, *[2] * 60, 60, 60, 60]
    reading = read_cloth(_striped(colours, widths))
    unsure = [n for n in reading.unsure if 1 < n < len(reading.stripes)]  # the ends are cut
    assert unsure
    middle = [reading.stripes[number - 1] for number in unsure]
    assert all(stripe.start + stripe.share > 0.25 and stripe.start < 0.75 for stripe in middle)
    assert any(
        f" {unsure[0]} (" in note and "of the way from the top)" in note and "unsure: " in note
        for note in reading.warnings
    )


def test_yarns_nearly_alike_are_named():
    one, near, other = [120, 100, 80], [124, 102, 79], [60, 80, 120]
    widths = [60, 60, 60, 60, 60, 60, 60]
    reading = read_cloth(_striped([one, other, near, other, one, other, near], widths))
    if len(reading.palette.swatches) == 3:  # told apart, but only just
        assert any("nearly like another" in stripe.doubt for stripe in reading.stripes)
    else:
        assert reading.stripes[0].colour == reading.stripes[2].colour


@pytest.mark.parametrize("quality", [25, 40])
def test_bad_pictures_do_not_crash(quality, tmp_path):
    cloth = render(32, replace(CLEAR, noise=12, blur_px=2.5, jpeg=quality))
    path = tmp_path / "bad.jpg"
    Image.fromarray(cloth.pixels).save(path, quality=quality)
    reading = read_cloth(Photo(name="bad.jpg", pixels=np.asarray(Image.open(path))))
    assert sum(stripe.share for stripe in reading.stripes) == pytest.approx(1)
