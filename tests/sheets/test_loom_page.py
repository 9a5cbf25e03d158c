"""The page at the loom in a real browser."""

import functools
import http.server
import json
import os
import re
import shutil
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from palette.sheets.html import sheet_html

BROWSER, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
MISSING = not (BROWSER and DRIVER)
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
)
pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(
        MISSING and not os.environ.get("CI"),
        reason="no browser: install chromium and chromium-driver to run these",
    ),
]


class Loom:
    """A browser with one page open."""

    def __init__(self, driver) -> None:
        self.driver = driver

    def open(self, path: Path | str) -> None:
        self.driver.get(path if isinstance(path, str) else path.as_uri())

    def find(self, name: str):
        return self.driver.find_element("id", name)

    def text(self, name: str) -> str:
        return self.find(name).text

    def tap(self, name: str, times: int = 1) -> None:
        for _ in range(times):
            self.find(name).click()

    def keys(self, *keys: str) -> None:
        from selenium.webdriver.common.action_chains import ActionChains

        ActionChains(self.driver).send_keys(*keys).perform()

    def run(self, script: str, *given: object):
        return self.driver.execute_script(script, *given)

    def size(self, width: int, height: int) -> None:
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)

    def console(self) -> list[str]:
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def requests(self) -> list[str]:
        messages = (json.loads(e["message"])["message"] for e in self.driver.get_log("performance"))
        return [
            message["params"]["request"]["url"]
            for message in messages
            if message["method"] == "Network.requestWillBeSent"
        ]


@pytest.fixture(scope="module")
def driver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[object]:
    from selenium import webdriver
    from selenium.webdriver.chrome.options import Options
    from selenium.webdriver.chrome.service import Service

    options = Options()
    options.binary_location = BROWSER or "chromium"
    for flag in (*FLAGS, f"--user-data-dir={tmp_path_factory.mktemp('profile')}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    found = webdriver.Chrome(options=options, service=Service(DRIVER or "chromedriver"))
    yield found
    found.quit()


@pytest.fixture
def loom(driver) -> Loom:
    page = Loom(driver)
    page.open("about:blank")
    page.console()
    page.requests()
    page.size(360, 780)
    return page


@pytest.fixture
def sheet(plan_maker, tmp_path: Path) -> Path:
    """Four short stripes, a fresh place each time."""
    place = tmp_path / "sheet.html"
    place.write_bytes(sheet_html(plan_maker(4, 3, picks=24, name=str(tmp_path))))
    return place


def picks_of(plan_maker, *given, **named) -> list[int]:
    return [stripe.picks for stripe in plan_maker(*given, **named).cloths[0].stripes]


def test_counts_through_a_short_plan(loom: Loom, sheet: Path, plan_maker) -> None:
    plan = plan_maker(4, 3, picks=24)
    loom.open(sheet)
    done = 0
    for number, stripe in enumerate(plan.cloths[0].stripes, start=1):
        assert loom.text("which") == f"Stripe {number} of 4"
        assert loom.text("colour-name") == stripe.colour
        assert "now" in loom.find("turn").get_attribute("class"), "a new stripe is announced"
        assert re.search(f"(Start|Take up) {stripe.colour}", loom.text("turn-head"))
        for left in range(stripe.picks, 0, -1):
            assert loom.text("left") == f"{left}"
            loom.tap("count" if left % 2 else "panel")
            done += 1
            assert loom.find("bar").get_attribute("aria-valuenow") == f"{done}"
    assert loom.text("unit") == "this cloth is woven"
    assert not loom.find("count").is_enabled()
    assert "woven 3.0 cm of 3.0 cm" in loom.text("progress")
    assert loom.console() == []


def test_undo_takes_back_picks_stripes_and_jumps(loom: Loom, sheet: Path, plan_maker) -> None:
    first, second, *_ = picks_of(plan_maker, 4, 3, picks=24)
    loom.open(sheet)
    assert not loom.find("undo").is_enabled()
    loom.tap("count", 2)
    loom.tap("undo")
    assert loom.text("left") == f"{first - 1}"
    loom.tap("on")
    assert loom.text("which") == "Stripe 2 of 4"
    loom.find("stripe").send_keys("4")
    loom.find("go").submit()
    assert loom.text("which") == "Stripe 4 of 4"
    loom.tap("undo")
    assert (loom.text("which"), loom.text("left")) == ("Stripe 2 of 4", f"{second}")
    loom.tap("undo")
    assert loom.text("left") == f"{first - 1}"


def test_steps_by_whole_stripes(loom: Loom, sheet: Path) -> None:
    loom.open(sheet)
    loom.tap("on", 2)
    loom.tap("count")
    loom.tap("back")
    assert loom.text("which") == "Stripe 3 of 4", "first back to the start of this stripe"
    loom.tap("back")
    assert loom.text("which") == "Stripe 2 of 4"


def test_reload_finds_the_place_and_the_way_back(loom: Loom, sheet: Path, plan_maker) -> None:
    first = picks_of(plan_maker, 4, 3, picks=24)[0]
    loom.open(sheet)
    loom.tap("count", 3)
    loom.driver.refresh()
    assert loom.text("left") == f"{first - 3}"
    loom.tap("undo")
    assert loom.text("left") == f"{first - 2}"


def test_each_plan_has_its_own_place(loom: Loom, sheet: Path, plan_maker, tmp_path: Path) -> None:
    other = tmp_path / "other.html"
    other.write_bytes(sheet_html(plan_maker(4, 3, picks=24, name=f"{tmp_path} another")))
    loom.open(sheet)
    loom.tap("count", 2)
    loom.open(other)
    assert "Pick 0 of" in loom.text("progress")
    loom.open(sheet)
    assert "Pick 2 of" in loom.text("progress")


def test_the_place_travels_as_text(loom: Loom, sheet: Path) -> None:
    loom.open(sheet)
    loom.tap("count", 5)
    place = loom.find("place").get_attribute("value")
    assert "cloth 1, pick 5;" in place
    loom.run("localStorage.clear()")
    loom.driver.refresh()
    assert "Pick 0 of" in loom.text("progress")
    loom.run("document.querySelector('details').open = true")
    loom.find("brought").send_keys("cloth 1, pick 4")
    loom.tap("bring")
    assert loom.text("answer") == "That is not a place that this page wrote."
    loom.find("brought").clear()
    loom.find("brought").send_keys(place.replace(place[6:22], "0" * 16))
    loom.tap("bring")
    assert loom.text("answer") == "That place belongs to another plan."
    loom.find("brought").clear()
    loom.find("brought").send_keys(place)
    loom.tap("bring")
    assert "Pick 5 of" in loom.text("progress")


def test_a_damaged_place_does_not_stop_the_page(loom: Loom, sheet: Path) -> None:
    loom.open(sheet)
    data = "JSON.parse(document.getElementById('plan-data').textContent)"
    key = loom.run(f"return 'leafweft:' + {data}.digest")
    assert loom.run("return localStorage.getItem(arguments[0])", key)
    for wrong in ("{", "[]", '{"thrown": ["x"], "cloth": 9, "undo": [[5, 1], 3]}', "null"):
        loom.run("localStorage.setItem(arguments[0], arguments[1])", key, wrong)
        loom.driver.refresh()
        assert "Pick 0 of" in loom.text("progress")
        loom.tap("count")
        assert "Pick 1 of" in loom.text("progress")
    assert loom.console() == []


def test_where_storage_is_refused_it_says_so_and_the_address_keeps_the_place(
    loom: Loom, sheet: Path
) -> None:
    refuse = """Object.defineProperty(window, "localStorage", {
        get() { throw new DOMException("refused", "SecurityError"); } });"""
    hook = loom.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": refuse})
    try:
        loom.open(sheet)
        assert "does not keep your place" in loom.text("not-kept")
        loom.tap("count", 3)
        loom.driver.refresh()
        assert "Pick 3 of" in loom.text("progress")
        assert loom.console() == []
    finally:
        loom.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", hook)


def test_keys(loom: Loom, sheet: Path) -> None:
    from selenium.webdriver.common.keys import Keys

    loom.open(sheet)
    loom.keys(Keys.SPACE, Keys.SPACE)
    assert "Pick 2 of" in loom.text("progress")
    loom.keys(Keys.BACKSPACE)
    assert "Pick 1 of" in loom.text("progress")
    loom.keys(Keys.ARROW_RIGHT)
    assert loom.text("which") == "Stripe 2 of 4"
    loom.keys(Keys.ARROW_LEFT)
    loom.keys(Keys.ARROW_LEFT)
    assert "Pick 0 of" in loom.text("progress")
    loom.find("count").send_keys(Keys.SPACE)
    assert "Pick 1 of" in loom.text("progress"), "space on the button counts once"
    loom.find("undo").send_keys(Keys.SPACE)
    assert "Pick 0 of" in loom.text("progress"), "space on another button is that button's"
    loom.find("stripe").send_keys("2", Keys.BACKSPACE, " ")
    assert "Pick 0 of" in loom.text("progress"), "typing in a field counts nothing"


def test_a_key_that_is_leaned_on_counts_once(loom: Loom, sheet: Path) -> None:
    loom.open(sheet)
    loom.run(
        """for (const repeat of [false, true, true]) document.body.dispatchEvent(
        new KeyboardEvent("keydown", { key: " ", repeat, bubbles: true, cancelable: true }));"""
    )
    assert "Pick 1 of" in loom.text("progress")


def test_every_control_can_be_reached_and_shows_its_focus(loom: Loom, sheet: Path) -> None:
    from selenium.webdriver.common.keys import Keys

    loom.open(sheet)
    loom.tap("count")
    loom.run("document.activeElement.blur(); document.body.focus()")
    reached = []
    for _ in range(14):
        loom.keys(Keys.TAB)
        name, ring = loom.run(
            """const at = document.activeElement; const style = getComputedStyle(at);
            return [at.id || at.tagName, parseFloat(style.outlineWidth)]"""
        )
        reached.append(name)
        assert name == "BODY" or ring >= 2, name
    assert {"look", "count", "back", "undo", "on", "stripe", "SUMMARY"} <= set(reached)


def test_a_screen_reader_is_told(loom: Loom, sheet: Path, plan_maker) -> None:
    first, second = plan_maker(4, 3, picks=24).cloths[0].stripes[:2]
    loom.open(sheet)
    said = loom.find("said")
    assert said.get_attribute("role") == "status"
    loom.tap("count")
    assert said.get_attribute("textContent") == f"{first.colour}, {first.picks - 1} left."
    loom.tap("on")
    told = said.get_attribute("textContent")
    assert f"Cut {first.colour}" in told
    assert f"Start {second.colour} with a new tail." in told
    bar = loom.find("bar")
    assert bar.get_attribute("role") == "progressbar"
    assert "woven" in bar.get_attribute("aria-valuetext")
    unnamed = loom.run(
        """return [...document.querySelectorAll("button, input, select, textarea")].filter((at) =>
        !at.textContent.trim() && !(at.labels && at.labels.length)).length"""
    )
    assert unnamed == 0
    assert loom.run("return document.querySelectorAll('tr[aria-current=step]').length") == 1


def test_names_with_markup_stay_text(loom: Loom, plan_maker, tmp_path: Path) -> None:
    nasty = '<img src=x onerror="window.hit=1"><b>moss</b> & bark'
    place = tmp_path / "nasty.html"
    place.write_bytes(
        sheet_html(
            plan_maker(4, 3, picks=24, name=nasty, names=tuple(f"{nasty}{n}" for n in range(3)))
        )
    )
    loom.open(place)
    assert loom.text("colour-name") == f"{nasty}0"
    loom.tap("count")
    assert loom.run("return document.querySelectorAll('img, h1 b, #colour-name b').length") == 0
    assert loom.run("return window.hit") is None
    assert loom.run("return document.title") == nasty
    assert loom.console() == []


def test_no_request_leaves(loom: Loom, sheet: Path) -> None:
    """Served over a local address, so that a request of the page would be seen."""
    handler = functools.partial(QuietHandler, directory=str(sheet.parent))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        address = f"http://127.0.0.1:{server.server_port}/{sheet.name}"
        loom.open(address)
        loom.tap("count", 3)
        loom.tap("look")
        asked = [url for url in loom.requests() if not url.startswith("data:")]
        assert asked == [address]
        assert loom.console() == []
        refused = loom.driver.execute_async_script(
            """const done = arguments[0];
            fetch("/other").then(() => done(false), () => done(true));"""
        )
        assert refused, "the page may not ask even its own address"
    finally:
        server.shutdown()
        server.server_close()


class QuietHandler(http.server.SimpleHTTPRequestHandler):
    """A file server that says nothing."""

    def log_message(self, *_: object) -> None:
        """Stay silent."""


@pytest.mark.parametrize(("width", "height"), [(360, 640), (360, 780), (780, 360), (1280, 800)])
def test_it_fits_phones_and_screens(
    loom: Loom, plan_maker, tmp_path: Path, width: int, height: int
) -> None:
    place = tmp_path / "wide.html"
    names = tuple(f"a colour with a rather long name of its own {n}" for n in range(12))
    place.write_bytes(sheet_html(plan_maker(60, 12, names=names, name=f"{tmp_path} {width}")))
    loom.size(width, height)
    loom.open(place)
    assert loom.run("return document.documentElement.scrollWidth") <= width
    box = loom.run("return document.getElementById('count').getBoundingClientRect().toJSON()")
    assert box["bottom"] <= height, "the counting button is in reach without scrolling"
    assert box["height"] >= 60
    small = loom.run(
        """const all = [...document.querySelectorAll(".hand button, #go button, #look")];
        const boxes = all.filter((at) => !at.hidden).map((at) => at.getBoundingClientRect());
        return boxes.filter((box) => box.width < 44 || box.height < 44).length"""
    )
    assert small == 0
    tall = loom.run("return parseFloat(getComputedStyle(document.getElementById('left')).fontSize)")
    assert tall >= 110, "read from a metre"
    covered = loom.run(
        """const left = document.getElementById("left").getBoundingClientRect();
        return document.elementFromPoint(left.x + left.width / 2, left.y + left.height / 2).id"""
    )
    assert covered == "left", "nothing lies over the number"


TABLETS = [
    (600, 960),
    (960, 600),
    (768, 1024),
    (1024, 768),
    (810, 1080),
    (1080, 810),
    (1180, 820),
    (1366, 1024),
    (960, 540),
    (844, 390),
]


@pytest.mark.parametrize(("width", "height"), TABLETS)
@pytest.mark.parametrize("picks", [8, 98, 336, 1578])
def test_the_number_stays_in_one_piece_on_a_tablet(
    loom: Loom, plan_maker, tmp_path: Path, width: int, height: int, picks: int
) -> None:
    place = tmp_path / "tablet.html"
    names = ("light olive green", "pale magenta")
    plan = plan_maker(2, 2, names=names, picks=2 * picks, name=f"{tmp_path} {width} {picks}")
    place.write_bytes(sheet_html(plan))
    loom.size(width, height)
    loom.open(place)
    lines, wide, room, high = loom.run(
        """const left = document.getElementById("left");
        const span = document.createRange();
        span.selectNodeContents(left);
        const tops = new Set([...span.getClientRects()].map((box) => Math.round(box.top)));
        const size = parseFloat(getComputedStyle(left).fontSize);
        return [tops.size, span.getBoundingClientRect().width, left.clientWidth, size]"""
    )
    assert lines == 1
    assert wide <= room
    assert high >= min(110, 0.3 * height), "read from a metre"
    words = loom.run(
        """const name = document.getElementById("colour-name").firstChild;
        return name.data.trim().split(" ").map((word) => {
          const span = document.createRange();
          const start = name.data.indexOf(word);
          span.setStart(name, start);
          span.setEnd(name, start + word.length);
          return span.getClientRects().length;
        })"""
    )
    assert set(words) == {1}, "no word is broken"
    assert loom.run("return document.documentElement.scrollWidth") <= width
    box = loom.run("return document.getElementById('count').getBoundingClientRect().toJSON()")
    assert box["bottom"] <= height


def test_light_and_dark_are_remembered(loom: Loom, sheet: Path) -> None:
    loom.open(sheet)
    ground = "return getComputedStyle(document.body).backgroundColor"
    before = loom.run(ground)
    loom.tap("look")
    after = loom.run(ground)
    assert before != after
    loom.driver.refresh()
    assert loom.run(ground) == after


def test_several_cloths_keep_a_place_each(loom: Loom, plan_maker, tmp_path: Path) -> None:
    from selenium.webdriver.support.ui import Select

    place = tmp_path / "towels.html"
    place.write_bytes(sheet_html(plan_maker(4, 3, cloths=3, picks=24, name=str(tmp_path))))
    loom.open(place)
    loom.tap("count", 2)
    Select(loom.find("cloth")).select_by_visible_text("Towel 2")
    assert "Pick 0 of" in loom.text("progress")
    loom.tap("count")
    loom.driver.refresh()
    assert "Pick 1 of" in loom.text("progress")
    Select(loom.find("cloth")).select_by_visible_text("Towel 1")
    assert "Pick 2 of" in loom.text("progress")


def test_what_lies_between_the_cloths_is_said(loom: Loom, plan_maker, tmp_path: Path) -> None:
    place = tmp_path / "between.html"
    plan = plan_maker(2, 2, cloths=2, picks=24, name=str(tmp_path))
    warp = replace(plan.warp, fringe_mm=0.0, gap_mm=50.0, sampling_mm=200.0)
    place.write_bytes(sheet_html(replace(plan, warp=warp)))
    loom.open(place)
    assert loom.text("which") == "Towel 1: stripe 1 of 2"
    assert loom.text("turn-head").startswith("First weave 20 cm for sampling. Start ")
    assert not loom.find("onward").is_displayed()
    loom.tap("on", 2)
    assert loom.text("unit") == "this cloth is woven"
    assert loom.text("turn-next") == "Leave 5 cm of warp, then Towel 2."
    loom.keys(" ")
    assert loom.text("which").startswith("Towel 1"), "a pick too many is not the next cloth's"
    assert loom.text("onward") == "On to Towel 2"
    loom.tap("onward")
    assert loom.text("which") == "Towel 2: stripe 1 of 2"
    assert not loom.find("onward").is_displayed()
    assert "sampling" not in loom.text("turn-head")
    loom.tap("on", 2)
    assert loom.text("turn-next") == "All the cloths are woven."
    assert not loom.find("onward").is_displayed()
    assert loom.console() == []


def test_a_cloth_that_was_passed_over_is_named_at_the_end(
    loom: Loom, plan_maker, tmp_path: Path
) -> None:
    from selenium.webdriver.support.ui import Select

    place = tmp_path / "passed.html"
    place.write_bytes(sheet_html(plan_maker(2, 2, cloths=3, picks=24, name=str(tmp_path))))
    loom.open(place)
    Select(loom.find("cloth")).select_by_visible_text("Towel 3")
    loom.tap("on", 2)
    assert "Not yet woven: Towel 1, Towel 2." in loom.text("turn-next")


def test_the_pick_list_is_there_without_scripts(loom: Loom, sheet: Path) -> None:
    loom.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        loom.open(sheet)
        body = loom.driver.find_element("tag name", "main").text
        assert "The counter needs a browser that runs scripts" in body
        assert "Pick list" in body
        assert not loom.find("loom").is_displayed()
    finally:
        loom.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
