"""Swatch, winding, choices and light cards: true to proportion, inside their page, stable."""

import dataclasses
import io

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from palette.errors import InputError
from palette.sheets.any_sheet import sheet_bytes
from palette.sheets.choices_card import choices_pages, choices_pdf, choices_png
from palette.sheets.fonts import width_mm
from palette.sheets.light_card import light_card, light_card_png
from palette.sheets.page import Box, Page, Picture, Words
from palette.sheets.style import SMALL
from palette.sheets.swatch_card import (
    swatch_card,
    swatch_card_pdf,
    swatch_card_png,
    swatch_card_svg,
)
from palette.sheets.winding import plan_winding
from palette.sheets.winding_card import (
    winding_card,
    winding_card_pdf,
    winding_card_png,
    winding_card_svg,
)
from palette.stripes.choices import Choice

GRADIENT = np.linspace(0, 255, 60 * 90 * 3, dtype=np.uint8).reshape(60, 90, 3)


def words_of(page: Page) -> list[str]:
    return [mark.text for mark in page.marks if isinstance(mark, Words)]


def stays_inside(page: Page, margin: float = 4.0) -> None:
    for mark in page.marks:
        match mark:
            case Words():
                assert mark.x >= margin, mark
                right = mark.x + (0 if mark.angle else width_mm(mark.text, mark.type))
                assert right <= page.width_mm - margin, mark
                assert margin <= mark.y <= page.height_mm - margin, mark
            case Box() | Picture():
                assert mark.x >= margin, mark
                assert mark.x + mark.width <= page.width_mm - margin + 0.01, mark
                assert mark.y + mark.height <= page.height_mm - margin + 0.01, mark


def filled(page: Page, code: str) -> list[Box]:
    return [mark for mark in page.marks if isinstance(mark, Box) and mark.fill == code]


@pytest.mark.parametrize("photo", [None, GRADIENT, GRADIENT.transpose(1, 0, 2), GRADIENT[:4]])
@pytest.mark.parametrize("colours", [1, 2, 5, 8, 12])
def test_swatch_card_is_at_true_proportions(plan_maker, colours: int, photo) -> None:
    palette = plan_maker(12, colours).palette
    page = swatch_card(palette, photo=photo, title="Hedge bank")
    stays_inside(page)
    areas = [filled(page, s.hex)[0].width * filled(page, s.hex)[0].height for s in palette.swatches]
    assert np.array(areas) / sum(areas) == pytest.approx([s.share for s in palette.swatches])
    parts = [text for text in words_of(page) if text.endswith(" %")]
    assert sum(float(part[:-2]) for part in parts) == pytest.approx(100, abs=1e-9)
    stack = [filled(page, s.hex)[0] for s in palette.swatches]
    assert sum(max(box.width, box.height) for box in stack) >= 40
    if photo is not None:
        picture = next(mark for mark in page.marks if isinstance(mark, Picture))
        beside = stack[0].x > picture.x + picture.width
        assert beside or stack[0].y > picture.y + picture.height
        assert picture.width / picture.height == pytest.approx(photo.shape[1] / photo.shape[0])


def test_swatch_card_says_what_a_dyer_notes(plan) -> None:
    palette = plan.palette
    first = dataclasses.replace(palette.swatches[0], munsell="5GY 4/4", in_srgb=False)
    noted = dataclasses.replace(palette, swatches=(first, *palette.swatches[1:]))
    text = " ".join(words_of(swatch_card(noted)))
    assert "Munsell 5GY 4/4" in text
    assert "stronger than a screen shows" in text
    assert "accent" in text
    assert "guide" in text


@pytest.mark.parametrize("colours", [3, 12])
def test_long_names_and_titles_take_two_lines(plan_maker, colours: int) -> None:
    palette = plan_maker(12, colours).palette
    long = "greyish yellowish green of the old hazel"
    swatches = tuple(
        dataclasses.replace(swatch, name=f"{long} {number}")
        for number, swatch in enumerate(palette.swatches)
    )
    title = "The hedge bank behind the old mill, taken in late April"
    page = swatch_card(dataclasses.replace(palette, swatches=swatches), title=title)
    stays_inside(page)
    text = " ".join(words_of(page))
    assert text.startswith(title)
    assert all(f"hazel {number}" in text for number in range(colours))
    assert "…" not in text
    lines = [mark for mark in page.marks if isinstance(mark, Words) and mark.type == SMALL]
    names = [mark for mark in page.marks if isinstance(mark, Words) and "hazel" in mark.text]
    for name in names:  # the figures of a colour stand clear of both lines of its name
        below = min(line.y for line in lines if line.x == name.x and line.y > name.y)
        assert below - name.y > 3


def test_every_card_has_its_formats_and_the_same_bytes(plan) -> None:
    winding = plan_winding(plan.palette, card_width_mm=80, wraps_per_cm=9)
    for draw, thing in (
        (swatch_card_png, plan.palette),
        (swatch_card_svg, plan.palette),
        (swatch_card_pdf, plan.palette),
        (winding_card_png, winding),
        (winding_card_svg, winding),
        (winding_card_pdf, winding),
    ):
        assert draw(thing) == draw(thing)
    svg = swatch_card_svg(plan.palette).decode()
    assert "<dc:date>" not in svg
    assert "http://www.w3.org/2000/svg" in svg
    image = Image.open(io.BytesIO(swatch_card_png(plan.palette, dpi=100)))
    page = swatch_card(plan.palette)
    assert image.width == pytest.approx(page.width_mm / 25.4 * 100, abs=1)


def test_winding_card_is_drawn_at_true_size(plan) -> None:
    winding = plan_winding(plan.palette, card_width_mm=80, wraps_per_cm=9)
    page = winding_card(winding)
    stays_inside(page)
    for yarn in winding.yarns:
        assert filled(page, yarn.hex)[0].width == pytest.approx(yarn.turns / 9 * 10)
    text = words_of(page)
    assert "72 turns on a card of 8.0 cm" in text
    for yarn in winding.yarns:
        assert f"{yarn.turns}" in text
    size = PdfReader(io.BytesIO(winding_card_pdf(winding))).pages[0].mediabox
    assert float(size.width) == pytest.approx(page.width_mm / 25.4 * 72, abs=0.1)


def test_a_wide_card_of_fine_yarn_still_fits_its_page(plan) -> None:
    stays_inside(winding_card(plan_winding(plan.palette, card_width_mm=400, wraps_per_cm=25)))


def choices_of(plan_maker, count: int, *, picks: int = 1600) -> list[Choice]:
    return [
        Choice(
            number=number,
            how=f"hit and miss, seed {number}, the shares kept, no colour twice running",
            plan=plan_maker(6 + number, 6, picks=picks).cloths[0],
        )
        for number in range(1, count + 1)
    ]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    ("picks", "width"), [(1600, 250.0), (600, 500.0), (1600, 1500.0), (4000, 100.0)]
)
def test_choices_stand_side_by_side_to_one_scale(plan_maker, paper, picks, width) -> None:
    choices = choices_of(plan_maker, 12, picks=picks)
    pages = choices_pages(choices, finished_width_mm=width, title="Choices", paper=paper)
    assert len(pages) == 1
    stays_inside(pages[0], 10)
    frames = [m for m in pages[0].marks if isinstance(m, Box) and m.edge and not m.fill]
    assert len(frames) == 12
    for frame, choice in zip(frames, choices, strict=True):
        wanted = width / choice.plan.true_finished_length_mm
        assert frame.width / frame.height == pytest.approx(wanted)
    for one in frames:
        for other in frames:
            apart = (
                one is other
                or one.x + one.width <= other.x
                or other.x + other.width <= one.x
                or one.y + one.height <= other.y
                or other.y + other.height <= one.y
            )
            assert apart
    numbers = [text for text in words_of(pages[0]) if text.isdigit()]
    assert numbers == [f"{n}" for n in range(1, 13)]


def test_more_than_twelve_choices_take_another_page(plan_maker) -> None:
    choices = choices_of(plan_maker, 15)
    data = choices_pdf(choices, finished_width_mm=250)
    assert len(PdfReader(io.BytesIO(data)).pages) == 2
    assert len(choices_png(choices, finished_width_mm=250, dpi=40)) == 2
    assert choices_pdf(choices, finished_width_mm=250) == data


def test_choices_refusals(plan_maker) -> None:
    with pytest.raises(InputError, match="choices: must be at least one; got none"):
        choices_pages([], finished_width_mm=250)
    with pytest.raises(InputError, match="cloth width: must be more than 0; got 0 mm"):
        choices_pages(choices_of(plan_maker, 1), finished_width_mm=0)


def test_light_card_shows_both_and_rings_the_neutral_point() -> None:
    page = light_card(
        GRADIENT, GRADIENT[::-1], how="grey card at 40, 60 per cent", neutral=(0.4, 0.6)
    )
    stays_inside(page)
    pictures = [mark for mark in page.marks if isinstance(mark, Picture)]
    assert len(pictures) == 2
    rings = [mark for mark in page.marks if isinstance(mark, Box) and mark.round_mm]
    assert len(rings) == 4
    for picture, ring in zip(pictures, rings[1::2], strict=True):
        assert ring.x + ring.width / 2 == pytest.approx(picture.x + 0.4 * picture.width)
    assert {"as photographed", "corrected"} <= set(words_of(page))
    image = Image.open(io.BytesIO(light_card_png(GRADIENT, GRADIENT, dpi=60)))
    assert image.width == pytest.approx(page.width_mm / 25.4 * 60, abs=1)


def test_light_card_refuses_pictures_of_two_sizes() -> None:
    with pytest.raises(InputError, match="picture after: must have the size of the picture before"):
        light_card(GRADIENT, GRADIENT[:5])


def test_a_caption_is_never_cut(plan_maker) -> None:
    """Whatever is said of an arrangement is said whole, above the foot of the page."""
    how = "mirrored, with two colours changing places in the second half, and that three times over"
    choices = [dataclasses.replace(choice, how=how) for choice in choices_of(plan_maker, 12)]
    for paper in ("A4", "Letter"):
        (page,) = choices_pages(choices, finished_width_mm=400.0, paper=paper)
        words = [mark.text for mark in page.marks if isinstance(mark, Words)]
        said = " ".join(words)
        assert said.count(how) == 12
        stays_inside(page)


def test_a_winding_is_in_the_shares_that_are_woven(plan_maker) -> None:
    """Where stripes were set otherwise, the card shows the cloth and not the photograph."""
    plan = plan_maker(6, 3)
    wefts = [yarn for yarn in plan.yarns if yarn.use == "weft"]
    picks = {yarn.colour: 100 * (place + 1) for place, yarn in enumerate(wefts)}
    yarns = tuple(
        dataclasses.replace(yarn, picks=picks[yarn.colour]) if yarn.use == "weft" else yarn
        for yarn in plan.yarns
    )
    pdf = sheet_bytes(dataclasses.replace(plan, yarns=yarns), "winding.pdf")
    text = PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    total = sum(picks.values())
    assert all(f"{100 * part / total:.1f} %" in text for part in picks.values())
