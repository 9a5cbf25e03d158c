"""The page at the loom as a file: self-contained, escaped, the same every time."""

import base64
import hashlib
import json
import re
from dataclasses import replace

import pytest

from palette.plans.plan import Plan
from palette.plans.skeins import skein_words
from palette.sheets.contrast import contrast
from palette.sheets.html import plan_digest, sheet_html

NASTY = "<img src=x onerror=alert(1)>\"'&{{7*7}}</script><script>"


def test_it_asks_nothing_of_the_network(plan: Plan) -> None:
    text = sheet_html(plan, photo_jpeg=b"\xff\xd8\xff", cloth_pngs=[b"\x89PNG"]).decode()
    assert not re.search(r"""(?:src|href)\s*=\s*["']?(?!data:)[a-z/]""", text)
    assert not re.search(r"@import|url\(|fetch\(|XMLHttpRequest|WebSocket|https?://", text)
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', text)
    assert policy
    assert "default-src &#39;none&#39;" in policy[1]
    assert "unsafe" not in policy[1]


def test_the_policy_names_this_script_and_this_style(plan: Plan) -> None:
    text = sheet_html(plan).decode()
    for tag in ("script", "style"):
        inside = re.search(rf"<{tag}>(.*?)</{tag}>", text, re.DOTALL)
        assert inside
        digest = base64.b64encode(hashlib.sha256(inside[1].encode()).digest()).decode()
        assert f"sha256-{digest}" in text.replace("&#43;", "+")


def test_names_with_markup_stay_text(plan_maker) -> None:
    plan = plan_maker(6, 3, name=NASTY, names=tuple(f"{NASTY}{n}" for n in range(12)))
    text = sheet_html(plan).decode()
    assert "<img src=x" not in text
    assert text.count("<script") == 2
    assert "{{7*7}}" in text, "a name is never read as a template"
    data = re.search(r'id="plan-data">(.*?)</script>', text, re.DOTALL)
    assert data
    assert json.loads(data[1])["colours"][0]["name"] == f"{NASTY}0"


def test_every_figure_a_reader_needs_is_there_without_the_script(plan: Plan) -> None:
    text = sheet_html(plan).decode()
    for stripe in plan.cloths[0].stripes:
        assert f"<b>{stripe.picks}</b>" in text
        assert f">{stripe.last_pick}</td>" in text
    for word in ("Palette", "Pick list", "Yarn to have ready", "Warp", "Weave a sample"):
        assert word in text
    assert 'lang="en"' in text
    assert "width=device-width" in text


def test_whole_skeins_stand_beside_the_yarn(plan: Plan) -> None:
    own = replace(plan, asked=(*plan.asked, ("skein", "50g")))
    assert "Whole skeins" not in sheet_html(plan).decode()
    text = sheet_html(own).decode()
    assert all(f'<td class="right">{words}</td>' in text for words in skein_words(own))


def test_every_cloth_has_its_woven_picture(plan_maker) -> None:
    text = sheet_html(plan_maker(6, 3, cloths=2), cloth_pngs=[b"\x89PNG1", b"\x89PNG2"]).decode()
    assert text.count("data:image/png;base64,") == 2
    assert "Towel 1 as it may look woven: a guide" in text
    assert "Towel 2 as it may look woven: a guide" in text


def test_the_same_plan_gives_the_same_bytes(plan_maker) -> None:
    assert sheet_html(plan_maker()) == sheet_html(plan_maker())


def test_each_plan_keeps_a_place_of_its_own(plan_maker) -> None:
    digests = {
        plan_digest(plan)
        for plan in (plan_maker(30), plan_maker(31), plan_maker(30, name="another"))
    }
    assert len(digests) == 3
    assert plan_digest(plan_maker(warnings=("look at this",))) == plan_digest(plan_maker())


PAIRS = [("--ink", "--paper"), ("--quiet", "--paper"), ("--quiet", "--card"), ("--ink", "--card")]


@pytest.mark.parametrize(("front", "back"), [*PAIRS, ("--button-ink", "--button")])
def test_text_passes_aa_light_and_dark(plan: Plan, front: str, back: str) -> None:
    text = sheet_html(plan).decode()
    themes = [
        dict(re.findall(r"(--[a-z-]+): (#[0-9a-f]{6});", block))
        for block in re.findall(r"\{([^{}]*--paper:[^{}]*)\}", text)
    ]
    assert len(themes) == 3
    for theme in themes:
        assert contrast(theme[front], theme[back]) >= 4.5
        assert contrast(theme["--quiet"], theme["--paper"]) >= 3
        assert contrast(theme["--ring"], theme["--paper"]) >= 3


def test_several_cloths_can_be_chosen(plan_maker) -> None:
    text = sheet_html(plan_maker(5, 3, cloths=3, picks=200)).decode()
    assert text.count("<option") == 3
    assert 'id="stripes-2"' in text


def test_a_plan_without_reckoned_yarn_still_has_its_page(plan: Plan) -> None:
    assert "Pick list" in sheet_html(replace(plan, yarns=())).decode()


def test_what_to_leave_between_the_cloths_stands_in_the_lists(plan_maker) -> None:
    plan = plan_maker(5, 3, cloths=2, picks=200)
    warp = replace(plan.warp, fringe_mm=0.0, gap_mm=50.0, sampling_mm=200.0)
    yarns = tuple(replace(yarn, sampling_length_m=20.0) for yarn in plan.yarns)
    text = sheet_html(replace(plan, warp=warp, yarns=yarns)).decode()
    lists = text.partition('id="pick-list"')[2].partition('id="warp"')[0]
    order = [
        lists.index(words)
        for words in (
            "First weave 20 cm for sampling.",
            "Towel 1:",
            "Leave 5 cm of warp, then Towel 2.",
            "Towel 2:",
            "is for 20 cm of sampling",
        )
    ]
    assert order == sorted(order)
