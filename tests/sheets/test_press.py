"""Pages to PDF, SVG and PNG: the right place, the right colour, in all three."""

import io
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from palette.sheets.page import Page
from palette.sheets.press import page_to_png, page_to_svg, pages_to_pdf
from palette.sheets.style import BODY, TITLE


@pytest.fixture
def page() -> Page:
    page = Page(width_mm=100, height_mm=50)
    page.box(10, 5, 20, 10, fill="#c0392b")
    page.line(((50, 5), (90, 5)), ink="#000000", line_mm=1)
    page.text(10, 40, "moss", TITLE)
    page.text(95, 40, "turned", BODY, angle=90)
    pixels = np.zeros((2, 2, 3), np.uint8)
    pixels[0, 0] = (255, 0, 0)
    pixels[1, 1] = (0, 0, 255)
    page.picture(60, 20, 20, 20, pixels)
    return page


def test_png_puts_everything_where_it_was_asked(page: Page) -> None:
    image = Image.open(io.BytesIO(page_to_png(page, dpi=254))).convert("RGB")  # 10 pixels in 1 mm
    assert image.size == (1000, 500)
    assert image.getpixel((200, 100)) == (192, 57, 43)
    assert image.getpixel((95, 100)) == (255, 255, 255)
    assert image.getpixel((700, 50)) == (0, 0, 0)
    assert image.getpixel((620, 220)) == (255, 0, 0), "the first row of a picture is at the top"
    assert image.getpixel((780, 380)) == (0, 0, 255)
    dark = np.argwhere(np.asarray(image.convert("L"))[300:, :500] < 128)
    assert dark[:, 0].max() + 300 == pytest.approx(400, abs=4), "text stands on its baseline"
    assert dark[:, 1].min() == pytest.approx(100, abs=6)


def test_svg_and_pdf_agree_on_size(page: Page) -> None:
    root = ET.fromstring(page_to_svg(page, title="t"))
    assert float(root.get("width", "").removesuffix("pt")) == pytest.approx(
        100 / 25.4 * 72, abs=0.1
    )
    box = PdfReader(io.BytesIO(pages_to_pdf([page], title="t"))).pages[0].mediabox
    assert float(box.width) == pytest.approx(100 / 25.4 * 72, abs=0.1)
    assert float(box.height) == pytest.approx(50 / 25.4 * 72, abs=0.1)


def test_pdf_text_can_be_searched(page: Page) -> None:
    reader = PdfReader(io.BytesIO(pages_to_pdf([page, page], title="two")))
    assert len(reader.pages) == 2
    assert "moss" in reader.pages[1].extract_text()


def test_settings_of_the_caller_are_left_alone(page: Page) -> None:
    import matplotlib as mpl

    before = dict(mpl.rcParams)
    pages_to_pdf([page], title="t")
    page_to_svg(page, title="t")
    assert dict(mpl.rcParams) == before


def test_the_same_bytes_in_another_process_and_another_locale() -> None:
    code = (
        "import hashlib; from palette.sheets.page import Page; from palette.sheets.style import *;"
        "from palette.sheets.press import *; page = Page(width_mm=60, height_mm=40);"
        "page.text(9, 9, 'moss 1.5', BODY); page.box(9, 20, 5, 5, fill='#123456');"
        "data = [pages_to_pdf([page], title='t'), page_to_svg(page, title='t'), page_to_png(page)];"
        "print(*[hashlib.sha256(each).hexdigest() for each in data])"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={"PATH": "/usr/bin:/bin", "HOME": "/tmp", **more},
        ).stdout
        for more in ({}, {"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo", "PYTHONHASHSEED": "7"})
    }
    assert len(said) == 1


def test_settings_that_a_person_keeps_for_the_library_change_nothing(tmp_path: Path) -> None:
    code = (
        "import hashlib; from palette.sheets.page import Page; from palette.sheets.style import *;"
        "from palette.sheets.press import *; page = Page(width_mm=60, height_mm=40);"
        "page.text(9, 9, 'moss 1.5', BODY); page.box(9, 20, 5, 5, fill='#123456', hatch='//');"
        "page.rule(3, 3, 30, ink='#000000');"
        "data = [pages_to_pdf([page], title='t'), page_to_svg(page, title='t'), page_to_png(page)];"
        "print(*[hashlib.sha256(each).hexdigest() for each in data])"
    )
    plain, settled = tmp_path / "plain", tmp_path / "settled"
    plain.mkdir()
    settled.mkdir()
    (settled / "matplotlibrc").write_text(
        "figure.dpi: 33\nsavefig.dpi: 44\nsavefig.bbox: tight\nsavefig.facecolor: red\n"
        "pdf.compression: 1\ntext.hinting: none\ntext.antialiased: False\npath.snap: False\n"
        "pdf.fonttype: 3\nsavefig.transparent: True\nhatch.color: red\nfigure.autolayout: True\n"
        "path.sketch: 1, 100, 2\npath.simplify_threshold: 1.0\nsvg.fonttype: none\n",
        encoding="utf-8",
    )
    said = {
        subprocess.run(
            [sys.executable, "-W", "error", "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=folder,
        ).stdout
        for folder in (plain, settled)
    }
    assert len(said) == 1
