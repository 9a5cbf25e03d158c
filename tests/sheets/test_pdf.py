"""The printed sheet: what is on it, that it fits, and that it is the same every time."""

import dataclasses
import io
import re

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from palette.measures import Units
from palette.plans.plan import Plan
from palette.plans.skeins import skein_words
from palette.sheets.between import after_cloth, before_cloth
from palette.sheets.fonts import width_mm
from palette.sheets.page import Box, Page, Picture, Polyline, Words
from palette.sheets.pdf import sheet_pages, sheet_pdf
from palette.sheets.style import PAPERS


def photo_jpeg(width: int = 640, height: int = 420) -> bytes:
    rows = np.linspace(0, 255, height, dtype=np.uint8)[:, None, None]
    columns = np.linspace(0, 255, width, dtype=np.uint8)[None, :, None]
    pixels = np.concatenate(
        np.broadcast_arrays(rows, columns, (rows // 2 + columns // 2).astype(np.uint8)), axis=2
    )
    stream = io.BytesIO()
    Image.fromarray(pixels).save(stream, "JPEG")
    return stream.getvalue()


def words_of(page: Page) -> list[str]:
    return [mark.text for mark in page.marks if isinstance(mark, Words)]


def all_words(pages: list[Page]) -> str:
    return "\n".join(text for page in pages for text in words_of(page))


def extent(mark: object) -> tuple[float, float, float, float]:
    match mark:
        case Box() | Picture():
            return mark.x, mark.y, mark.x + mark.width, mark.y + mark.height
        case Polyline():
            points = [point for path in mark.paths for point in path]
            xs, ys = [p[0] for p in points], [p[1] for p in points]
            return min(xs), min(ys), max(xs), max(ys)
        case Words():
            run = width_mm(mark.text, mark.type)
            high = mark.type.points * 0.353
            if mark.angle:
                return mark.x - high, mark.y - run, mark.x, mark.y
            return mark.x, mark.y - high, mark.x + run, mark.y
    raise TypeError(mark)


PLANS = {
    "five stripes": {"stripes": 5, "colours": 4},
    "thirty stripes": {},
    "many stripes": {"stripes": 150, "colours": 12},
    "one colour": {"stripes": 1, "colours": 1},
    "four cloths in inches": {"stripes": 20, "cloths": 4, "picks": 600, "units": Units.IMPERIAL},
    "long names": {
        "name": "A cloth that remembers every hedge bank between the village and the sea " * 2,
        "names": tuple(f"colour number {n} that goes on for ever and ever" for n in range(12)),
    },
    "one long word": {"name": "Hedge" * 40, "names": tuple("x" * 90 + str(n) for n in range(12))},
    "many warnings": {"warnings": tuple(f"Stripe {n} was widened. " * 6 for n in range(40))},
}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("case", PLANS)
def test_everything_stays_inside_the_margins(plan_maker, case: str, paper: str) -> None:
    plan = plan_maker(**PLANS[case])
    day = plan_dye_day(plan.yarns, asked=DyeAsked(fibre="60% wool 40% bamboo"))
    pages = sheet_pages(plan, photo_jpeg=photo_jpeg(), paper=paper, dye_day=day)
    size = PAPERS[paper]
    for number, page in enumerate(pages, start=1):
        assert (page.width_mm, page.height_mm) == (size.width_mm, size.height_mm)
        for mark in page.marks:
            x0, y0, x1, y1 = extent(mark)
            inside = min(x0, y0) >= 10 and x1 <= size.width_mm - 10 and y1 <= size.height_mm - 10
            assert inside, f"{case}, page {number}: {mark}"


def test_every_stripe_is_in_the_list_once_and_in_order(plan_maker) -> None:
    plan = plan_maker(150, 12)
    cloth = plan.cloths[0]
    pages = sheet_pages(plan)
    lists = [page for page in pages if words_of(page)[0].startswith("Pick list")]
    assert len(lists) > 3
    lasts = [f"{stripe.last_pick}" for stripe in cloth.stripes]
    runs = [text for page in lists for text in words_of(page) if re.fullmatch(r"\d+", text)]
    positions, at = [], 0
    for last in lasts:
        at = runs.index(last, at)
        positions.append(at)
    assert positions == sorted(positions)
    assert len(set(positions)) == len(lasts)
    for page in lists:
        assert "up to pick" in words_of(page), "each page repeats the heads"


def test_no_list_ends_with_a_few_orphans_on_a_page(plan_maker) -> None:
    for stripes in range(1, 140, 3):
        plan = plan_maker(stripes, 8)
        pages = sheet_pages(plan)
        ticks = [
            sum(isinstance(mark, Box) and mark.width == 4.2 for mark in page.marks)
            for page in pages
        ]
        rows = [count for count in ticks if count]
        assert before_cloth(plan, 0)
        assert after_cloth(plan, 0)
        assert sum(rows) == stripes + 2, "what comes before and after has its own row"
        assert len(rows) == 1 or min(rows) >= 5


def test_cuts_shuttles_and_lengths_are_there(plan: Plan) -> None:
    text = all_words(sheet_pages(plan))
    assert "1600 picks at 8/cm, 1 shuttle in play at most" in text
    assert "cut, last" in text
    assert "200.0 cm" in text
    assert "measured from the first pick at the breast beam, tension slackened" in text
    for swatch in plan.palette.swatches:
        assert swatch.name in text


def test_the_numbers_go_with_the_colours_so_that_black_and_white_will_do(plan: Plan) -> None:
    pages = sheet_pages(plan)
    for entry in range(1, 9):
        assert words_of(pages[1]).count(f"{entry}") >= 1


def test_whole_skeins_stand_beside_the_yarn(plan: Plan) -> None:
    own = dataclasses.replace(plan, asked=(*plan.asked, ("skein", "50g")))
    assert "whole skeins" not in all_words(sheet_pages(plan))
    words = all_words(sheet_pages(own)).splitlines()
    assert "whole skeins" in words
    assert all(each in words for each in skein_words(own))


def test_page_numbers_and_the_guide(plan: Plan) -> None:
    pages = sheet_pages(plan)
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in words_of(page)
    assert "Weave a sample" in all_words(pages)


def test_warnings_are_on_the_first_page(plan_maker) -> None:
    warning = "Stripe 4 (bark) was widened from 2 to 4 picks."
    pages = sheet_pages(plan_maker(warnings=(warning,)))
    assert warning in words_of(pages[0])
    assert not any(warning in words_of(page) for page in pages[1:])


def test_dye_page_only_when_asked_and_with_its_cautions(plan: Plan) -> None:
    assert "Dye day" not in all_words(sheet_pages(plan))
    day = plan_dye_day(plan.yarns, asked=DyeAsked(fibre="wool"))
    text = all_words(sheet_pages(plan, dye_day=day)).replace("\n", " ")
    assert "Dye day" in text
    for caution in day.cautions:
        assert caution.text[:40] in text
    for bath in day.baths:
        assert f"{bath.dry_g:.0f} g" in text


def test_imperial_units_everywhere(plan_maker) -> None:
    text = all_words(sheet_pages(plan_maker(units=Units.IMPERIAL)))
    assert not re.search(r"\d (cm|m|g)\b", text)
    assert re.search(r"\d in\b", text)
    assert re.search(r"\d oz\b", text)


def test_bytes_are_a_pdf_with_embedded_fonts_and_no_dates(plan: Plan) -> None:
    data = sheet_pdf(plan, photo_jpeg=photo_jpeg())
    reader = PdfReader(io.BytesIO(data))
    assert len(reader.pages) == len(sheet_pages(plan))
    assert reader.metadata is not None
    assert reader.metadata.title == plan.name
    assert "/CreationDate" not in reader.metadata
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            below = font.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in below["/FontDescriptor"]
    text = reader.pages[1].extract_text()
    assert "moss green" in text
    assert len(data) < 1_500_000


def test_the_cloth_is_vector(plan: Plan) -> None:
    reader = PdfReader(io.BytesIO(sheet_pdf(plan)))
    assert all(not page.images for page in reader.pages)


def test_the_same_plan_gives_the_same_bytes(plan_maker) -> None:
    photo = photo_jpeg()
    assert sheet_pdf(plan_maker(), photo_jpeg=photo) == sheet_pdf(plan_maker(), photo_jpeg=photo)


def test_a_woven_picture_stands_beside_the_cloth(plan: Plan) -> None:
    stream = io.BytesIO()
    Image.new("RGB", (50, 360), "#556644").save(stream, "PNG")
    first = sheet_pages(plan, cloth_pngs=[stream.getvalue()])[0]
    assert sum(isinstance(mark, Picture) for mark in first.marks) == 1
    assert "as it may look, a guide" in " ".join(words_of(first))


@pytest.mark.parametrize("size", [(640, 420), (300, 900), (900, 90), (1, 1)])
def test_photographs_of_any_shape_fit(plan: Plan, size: tuple[int, int]) -> None:
    first = sheet_pages(plan, photo_jpeg=photo_jpeg(*size))[0]
    picture = next(mark for mark in first.marks if isinstance(mark, Picture))
    assert picture.width / picture.height == pytest.approx(size[0] / size[1], rel=0.02)


def test_an_unknown_paper_is_refused(plan: Plan) -> None:
    with pytest.raises(InputError, match="paper: must be one of A4, Letter; got 'A3'"):
        sheet_pdf(plan, paper="A3")


def test_names_from_any_script_do_not_stop_the_press(plan_maker) -> None:
    names = tuple(f"苔 {n} \U0001f33f <b> {n}" for n in range(12))
    reader = PdfReader(io.BytesIO(sheet_pdf(plan_maker(6, 3, names=names, name="苔 の 布"))))
    assert "□" in reader.pages[0].extract_text()


@pytest.mark.parametrize("cloths", [1, 3])
@pytest.mark.parametrize("fringe", [0.0, 20.0, 150.0])
@pytest.mark.parametrize("width", [100.0, 250.0, 700.0, 1500.0])
def test_cloth_and_woven_picture_are_to_one_scale_and_words_do_not_touch(
    plan_maker, width: float, fringe: float, cloths: int
) -> None:
    plan = plan_maker(12, 4, cloths=cloths)
    warp = dataclasses.replace(plan.warp, finished_width_mm=width, fringe_mm=fringe)
    stream = io.BytesIO()
    Image.new("RGB", (40, 40), "#556644").save(stream, "PNG")
    pngs = [stream.getvalue()] * cloths
    first = sheet_pages(dataclasses.replace(plan, warp=warp), cloth_pngs=pngs)[0]
    pictures = [mark for mark in first.marks if isinstance(mark, Picture)]
    assert len(pictures) == cloths
    for picture, cloth in zip(pictures, plan.cloths, strict=True):
        wanted = width / cloth.true_finished_length_mm
        assert picture.width / picture.height == pytest.approx(wanted)
    frames = [
        mark
        for mark in first.marks
        if isinstance(mark, Box) and mark.edge and not mark.fill and mark.width == picture.width
    ]
    assert len(frames) == 2 * cloths, "the stripes and the picture, of one size"
    words = [mark for mark in first.marks if isinstance(mark, Words) and not mark.angle]
    for number, one in enumerate(words):
        for other in words[number + 1 :]:
            apart = abs(one.y - other.y) > 0.3 * min(one.type.points, other.type.points)
            left, right = sorted((one, other), key=lambda mark: mark.x)
            assert apart or left.x + width_mm(left.text, left.type) <= right.x + 0.2, (one, other)


def test_what_lies_between_the_cloths_stands_in_the_pick_lists(plan_maker) -> None:
    plan = plan_maker(30, 8, cloths=2)
    warp = dataclasses.replace(plan.warp, fringe_mm=0.0, gap_mm=50.0, sampling_mm=200.0)
    yarns = tuple(
        dataclasses.replace(yarn, sampling_length_m=20.0) if yarn.use == "weft" else yarn
        for yarn in plan.yarns
    )
    plan = dataclasses.replace(plan, warp=warp, yarns=yarns)
    text = [" ".join(words_of(page)) for page in sheet_pages(plan)]
    (first,) = [page for page in text if "First weave 20 cm for sampling." in page]
    (between,) = [page for page in text if "Leave 5 cm of warp, then Towel 2." in page]
    assert "Towel 1" in first
    assert "Towel 1" in between
    assert any("Of the weft, 160 m is for 20 cm of sampling" in page for page in text)


def test_where_no_note_has_room_the_first_page_says_where_they_are(plan_maker) -> None:
    long = "Look at this before you begin, and at that, and at the other thing too. " * 60
    for count, said in ((1, "read the note at the end"), (4, "read the 4 notes at the end")):
        notes = tuple(f"{n}: {long}" for n in range(count))
        page = sheet_pages(plan_maker(12, 6, warnings=notes), photo_jpeg=photo_jpeg())[0]
        words = words_of(page)
        assert said in words
        assert not any(word.endswith("more, in the notes") for word in words)


def test_a_note_is_told_once(plan_maker) -> None:
    notes = tuple(
        f"Note number {n} is to be looked at before you begin to weave." for n in range(3)
    )
    told = [
        word for page in sheet_pages(plan_maker(12, 6, warnings=notes)) for word in words_of(page)
    ]
    assert " ".join(told).count("is to be looked at before") == 3


def test_notes_that_page_1_has_no_room_for_stand_in_the_notes(plan_maker) -> None:
    long = "Look at this before you begin, and at that, and at the other thing too. " * 2
    notes = tuple(f"Note {n}: {long}" for n in range(9))
    pages = sheet_pages(plan_maker(12, 6, warnings=notes), photo_jpeg=photo_jpeg())
    text = [" ".join(words_of(page)) for page in pages]
    for n in range(9):
        assert sum(page.count(f"Note {n}:") for page in text) == 1
    (more,) = [word for word in words_of(pages[0]) if word.endswith("more, in the notes")]
    later = sum(f"Note {n}:" in page for page in text[1:] for n in range(9))
    assert more == f"and {later} more, in the notes"
