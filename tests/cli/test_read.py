"""``leafweft read``: what it tells a weaver, and the plan it writes."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from tests.stripes.rendered_cloth import Cloth, Setting, render


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
