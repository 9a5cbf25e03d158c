"""What a command is given is never what it writes, not even with --force."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

RULE = "must not be a file that the result is made from"


@pytest.fixture
def hedge(leafweft: Callable, bank: Path) -> Path:
    """The photograph under a name of its own, where the program runs."""
    return Path(shutil.copy(bank, "hedge.png"))


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("palette hedge.png --out hedge.json", "hedge.png"),
        ("palette hedge.png --out hedge.png", "hedge.png"),
        ("palette hedge.png --out ./../HERE/hedge.png", "hedge.png"),
        ("palette hedge.png --out link.json", "link.json"),
        ("palette cloth-light.png --light shade --out cloth.json", "cloth-light.png"),
        ("stripes hedge.png --out hedge.png", "hedge.png"),
        ("read hedge.png --width 10cm --picks 8/cm --out hedge.png", "hedge.png"),
        ("plan cloth.png --out .", "cloth.png"),
        ("plan --brief other.toml --out .", "cloth.png"),
        ("plan hedge.png --mask cloth.png --out .", "cloth.png"),
        ("choices choices-1.png --out .", "choices-1.png"),
    ],
)
def test_an_input_is_refused_as_output(
    leafweft: Callable, hedge: Path, plan_file: Path, words: str, named: str, tmp_path: Path
) -> None:
    for name in ("cloth", "cloth-light", "choices-1"):
        shutil.copy(hedge, f"{name}.png")
    shutil.copy(plan_file, "plan.json")
    Path("brief.toml").write_text('photo = "hedge.png"\n', encoding="utf-8")
    Path("other.toml").write_text('photo = "cloth.png"\n', encoding="utf-8")
    Path("link.json").symlink_to("hedge.png")
    words = words.replace("HERE", tmp_path.name)
    before = {path: path.read_bytes() for path in sorted(Path().iterdir())}
    done = leafweft(*words.split(), "--force")
    assert (done.code, done.out) == (3, ""), done.err
    assert RULE in done.err
    assert named in done.err
    assert done.err.count("\n") == 1
    assert {path: path.read_bytes() for path in sorted(Path().iterdir())} == before


@pytest.mark.parametrize(
    "words",
    [
        "plan --brief scarf/brief.toml --out scarf",
        "plan --brief scarf/brief.toml --stripes scarf/stripes.csv --out scarf",
        "warp scarf --width 30cm --out scarf/plan.json",
        "yarn scarf/plan.json --out scarf/plan.json",
    ],
)
def test_what_was_edited_may_be_made_anew_in_its_place(
    leafweft: Callable, hedge: Path, words: str
) -> None:
    assert leafweft("plan", hedge, "--length", "40cm", "--out", "scarf").code == 0
    refused = leafweft(*words.split())
    assert refused.code == 3
    assert "--force" in refused.err
    done = leafweft(*words.split(), "--force")
    assert done.code == 0, done.err
    again = leafweft(*words.split(), "--force")
    assert again.code == 0, again.err


def test_a_folder_of_photographs_is_kept(leafweft: Callable, hedge: Path) -> None:
    Path("photos").mkdir()
    shutil.move(hedge, "photos/hedge.png")
    shutil.copy("photos/hedge.png", "photos/hedge-palette.png")
    before = Path("photos/hedge-palette.png").read_bytes()
    done = leafweft("palette", "photos", "--out", "photos", "--force")
    assert done.code == 3
    assert RULE in done.err
    assert Path("photos/hedge-palette.png").read_bytes() == before
    assert not Path("photos/hedge-palette.json").exists()


@pytest.mark.parametrize(
    ("out", "said"),
    [
        ("", "must be a file; got a folder"),
        (".", "must be a file; got a folder"),
        ("..", "must be a file; got a folder"),
        ("x" * 300 + ".json", "must have a name that the disk can hold; got a name too long"),
        ("new.png", "must not end in .png, as the card of swatches beside it does"),
        ("none/new.json", "must be in a folder that exists; got no such folder"),
    ],
)
def test_names_that_no_palette_file_can_have(
    leafweft: Callable, hedge: Path, out: str, said: str
) -> None:
    done = leafweft("palette", hedge, "--out", out)
    assert (done.code, done.out) == (3, "")
    assert said in done.err
    assert done.err.count("\n") == 1
    assert [path.name for path in Path().iterdir()] == ["hedge.png"]


@pytest.mark.parametrize("command", ["plan", "choices", "stripes"])
def test_a_name_too_long(leafweft: Callable, hedge: Path, command: str) -> None:
    done = leafweft(command, hedge, "--out", "x" * 300)
    assert (done.code, done.out) == (3, "")
    assert "must have a name that the disk can hold; got a name too long" in done.err


def test_a_light_card_in_the_way_keeps_the_palette_from_being_written(
    leafweft: Callable, hedge: Path
) -> None:
    Path("new-light.png").touch()
    done = leafweft("palette", hedge, "--light", "shade", "--out", "new.json")
    assert done.code == 3
    assert "new-light.png: must not exist yet" in done.err
    assert {path.name for path in Path().iterdir()} == {"hedge.png", "new-light.png"}


def test_an_archive_beside_the_folder_we_are_in(
    leafweft: Callable, hedge: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("inner").mkdir()
    monkeypatch.chdir("inner")
    assert leafweft("plan", "../hedge.png", "--out", ".", "--force", "--zip").code == 0
    assert Path("../inner.zip").is_file()


def test_a_folder_that_was_taken_away(
    leafweft: Callable, plan_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    done = leafweft("plan", plan_file, "--out", "x")
    assert (done.code, done.out) == (3, "")
    assert "x: must be in a folder that exists; got no such folder" in done.err
    made = tmp_path / "made"
    assert leafweft("plan", plan_file, "--out", made).code == 0
    assert str(plan_file.name) in (made / "brief.toml").read_text(encoding="utf-8")
