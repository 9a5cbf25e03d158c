"""The strip of woven colour that stands beside the cloth on the sheets."""

import dataclasses
import io

import numpy as np
import pytest
from PIL import Image

from palette.loom.chains import WarpStripe
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab, srgb8_to_lab
from palette.sheets.woven_strip import woven_strip_png


def strip_of(plan) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(woven_strip_png(plan))).convert("RGB"))


def test_it_has_the_proportions_of_the_cloth_and_no_border(plan) -> None:
    pixels = strip_of(plan)
    cloth = plan.cloths[0]
    wanted = plan.warp.finished_width_mm / cloth.true_finished_length_mm
    assert pixels.shape[1] / pixels.shape[0] == pytest.approx(wanted, rel=0.01)
    assert np.array_equal(pixels[:, 0], pixels[:, pixels.shape[1] // 2])


def test_the_colours_lie_between_yarn_and_warp_and_the_first_pick_at_the_bottom(plan) -> None:
    pixels = strip_of(plan)
    first, last = plan.cloths[0].stripes[0], plan.cloths[0].stripes[-1]
    for row, stripe in ((pixels[-2, 0], first), (pixels[1, 0], last)):
        seen = srgb8_to_lab(row)
        to_yarn = ciede2000(seen, np.array(hex_to_lab(stripe.hex)))
        whole = ciede2000(np.array(hex_to_lab(stripe.hex)), np.array(plan.warp_lab))
        assert 0 < to_yarn < whole


def test_a_striped_warp_shows(plan) -> None:
    runs = (
        WarpStripe(colour="bark", hex="#3a2a1a", ends=117),
        WarpStripe(colour="white", hex="#f4f0e6", ends=117),
    )
    pixels = strip_of(dataclasses.replace(plan, warp_stripes=runs)).astype(int)
    right, left = pixels[5, -2].sum(), pixels[5, 1].sum()
    assert right < left, "end 1, at the right, is the dark one"
