"""A refusal is all that is said: no notes before it, nothing written, nothing on stdout."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

PLAN = "PLAN"


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ("yarn none.json", 3, "none.json: must be a file; got nothing by that name."),
        ("yarn folder", 3, "folder/plan.json: must be a file; got nothing by that name."),
        ("stripes none.json", 3, "none.json: must be a file; got nothing by that name."),
        ("match none.json none.csv", 3, "none.json: must be a file; got nothing by that name."),
        ("yarn empty.json", 3, "empty.json: must be JSON; got an empty file."),
        ("yarn broken.json", 3, "broken.json: must be JSON; got something else in line 2."),
        ("yarn PLAN --skein 0g", 2, "--skein: must be a mass or a length; got '0g'."),
        ("stripes PLAN --skein zork", 2, "--skein: must be a mass or a length; got 'zork'."),
        ("stripes PLAN --out there.json", 3, "there.json: must not exist yet; got one that is"),
        ("warp PLAN --out there.json", 3, "there.json: must not exist yet; got one that is"),
        ("choices PLAN --pick 2 --out there.json", 3, "there.json: must not exist yet; got one"),
        ("yarn PLAN --price zork", 2, "--price: must be a number per mass; got 'zork'."),
        ("yarn PLAN --fleece zork", 2, "--fleece: must be one of merino, "),
        ("yarn PLAN --shelf empty.csv", 3, "empty.csv: must hold a row of headings; got an"),
        ("cloth PLAN --wanted zork", 2, "--wanted: must be a colour; got 'zork'."),
        ("cloth PLAN --out there.json", 3, "there.json: must be a folder that does not exist"),
        ("plan PLAN --out there.json", 3, "there.json: must be a folder that does not exist"),
        ("plan PLAN --out folder", 3, "folder: must be a folder that does not exist yet"),
        ("plan PLAN --out a/b/c", 3, "a/b/c: must be in a folder that exists; got no such"),
        ("plan PLAN --out there.json/a", 3, "there.json/a: must be in a folder; got a path"),
        ("plan PLAN --out new --zip", 3, "new.zip: must not exist yet; got one that is there."),
        ("choices PLAN --out folder", 3, "folder: must be a folder that does not exist yet"),
        ("cloth PLAN --samples none.csv", 3, "samples none.csv: must be a file that can be"),
        ("palette PLAN --colours 3", 2, "--colours: must go with a photograph; a palette file"),
        ("palette folder --munsell", 2, "--munsell: must go with one palette at a time; got"),
        ("palette folder --merge a+b", 2, "--merge: must go with one palette at a time; got"),
        ("palette folder --out there.json", 3, "there.json: must be a folder; got a file."),
        ("palette folder --out there.json/a", 3, "there.json/a: must be a folder; got a file."),
    ],
)
def test_nothing_but_one_sentence(
    leafweft: Callable, bank: Path, plan_file: Path, words: str, code: int, said: str
) -> None:
    Path("folder").mkdir()
    if words.startswith("palette folder"):
        Path("folder/one.png").write_bytes(bank.read_bytes())
    Path("empty.json").touch()
    Path("empty.csv").touch()
    Path("broken.json").write_text('{\n"kind": zork}', encoding="utf-8")
    Path("there.json").write_text("keep", encoding="utf-8")
    Path("new.zip").touch()
    before = sorted(Path().rglob("*"))
    done = leafweft(*(plan_file if word == PLAN else word for word in words.split()))
    assert done.code == code
    assert done.err.startswith(f"leafweft: {said}")
    assert done.err.count("\n") == 1
    assert done.out == ""
    assert sorted(Path().rglob("*")) == before
    assert Path("there.json").read_text(encoding="utf-8") == "keep"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"ends": ', '"ends": -', "warp ends: must be at least 1"),
        ('"first_pick": 1,', '"first_pick": "one",', "must be a whole number; got 'one'"),
    ],
)
def test_a_plan_edited_by_hand_is_refused_in_plain_words(
    leafweft: Callable, plan_file: Path, old: str, new: str, said: str
) -> None:
    text = plan_file.read_text(encoding="utf-8").replace(old, new, 1)
    Path("edited.json").write_text(text, encoding="utf-8")
    done = leafweft("warp", "edited.json")
    assert done.code == 3
    assert said in done.err
    assert "validation" not in done.err


def test_sheets_without_a_folder_lie_beside_the_person(leafweft: Callable, plan_file: Path) -> None:
    words = ("sheet", plan_file, "stripes.csv", "palette.css")
    assert leafweft(*words).code == 0
    assert {path.name for path in Path().iterdir()} == {"stripes.csv", "palette.css"}
    Path("palette.css").unlink()
    again = leafweft(*words)
    assert again.code == 3
    assert again.err.startswith("leafweft: stripes.csv: must not exist yet; got one that is there.")
    assert not Path("palette.css").exists()
    assert leafweft(*words, "--force").code == 0


def test_dull_wefts_are_named_in_one_note(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("cloth", plan_file)
    notes = [line for line in done.err.splitlines() if line.startswith("Note: ")]
    dull = [note for note in notes if "duller than the yarn" in note]
    assert len(dull) == 1
    looks = json.loads(leafweft("cloth", plan_file, "--json").out)["cloths"]
    lost = [each["colour"] for each in looks[0]["colours"] if each["chroma_lost"] > 20]
    assert lost
    assert all(colour in dull[0] for colour in lost)
    shifted = [each for each in looks[0]["colours"] if abs(each["lightness_change"]) >= 20]
    assert shifted
    lighter = dull[0].partition("much lighter than the yarn: ")[2]
    assert all(each["colour"] in lighter for each in shifted)
    for each in looks[0]["colours"]:
        line = next(line for line in done.out.splitlines() if line.startswith(each["colour"]))
        assert (f"{100 * each['part_lost']:.0f} %" in line) is (each["part_lost"] > 0)


def test_defaults_are_listed_by_reason_within_80_columns(leafweft: Callable, bank: Path) -> None:
    lines = leafweft("plan", bank, "--width", "30cm").err.splitlines()
    start = lines.index("Not given, so taken:")
    assert lines[start + 1].startswith("  common practice: ")
    listed = [line for line in lines[start + 1 :] if line.startswith("  ")]
    assert max(map(len, listed)) <= 80
    assert not any("width" in line for line in listed)
    assert "  a scarf: length 180cm" in listed


def test_a_check_of_an_imperial_plan_speaks_imperial(leafweft: Callable, bank: Path) -> None:
    made = leafweft("stripes", bank, "--length", "72 in", "--picks", "20/in", "--out", "p.json")
    assert made.code == 0
    last = json.loads(Path("p.json").read_text(encoding="utf-8"))["stripes"][-1]["colour"]
    done = leafweft("check", "p.json", "--woven", "30 in", "--left", f"{last}=0.1 oz")
    notes = [line for line in done.err.splitlines() if line.startswith("Note: ")]
    assert any("sooner on the loom" in note for note in notes)
    assert not any(unit in note for note in notes for unit in (" cm", " g,", " g."))
    assert sum("instead of" in note for note in notes) == 1
