"""Whatever a user can type gets one sentence, a documented exit code, and nothing half written."""

import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

PLAN = ("--out", "scarf")


@pytest.fixture
def bad_files(tmp_path: Path, bank: Path) -> dict[str, Path]:
    """Files that look like photographs and are not."""
    folder = tmp_path / "bad"
    folder.mkdir()
    (folder / "empty.jpg").write_bytes(b"")
    (folder / "text.jpg").write_text("not a photograph", encoding="utf-8")
    whole = folder / "whole.jpg"
    with Image.open(bank) as picture:
        picture.save(whole, quality=90)
    (folder / "cut.jpg").write_bytes(whole.read_bytes()[: whole.stat().st_size // 2])
    clear = np.zeros((20, 20, 4), np.uint8)
    Image.fromarray(clear).save(folder / "clear.png")
    return {path.stem: path for path in folder.iterdir()} | {
        "folder": folder,
        "missing": folder / "missing.jpg",
    }


@pytest.mark.parametrize(
    ("command", "kind"),
    [
        (command, kind)
        for command in ("plan", "palette", "stripes")
        for kind in ("empty", "text", "cut", "clear", "folder", "missing")
        if (command, kind) != ("palette", "folder")  # a folder is read photograph by photograph
    ],
)
def test_a_file_that_cannot_be_used(
    leafweft: Callable, bad_files: dict[str, Path], kind: str, command: str, tmp_path: Path
) -> None:
    before = sorted(tmp_path.rglob("*"))
    done = leafweft(command, bad_files[kind], "--out", "made")
    assert done.code == 3
    assert done.out == ""
    assert done.err.startswith("leafweft: ")
    assert len(done.err.splitlines()) == 1
    assert bad_files[kind].name in done.err
    assert sorted(tmp_path.rglob("*")) == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--length", "0cm"), "--length: must be more than 0; got '0cm'"),
        (("--length=-2m",), "--length: must be 0 or more, and finite; got '-2m'"),
        (("--length", "nan cm"), "--length: must be 0 or more, and finite; got 'nan cm'"),
        (("--length", "180"), "--length: must carry a unit; got '180'"),
        (("--picks", "8"), "--picks: must carry a unit; got '8'"),
        (("--weft", "8/2"), "--weft: must name its system; got '8/2'. It could be NeC 8/2"),
        (("--colours", "0"), "--colours: must be a whole number from 1 to 64, or auto; got 0"),
        (("--order", "zigzag"), "order"),
        (("--units", "furlongs"), "--units: must be 'metric' or 'imperial'"),
        (("--warp-colour", "no such colour"), "warp-colour: must be a colour"),
    ],
)
def test_something_typed_that_cannot_be_used(
    leafweft: Callable, bank: Path, words: tuple[str, ...], said: str
) -> None:
    done = leafweft("plan", bank, *words, *PLAN)
    assert done.code == 2
    assert said in done.err
    assert len(done.err.splitlines()) == 1
    assert not Path("scarf").exists()


def test_more_colours_than_the_picks_allow(leafweft: Callable, bank: Path) -> None:
    done = leafweft("plan", bank, "--length", "1cm", "--picks", "4/cm", *PLAN)
    assert done.code == 4
    assert "colours" in done.err
    assert len(done.err.splitlines()) == 1


def test_one_colour_where_eight_were_asked_is_an_answer(leafweft: Callable, tmp_path: Path) -> None:
    path = tmp_path / "felt.png"
    Image.fromarray(np.full((50, 60, 3), [93, 115, 58], np.uint8)).save(path)
    done = leafweft("plan", path, *PLAN)
    assert done.code == 0
    assert "ne colour found" in done.err
    assert "8" in done.err


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('name = "a"\nlenght = "1m"\n', "b.toml, line 2, lenght: is not a key of a brief"),
        ("step = 2.5\n", "b.toml, line 1, step: must be a whole number; got 2.5"),
        ("step =\n", "must be TOML"),
    ],
)
def test_a_brief_with_a_fault(leafweft: Callable, bank: Path, text: str, said: str) -> None:
    Path("b.toml").write_text(text, encoding="utf-8")
    done = leafweft("plan", bank, "--brief", "b.toml", *PLAN)
    assert done.code == 2
    assert said in done.err


def test_a_folder_that_is_there_is_left_alone(
    leafweft: Callable, bank: Path, made_scarf: tuple
) -> None:
    shutil.copytree(made_scarf[0], "scarf")
    before = {path.name: path.read_bytes() for path in Path("scarf").iterdir()}
    done = leafweft("plan", bank, "--colours", "3", *PLAN)
    assert done.code == 3
    assert "--force" in done.err
    assert {path.name: path.read_bytes() for path in Path("scarf").iterdir()} == before
    assert leafweft("plan", bank, "--colours", "3", "--force", *PLAN).code == 0
    assert Path("scarf/plan.json").read_bytes() != before["plan.json"]


def test_a_place_that_cannot_be_written(leafweft: Callable, bank: Path) -> None:
    Path("file").write_text("in the way", encoding="utf-8")
    done = leafweft("plan", bank, "--out", "file/scarf")
    assert done.code == 3
    assert len(done.err.splitlines()) == 1


def test_a_plan_of_another_kind(leafweft: Callable) -> None:
    Path("p.json").write_text('{"kind": "leafweft/palette", "version": 1}', encoding="utf-8")
    done = leafweft("yarn", "p.json")
    assert done.code == 3
    assert "must be a leafweft/plan file; got leafweft/palette" in done.err


def test_nothing_given(leafweft: Callable) -> None:
    done = leafweft("plan", *PLAN)
    assert done.code == 2
    assert "photograph: must be given" in done.err


def test_a_folder_without_a_photograph(leafweft: Callable, tmp_path: Path) -> None:
    (tmp_path / "bare").mkdir()
    done = leafweft("palette", "bare")
    assert done.code == 2
    assert "must hold a photograph; got a folder without one" in done.err
    assert not (tmp_path / "palettes").exists()
