"""Makes the pictures of the README from the sample photographs: python sample_images/tour.py."""

import io
import tempfile
from pathlib import Path

from PIL import Image

from palette.plans.brief import Brief
from palette.plans.choosing import arrangements_of
from palette.plans.cloths import open_photos, plan_cloths
from palette.plans.making import plan_from_stripes
from palette.plans.plan import Plan
from palette.sheets.choices_card import choices_png
from palette.sheets.cloth_pictures import beside_png, room_png
from palette.sheets.html import sheet_html
from palette.sheets.pdf import sheet_pages
from palette.sheets.press import page_to_png
from palette.sheets.swatch_card import swatch_card_png
from palette.sheets.thumbnail import thumbnail_jpeg
from palette.sheets.woven_strip import woven_strip_pngs

HERE = Path(__file__).parent
TOUR = HERE / "tour"
PHOTO = HERE / "spring-hedge-bank.jpg"
WALL = (246, 244, 239)


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data)).convert("RGB")


def save(picture: Image.Image, name: str, width: int) -> None:
    height = round(picture.height * width / picture.width)
    small = picture.resize((width, height), Image.Resampling.LANCZOS)
    small.save(TOUR / name, optimize=True)  # in full colour: fewer would dull the small bright ones


def from_photo_to_cloth(plan: Plan, photo: bytes) -> Image.Image:
    """The photograph with its card of swatches above the cloth, laid on its side."""
    cloth = opened(room_png(plan, pixels_per_cm=10)).rotate(-90, expand=True)
    width = cloth.width
    half = width // 2 - 12
    left, right = opened(photo), opened(swatch_card_png(plan.palette, title="the palette"))
    left, right = (
        piece.resize((half, round(piece.height * half / piece.width)), Image.Resampling.LANCZOS)
        for piece in (left, right)
    )
    top = max(left.height, right.height)
    whole = Image.new("RGB", (width, top + 24 + cloth.height), WALL)
    whole.paste(left, (0, 0))
    whole.paste(right.crop((0, 0, half, min(right.height, top))), (width - half, 0))
    whole.paste(cloth, (0, top + 24))
    return whole


def loom_page(html: bytes) -> Image.Image:
    """The page at the loom as a phone shows it, after a few picks."""
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service
    from selenium.webdriver.common.by import By
    from selenium.webdriver.common.keys import Keys

    options = webdriver.ChromeOptions()
    for word in ("--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"):
        options.add_argument(word)
    options.add_argument("--window-size=500,1000")
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder, "sheet.html")
        page.write_bytes(html)
        driver = webdriver.Chrome(options, Service("/usr/bin/chromedriver"))
        try:
            driver.get(page.as_uri())
            body = driver.find_element(By.TAG_NAME, "body")
            for _ in range(12):
                body.send_keys(Keys.SPACE)
            return opened(driver.get_screenshot_as_png())
        finally:
            driver.quit()


def main() -> None:
    TOUR.mkdir(exist_ok=True)
    brief = Brief.of({"photo": [str(PHOTO)], "order": "nearest", "repeats": 3, "name": "spring"})
    photos = open_photos(brief)
    plan = plan_from_stripes(brief, plan_cloths(brief, photos))
    photo = thumbnail_jpeg(photos[0])
    pages = sheet_pages(plan, photo_jpeg=photo, cloth_pngs=woven_strip_pngs(plan))
    save(from_photo_to_cloth(plan, photo), "from-photo-to-cloth.png", 1200)
    save(opened(page_to_png(pages[0], dpi=110)), "sheet.png", 640)
    save(opened(beside_png(plan, plan.cloths[0])), "wefts-beside.png", 640)
    card = choices_png(arrangements_of(brief, plan.palette), finished_width_mm=250, title="Choices")
    save(opened(card[0]), "choices.png", 640)
    save(loom_page(sheet_html(plan, photo_jpeg=photo)), "loom-page.png", 440)


if __name__ == "__main__":
    main()
