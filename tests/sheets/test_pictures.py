"""Stripes and palettes as PNG, SVG and CSS."""

import io
import re
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from hypothesis import given, settings
from PIL import Image

from palette.errors import InputError
from palette.sheets.pictures import (
    palette_css,
    palette_svg,
    pixels_png,
    stripes_png,
    stripes_svg,
)
from tests.strategies import palettes, stripe_plans

NAMESPACE = {"svg": "http://www.w3.org/2000/svg"}


def rectangles(data: bytes) -> list[ET.Element]:
    return ET.fromstring(data).findall("svg:rect", NAMESPACE)


def test_png_is_to_scale_and_the_first_pick_lies_at_the_bottom(plan) -> None:
    cloth = plan.cloths[0]
    image = Image.open(io.BytesIO(stripes_png(cloth, width_mm=254.0, dpi=50)))
    assert image.size == (500, round(cloth.true_finished_length_mm / 25.4 * 50))
    assert image.info["dpi"] == pytest.approx((50, 50), abs=0.1)
    pixels = np.asarray(image.convert("RGB"))
    assert bytes(pixels[-1, 0]).hex() == cloth.stripes[0].hex[1:]
    assert bytes(pixels[0, 0]).hex() == cloth.stripes[-1].hex[1:]


def test_png_rows_follow_the_picks(plan) -> None:
    cloth = plan.cloths[0]
    pixels = np.asarray(Image.open(io.BytesIO(stripes_png(cloth, width_mm=10))).convert("RGB"))
    codes = [bytes(row).hex() for row in pixels[:, 0]]
    for swatch in plan.palette.swatches:
        share = cloth.picks_of(swatch.name) / cloth.total_picks
        assert codes.count(swatch.hex[1:]) / len(codes) == pytest.approx(share, abs=0.01)


def test_a_very_long_cloth_keeps_to_a_size_that_opens(plan_maker) -> None:
    cloth = plan_maker(10, 4, picks=200_000).cloths[0]
    image = Image.open(io.BytesIO(stripes_png(cloth, width_mm=250)))
    assert max(image.size) <= 12_000


def test_a_width_of_nothing_is_refused(plan) -> None:
    for draw in (stripes_png, stripes_svg):
        with pytest.raises(InputError, match="cloth width: must be more than 0; got nan mm"):
            draw(plan.cloths[0], width_mm=float("nan"))


@settings(max_examples=25, deadline=None)
@given(stripe_plans())
def test_svg_has_a_rectangle_for_each_stripe_without_gaps(cloth) -> None:
    found = rectangles(stripes_svg(cloth, width_mm=100))
    assert [rect.get("fill") for rect in found] == [stripe.hex for stripe in cloth.stripes]
    below = cloth.true_finished_length_mm
    for rect in found:
        assert float(rect.get("y")) + float(rect.get("height")) == pytest.approx(below, abs=0.01)
        below = float(rect.get("y"))
    assert below == pytest.approx(0, abs=0.01)


@settings(max_examples=25, deadline=None)
@given(palettes())
def test_palette_svg_is_at_true_proportions(palette) -> None:
    found = rectangles(palette_svg(palette, width_mm=200))
    widths = [float(rect.get("width")) for rect in found]
    assert sum(widths) == pytest.approx(200, abs=0.01)
    assert widths == pytest.approx([200 * s.share for s in palette.swatches], abs=0.001)


@settings(max_examples=50, deadline=None)
@given(palettes())
def test_css_holds_each_colour_and_nothing_of_a_name_can_leave_its_property(palette) -> None:
    text = palette_css(palette).decode()
    lines = text.splitlines()
    assert lines[0] == ":root {"
    assert lines[-1] == "}"
    assert len(lines) == 2 * len(palette.swatches) + 2
    for swatch, line in zip(palette.swatches, lines[1::2], strict=False):
        assert re.fullmatch(r"  --weft-\d+(-[a-z0-9]+)*: #[0-9a-f]{6};", line)
        assert swatch.hex in line


def test_a_name_with_markup_stays_text(plan_maker) -> None:
    names = tuple(f'<script>"{n}"&' for n in range(12))
    plan = plan_maker(4, 3, names=names)
    found = rectangles(stripes_svg(plan.cloths[0], width_mm=100, title="</title><script>"))
    assert 'script>"' in found[0].find("svg:title", NAMESPACE).text
    assert not ET.fromstring(stripes_svg(plan.cloths[0], width_mm=9)).findall(
        ".//svg:script", NAMESPACE
    )


def test_pixels_keep_their_values_and_size() -> None:
    pixels = np.arange(60, dtype=np.uint8).reshape(4, 5, 3)
    image = Image.open(io.BytesIO(pixels_png(pixels, dpi=300)))
    assert np.array_equal(np.asarray(image), pixels)
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
