"""``leafweft read``: what it tells a weaver, and the plan it writes."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from tests.cli.conftest import quietly
from tests.stripes.rendered_cloth import Cloth, Setting, render

CLOTH = Path(__file__).parents[2] / "sample_images" / "striped-cloth.jpg"


@pytest.fixture(scope="module")
def cloth() -> Cloth:
    return render(41, Setting(size=(900, 700), stripes=(10, 12), margin=0.08, picks=(4, 10)))


@pytest.fixture
def picture(cloth: Cloth, tmp_path: Path) -> Path:
    path = tmp_path / "old-cloth.jpg"
    Image.fromarray(cloth.pixels).save(path, quality=92)
    return path


def test_read_tells_direction_size_picks_repeat_and_doubt(
    leafweft: Callable, picture: Path, cloth: Cloth, tmp_path: Path
) -> None:
    ran = leafweft("read", picture, "--width", "30cm", "--out", tmp_path / "plan.json")
    assert ran.code == 0
    assert f"{len(cloth.sequence)} stripes in" in ran.out
    for said in ("level, read from the top down", "Size: ", "across", "Picks: ", "Repeat: "):
        assert said in ran.out
    assert "Unsure: " in ran.out
    assert "unsure because it" in ran.out
    plan = json.loads((tmp_path / "plan.json").read_text(encoding="utf-8"))
    assert plan


def test_read_without_scale_says_what_is_missing(
    leafweft: Callable, picture: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = leafweft("read", picture)
    assert ran.code == 0
    assert "Size: not known; give --width or --length" in ran.out
    assert "Without a scale there is no plan" in ran.err


def test_read_notes_a_density_that_the_threads_deny(
    leafweft: Callable, picture: Path, tmp_path: Path
) -> None:
    options = ("--width", "30cm", "--picks", "30/cm", "--out", tmp_path / "plan.json")
    ran = leafweft("read", picture, *options)
    assert "can be counted in the picture; check the picks per cm and the size" in ran.err


def test_read_as_json_holds_places_and_doubts(leafweft: Callable, picture: Path) -> None:
    ran = leafweft("read", picture, "--json")
    told = json.loads(ran.out)
    starts = [stripe["start"] for stripe in told["stripes"]]
    assert starts == sorted(starts)
    assert {"confidence", "doubt", "share"} <= set(told["stripes"][0])


@pytest.fixture(scope="module")
def old(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the plan of the sample cloth, 22.4 cm wide and 11.9 cm long as it lies."""
    path = tmp_path_factory.mktemp("old") / "old.json"
    quietly("read", CLOTH, "--width", "22.4cm", "--picks", "9/cm", "--out", path)
    return path


def test_the_plan_of_a_cloth_has_its_size_once_washed(leafweft: Callable, old: Path) -> None:
    weft = json.loads(old.read_text(encoding="utf-8"))["weft"]
    assert weft["true_finished_length_mm"] == pytest.approx(119, abs=1.2)
    assert weft["picks_per_cm"] == pytest.approx(8.1)
    assert weft["repeat_stripes"] == 12
    ran = leafweft("warp", old)
    assert "22.4 cm" in ran.out


def test_its_repeat_is_woven_at_its_own_width(leafweft: Callable, old: Path) -> None:
    ran = leafweft("stripes", old, "--like", old, "--length", "200cm", "--picks", "6/cm", "--json")
    assert ran.code == 0, ran.err
    assert (
        "(12 stripes, 9.0 cm, where it was 7.7 cm) is woven at its own width, 22 times" in ran.err
    )
    assert "would be under the smallest of 4 picks; --least 1 weaves them as they are" in ran.err
    stripes = json.loads(ran.out)["stripes"]
    assert [s["colour"] for s in stripes[12:24]] == [s["colour"] for s in stripes[:12]]
    assert [s["picks"] for s in stripes[12:24]] == [s["picks"] for s in stripes[24:36]]
    assert "Not used" not in ran.err
    grey = {s["picks"] for s in stripes if s["colour"] == "light grey"}
    assert len(grey) == 1


def test_repeats_act_with_like_and_the_colours_are_set_side_by_side(
    leafweft: Callable, old: Path, bank: Path
) -> None:
    options = ("--colours", "8", "--length", "200cm", "--repeats", "4")
    ran = leafweft("stripes", bank, "--like", old, *options)
    assert ran.code == 0, ran.err
    assert "is woven 4 times, 6.5 times as wide as it was" in ran.err
    assert "Not used" not in ran.err
    assert "in that plan" in ran.out
    assert re.search(r"light grey #dfd6c3  +\w", ran.out)
    assert "in the palette" in ran.out
