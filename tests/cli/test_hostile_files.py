"""Files that are made to break a reader get one sentence, whichever command is given them."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

DEEP = "must nest its lists at most 32 deep; got deeper ones"
ENDLESS = "must be an ordinary file; got a pipe or a device"


@pytest.mark.parametrize(
    "words",
    [
        "stripes FILE.json",
        "warp FILE.json",
        "palette FILE.json",
        "sheet FILE.json",
        "choices FILE.json",
        "plan FILE.json",
        "plan PLAN --stripes FILE.json",
        "match FILE.json shelf.csv",
        "blend moss --palette FILE.json --from shelf.csv",
        "stripes PLAN --like FILE.json",
        "cloth PLAN --samples FILE.json",
    ],
)
@pytest.mark.parametrize("depth", [40, 900, 100_000])
def test_json_nested_too_deep(leafweft: Callable, plan_file: Path, words: str, depth: int) -> None:
    Path("FILE.json").write_text("[" * depth + "]" * depth, encoding="utf-8")
    Path("shelf.csv").write_text("name,colour\nmoss,#5d733a\n", encoding="utf-8")
    done = leafweft(*words.replace("PLAN", str(plan_file)).split())
    assert (done.code, done.out) == (3, ""), done.err
    assert "FILE.json" in done.err
    assert DEEP in done.err or "plan PLAN" in words or "--samples" in words
    assert done.err.count("\n") == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("x = " + "[" * 20_000, DEEP),
        ("x = " + "{a=" * 5000, DEEP),
        ("keep = " + "[" * 200 + "]" * 200, DEEP),
        ("seed = " + "9" * 5000, "must be TOML; got a number too long"),
        ("seed = " + "9" * 3000, "seed: must be at most 9223372036854775807; got 9999"),
        (f'name = "{"x" * 5000}"', "name: must be at most 4,000 characters; got 5,000"),
        (f'keep = ["{"x" * 5000}"]', "keep: must be at most 4,000 characters; got 5,000"),
        ("x" * 1_000_001, "must be under 1 MB"),
    ],
)
def test_briefs_made_to_break_the_reader(
    leafweft: Callable, plan_file: Path, text: str, said: str
) -> None:
    Path("b.toml").write_text(text, encoding="utf-8")
    done = leafweft("plan", plan_file, "--brief", "b.toml", "--out", "new")
    assert done.code in {2, 3}
    assert done.out == ""
    assert said in done.err
    assert done.err.count("\n") == 1
    assert len(done.err) < 400


@pytest.mark.parametrize("kind", ["pipe", "/dev/zero"])
@pytest.mark.parametrize(
    "words",
    [
        "match PLAN FILE",
        "warp FILE",
        "palette FILE",
        "stripes FILE.wif",
        "plan --brief FILE",
        "plan PLAN --stripes FILE",
        "cloth PLAN --samples FILE",
        "blend moss --samples FILE",
        "yarn PLAN --shelf FILE",
    ],
)
def test_what_never_ends_is_not_read(
    leafweft: Callable, plan_file: Path, words: str, kind: str
) -> None:
    for name in ("file", "file.wif"):
        if kind == "pipe":
            os.mkfifo(name)
        else:
            Path(name).symlink_to(kind)
    done = leafweft(*words.replace("PLAN", str(plan_file)).replace("FILE", "file").split())
    assert (done.code, done.out) == (3, ""), done.err
    assert "a pipe or a device" in done.err
    assert done.err.count("\n") == 1


@pytest.mark.parametrize("colours", ["²", "-5", "9" * 3000, "٣٣٣٣", "x"])
def test_numbers_of_colours_that_are_none(leafweft: Callable, bank: Path, colours: str) -> None:
    done = leafweft("palette", bank, f"--colours={colours}")
    assert (done.code, done.out) == (2, "")
    assert "--colours: must be a whole number from 1 to 64, or auto; got " in done.err
    assert len(done.err) < 400


@pytest.mark.parametrize("most", ["moss=²", "moss=" + "9" * 3000])
def test_numbers_of_picks_that_are_none(leafweft: Callable, plan_file: Path, most: str) -> None:
    done = leafweft("stripes", plan_file, "--most", most)
    assert done.code == 2
    assert "--most: must be a colour and a number; got 'moss=" in done.err
    assert len(done.err) < 400


def test_files_of_another_system_with_its_mark(
    leafweft: Callable, plan_file: Path, bank: Path
) -> None:
    marked = Path("marked.json")
    marked.write_bytes(
        plan_file.read_text(encoding="utf-8").replace("\n", "\r\n").encode("utf-8-sig")
    )
    assert leafweft("yarn", "marked.json").code == 0
    assert leafweft("stripes", "marked.json", "--json").code == 0
    Path("b.toml").write_bytes('length = "1m"\r\n'.encode("utf-8-sig"))
    done = leafweft("plan", bank, "--brief", "b.toml", "--json")
    assert done.code == 0
    assert '"length": "1m"' in done.out


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[cloth]\nlength = '1m'\n", "cloth: must be a group under [[cloth]], with two brackets"),
        ("length = 2020-01-01\n", "length: must be text with a unit; got 2020-01-01."),
        ("step = 2020-01-01\n", "step: must be a whole number; got 2020-01-01"),
    ],
)
def test_briefs_are_refused_in_plain_words(
    leafweft: Callable, plan_file: Path, text: str, said: str
) -> None:
    Path("b.toml").write_text(text, encoding="utf-8")
    done = leafweft("plan", plan_file, "--brief", "b.toml")
    assert (done.code, done.out) == (2, "")
    assert said in done.err


def test_half_a_character_in_a_file(leafweft: Callable, plan_file: Path) -> None:
    text = plan_file.read_text(encoding="utf-8").replace('"name": "', '"name": "\\ud800', 1)
    Path("p.json").write_text(text, encoding="utf-8")
    done = leafweft("yarn", "p.json")
    assert (done.code, done.out) == (3, "")
    assert "p.json: must be JSON whose texts are whole characters" in done.err


def test_an_archive_lies_beside_a_folder(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("plan", plan_file, "--zip")
    assert (done.code, done.out) == (2, "")
    assert "--zip: must go with --out; got no --out." in done.err
