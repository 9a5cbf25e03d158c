"""Every command: it says what it did, prints JSON alone when asked, and writes where it is told."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

SHELF = (
    "name,colour,fibre,count,grams\n"
    "moss,#5d733a,wool,NeK 2/20,200\n"
    "chalk,#f0eee4,wool,NeK 2/20,100\n"
    "earth,#5c4632,wool,NeK 2/20,80\n"
    "sky,#c4d6e2,wool,NeK 2/20,150\n"
    "rose,#d63c78,wool,NeK 2/20,20\n"
    "young leaf,#7a9e3e,wool,NeK 2/20,90\n"
)


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """A shelf of six yarns."""
    path = tmp_path / "shelf.csv"
    path.write_text(SHELF, encoding="utf-8")
    return path


def colours_of(plan_file: Path) -> list[str]:
    """Wefts of a plan file."""
    content = json.loads(plan_file.read_text(encoding="utf-8"))
    return list(dict.fromkeys(stripe["colour"] for stripe in content["stripes"]))


def test_palette_writes_a_file_and_a_card(leafweft: Callable, bank: Path) -> None:
    done = leafweft("palette", bank, "--colours", "5")
    assert done.code == 0
    assert {path.name for path in Path().iterdir()} == {"bank-palette.json", "bank-palette.png"}
    content = json.loads(Path("bank-palette.json").read_text(encoding="utf-8"))
    assert all(colour["name"] in done.out for colour in content["colours"])


@pytest.fixture
def album(bank: Path, tmp_path: Path) -> Path:
    """A folder with two photographs and one file that is none."""
    folder = tmp_path / "album"
    folder.mkdir()
    (folder / "one.png").write_bytes(bank.read_bytes())
    (folder / "two.png").write_bytes(bank.read_bytes())
    (folder / "bad.jpg").write_text("no photograph", encoding="utf-8")
    return folder


def test_a_folder_gives_one_palette_each_and_lists_what_failed(
    leafweft: Callable, album: Path
) -> None:
    done = leafweft("palette", album, "--jobs", "2", "--colours", "4", "--out", "made")
    assert done.code == 3
    assert {path.name for path in Path("made").iterdir()} == {
        *("one-palette.json", "one-palette.png", "two-palette.json", "two-palette.png"),
    }
    assert "2 of 3 photographs; 1 could not be used." in done.err
    assert "bad.jpg" in done.err
    alone = leafweft("palette", album, "--jobs", "1", "--colours", "4", "--out", "one-by-one")
    assert (alone.code, alone.out) == (3, done.out)
    for path in Path("made").iterdir():
        assert path.read_bytes() == Path("one-by-one", path.name).read_bytes()


def test_several_photographs_give_one_palette(leafweft: Callable, album: Path) -> None:
    done = leafweft("palette", album / "one.png", album / "two.png", "--json")
    assert json.loads(done.out)["source"]["photos"] == ["one.png", "two.png"]


def test_colours_can_be_merged(leafweft: Callable, bank: Path) -> None:
    before = json.loads(leafweft("palette", bank, "--colours", "4", "--json").out)["colours"]
    pair = f"{before[0]['name']}+{before[1]['name']}"
    after = json.loads(leafweft("palette", bank, "--colours", "4", "--merge", pair, "--json").out)
    assert len(after["colours"]) == len(before) - 1
    assert after["colours"][0]["share"] == pytest.approx(before[0]["share"] + before[1]["share"])


def test_the_light_is_shown_before_and_after(leafweft: Callable, bank: Path) -> None:
    done = leafweft("palette", bank, "--light", "A", "--out", "warm.json")
    assert done.code == 0, done.err
    assert Path("warm-light.png").is_file()


def test_munsell_notation_is_printed(leafweft: Callable, bank: Path) -> None:
    done = leafweft("palette", bank, "--colours", "2", "--munsell", "--out", "m.json")
    assert "Munsell" in done.out
    assert "/" in done.out


def test_stripes_come_in_whole_steps(leafweft: Callable, bank: Path) -> None:
    words = ("--length", "1 m", "--picks", "7/cm", "--step", "4", "--least", "8", "--json")
    plan = json.loads(leafweft("stripes", bank, *words).out)
    picks = [stripe["picks"] for stripe in plan["stripes"]]
    assert all(count % 4 == 0 and count >= 8 for count in picks)
    assert sum(picks) == plan["weft"]["total_picks"]


@pytest.mark.parametrize(
    "order", ["photo", "light-dark", "nearest", "mirrored", "scattered", "hit-and-miss"]
)
def test_orders_by_name(leafweft: Callable, plan_file: Path, order: str) -> None:
    done = leafweft("stripes", plan_file, "--order", order, "--seed", "4", "--json")
    assert done.code == 0, done.err
    assert json.loads(done.out)["weft"]["order"] == order


def test_choices_are_numbered_and_can_be_picked(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("choices", plan_file, "--out", "sheet")
    assert done.code == 0, done.err
    assert "choices.pdf" in {path.name for path in Path("sheet").iterdir()}
    listed = json.loads(leafweft("choices", plan_file, "--json").out)
    assert len(listed) >= 12
    picked = json.loads(leafweft("choices", plan_file, "--pick", "9", "--json").out)
    stripes = [[stripe["colour"], stripe["picks"]] for stripe in picked["stripes"]]
    assert stripes == listed[8]["stripes"]


def test_a_choice_that_is_not_there(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("choices", plan_file, "--pick", "99", "--json")
    assert done.code == 2
    assert done.out == ""


def test_match_pairs_every_colour(leafweft: Callable, plan_file: Path, shelf: Path) -> None:
    done = leafweft("match", plan_file, shelf)
    assert done.code == 0, done.err
    assert "moss" in done.out
    pairs = json.loads(leafweft("match", plan_file, shelf, "--json").out)["pairings"]
    assert len(pairs) == len({pair["colour"] for pair in pairs})
    used = [pair["yarn"]["name"] for pair in pairs]
    assert len(used) == len(set(used))


def test_a_bad_row_of_the_shelf_is_named(leafweft: Callable, plan_file: Path, shelf: Path) -> None:
    shelf.write_text(SHELF + "broken,#zzz,wool,,10\n", encoding="utf-8")
    done = leafweft("match", plan_file, shelf)
    assert done.code == 3
    assert "row 8" in done.err
    assert "colour" in done.err


def test_warp_says_how_the_loom_is_dressed(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft(
        "warp", plan_file, "--reed", "10/in", "--reed", "40/10cm", "--weave", "2/2 twill"
    )
    assert done.code == 0, done.err
    for word in ("ends", "width in the reed", "sleyed 2", "Heddles", "Treadles", "Sett offered"):
        assert word in done.out


def test_too_many_heddles_cannot_be_woven(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("warp", plan_file, "--heddles", "40")
    assert done.code == 4
    assert "heddles" in done.err


def test_yarn_in_skeins_from_the_shelf_and_the_fleece(leafweft: Callable, plan_file: Path) -> None:
    rows = "".join(f"{name},#808080,wool,NeC 8/2,500\n" for name in colours_of(plan_file))
    Path("own.csv").write_text(f"name,colour,fibre,count,grams\n{rows}", encoding="utf-8")
    done = leafweft(
        *("yarn", plan_file, "--skein", "50g", "--shelf", "own.csv", "--fleece", "alpaca"),
        *("--price", "30/kg"),
    )
    assert done.code == 0, done.err
    for word in ("whole skeins", "+1 pick/cm", "on the shelf", "raw fleece", "at 30/kg"):
        assert word in done.out


@pytest.mark.parametrize("skein", [(), ("--skein", "50g")])
def test_the_price_is_of_what_the_table_shows(
    leafweft: Callable, plan_file: Path, skein: tuple[str, ...]
) -> None:
    done = leafweft("yarn", plan_file, *skein, "--price", "24/kg")
    rows = [line for line in done.out.splitlines() if re.search(r" (weft|warp) ", line)]
    column = r"\((\d+) g\)" if skein else r" (\d+) g"
    grams = sum(int(re.search(column, row)[1]) for row in rows)
    whole = ", in whole skeins" if skein else ""
    said = f"All yarn together{whole}: {grams} g, {grams * 24 / 1000:.2f} at 24/kg."
    assert said in done.out


def test_a_short_shelf_gives_the_nearest_plan(leafweft: Callable, plan_file: Path) -> None:
    first, *others = colours_of(plan_file)
    rows = "".join(f"{name},#808080,wool,NeC 8/2,500\n" for name in others)
    Path("own.csv").write_text(
        f"name,colour,fibre,count,grams\n{first},#808080,wool,NeC 8/2,2\n{rows}", encoding="utf-8"
    )
    done = leafweft("yarn", plan_file, "--shelf", "own.csv", "--fit", "nearest", "--json")
    assert done.code == 0, done.err
    used = {yarn["colour"]: yarn["mass_g"] for yarn in json.loads(done.out)["yarn"]}
    assert used.get(first, 0.0) <= 2
    assert first in done.err


def test_the_longest_cloth_of_a_shelf_says_its_length(leafweft: Callable, plan_file: Path) -> None:
    first, second, *others = colours_of(plan_file)
    rows = [f"{name},#808080,wool,NeC 8/2,500\n" for name in others]
    head = "name,colour,fibre,count,grams\n"
    short = [f"{first},#808080,wool,NeC 8/2,12\n", *rows]
    Path("own.csv").write_text(head + "".join(short), encoding="utf-8")
    fit = ("yarn", plan_file, "--shelf", "own.csv", "--fit", "longest")
    done = leafweft(*fit)
    assert done.code == 4
    blamed = done.err.partition("the warp; got ")[2].partition(". ")[0]
    assert re.fullmatch(rf"{second} 0 g \(\d+ g needed\)", blamed)
    whole = [*short, f"{second},#808080,wool,NeC 8/2,500\n"]
    Path("own.csv").write_text(head + "".join(whole), encoding="utf-8")
    done = leafweft(*fit)
    assert done.code == 0, done.err
    long = re.search(r"The cloth is (\S+ cm) long instead of \S+ cm: .*", done.err)
    assert long[0].endswith(f"the shelf has no more of {first}.")
    assert done.out.startswith(f"{long[1]} finished (")


def test_check_says_what_runs_out(leafweft: Callable, plan_file: Path) -> None:
    first = colours_of(plan_file)[-1]
    done = leafweft(
        "check", plan_file, "--woven", "80cm", "--left", f"{first}=1g", "--out", "r.csv"
    )
    assert done.code == 0, done.err
    assert "no: out at" in done.out
    again = leafweft("plan", plan_file, "--stripes", "r.csv", "--json")
    assert again.code == 0, again.err


@pytest.fixture
def in_skeins(leafweft: Callable, plan_file: Path) -> tuple[Path, str]:
    """The plan with its yarn in skeins of 50 g, and its colour with most yarn."""
    assert leafweft("yarn", plan_file, "--skein", "50g", "--out", "skeins.json").code == 0
    wefts = [yarn for yarn in json.loads(Path("skeins.json").read_text())["yarn"] if yarn["picks"]]
    return Path("skeins.json"), max(wefts, key=lambda yarn: yarn["mass_g"])["colour"]


def test_check_begins_with_the_skeins_of_the_plan(
    leafweft: Callable, in_skeins: tuple[Path, str]
) -> None:
    plan, colour = in_skeins
    weighed = ("check", plan, "--woven", "100cm", "--left", f"{colour}=24g")
    assumed = leafweft(*weighed)
    said = leafweft(*weighed, "--had", f"{colour}=50g")
    assert assumed.out == said.out
    assert f"whole skeins of the plan: {colour} 50.0 g" in assumed.err
    fresh = leafweft("check", plan, "--woven", "100cm", "--left", f"{colour}=50g")
    assert fresh.code == 0, fresh.err
    assert "say how much there was at the start" in fresh.err


def test_check_marks_what_was_not_weighed_and_changes_nothing_for_it(
    leafweft: Callable, in_skeins: tuple[Path, str]
) -> None:
    plan, colour = in_skeins
    weighed = ("check", plan, "--woven", "100cm", "--left", f"{colour}=120g")
    done = leafweft(*weighed, "--had", f"{colour}=160g")
    assert done.code == 0, done.err
    rows = done.out.splitlines()[3:]
    assert done.out.count(", not weighed") + done.out.count(", not begun") == len(rows) - 1
    assert f"at the use of {colour}" in done.out
    assert "That is a guess and changes no stripe" in done.err
    assert "The rest, in balance" not in done.out
    found = json.loads(leafweft(*weighed, "--had", f"{colour}=160g", "--json").out)
    lent = [each for each in found["colours"] if each["guess"]]
    assert len(lent) == len(rows) - 1
    assert found["borrowed_from"] == [colour]


def test_check_reads_masses_with_units_only(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("check", plan_file, "--woven", "80cm", "--left", "nothing")
    assert done.code == 2
    assert "--left" in done.err


def test_dye_day_has_baths_and_cautions(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("dye", plan_file, "--fibre", "wool", "--pot", "10l", "--out", "dye.pdf")
    assert done.code == 0, done.err
    assert "data sheet" in done.out
    assert "acid" in done.out
    assert Path("dye.pdf").read_bytes().startswith(b"%PDF")
    assert json.loads(leafweft("dye", plan_file, "--fibre", "wool", "--json").out)["baths"]


def test_mixed_fibre_is_pointed_out(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("dye", plan_file, "--fibre", "60% wool 40% bamboo")
    assert done.code == 0, done.err
    assert "bamboo" in done.err


@pytest.mark.parametrize("words", [("--depth", "moss"), ("--pot", "20"), ("--margin", "10")])
def test_dye_refuses_what_has_no_unit(
    leafweft: Callable, plan_file: Path, words: tuple[str, str]
) -> None:
    done = leafweft("dye", plan_file, *words)
    assert done.code == 2
    assert words[0] in done.err


def test_blend_comes_to_the_batch(leafweft: Callable, shelf: Path) -> None:
    done = leafweft("blend", "#8a9a5b", "--from", shelf, "--batch", "200g", "--json")
    assert done.code == 0, done.err
    parts = json.loads(done.out)["best"]["parts"]
    assert sum(part["mass_g"] for part in parts) == 200
    assert "A guide" in done.err


def test_blend_needs_one_source(leafweft: Callable) -> None:
    done = leafweft("blend", "#8a9a5b")
    assert done.code == 2
    assert "one of --from (fleece) and --samples (dyes) must be given" in done.err


def test_cloth_shows_woven_colours_and_pictures(leafweft: Callable, small_plan: Path) -> None:
    done = leafweft("cloth", small_plan, "--wanted", "#8a9a5b", "--out", "pictures")
    assert done.code == 0, done.err
    assert "typical error" in done.out
    names = {path.name for path in Path("pictures").iterdir()}
    assert names == {"across-the-room.png", "close-up.png", "wefts-beside.png"}
    content = json.loads(leafweft("cloth", small_plan, "--wanted", "#8a9a5b", "--json").out)
    assert content["wanted"]["difference"] >= 0
    assert content["cloths"][0]["colours"][0]["typical_error"] > 0


def test_sheet_makes_every_kind(leafweft: Callable, small_plan: Path, bank: Path) -> None:
    from palette.sheets.any_sheet import SHEETS

    done = leafweft("sheet", small_plan, *SHEETS, "--photo", bank, "--out", "all")
    assert done.code == 0, done.err
    assert {path.name for path in Path("all").iterdir()} == set(SHEETS)


def test_sheet_help_lists_every_kind(leafweft: Callable) -> None:
    from palette.sheets.any_sheet import SHEETS

    text = " ".join(leafweft("sheet", "--help").out.replace("│", " ").split())
    assert all(name in text for name in SHEETS)


def test_a_sheet_that_is_not_there(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("sheet", plan_file, "poster.pdf", "--out", "all")
    assert done.code == 2
    assert not Path("all").exists()


@pytest.mark.parametrize(
    "command",
    [
        *("plan", "palette", "stripes", "choices", "read", "match", "warp", "yarn", "check"),
        *("dye", "blend", "cloth", "sheet"),
    ],
)
def test_help_has_an_example(leafweft: Callable, command: str) -> None:
    done = leafweft(command, "--help")
    assert done.code == 0
    assert f"Example: leafweft {command}" in " ".join(done.out.split())


def test_several_cloths_from_a_brief(leafweft: Callable, bank: Path) -> None:
    text = (
        f'name = "towels"\nphoto = "{bank}"\nlength = "60cm"\nhem = "3cm"\ngap = "5cm"\n'
        '[[cloth]]\norder = "mirrored"\n[[cloth]]\nname = "second"\ncolours = 3\n'
        '[[cloth]]\nlike = "towels 1"\n'
    )
    Path("towels.toml").write_text(text, encoding="utf-8")
    done = leafweft("plan", "--brief", "towels.toml", "--out", "towels", "--zip")
    assert done.code == 0, done.err
    plan = json.loads(Path("towels/plan.json").read_text(encoding="utf-8"))
    assert len(plan["more_cloths"]) == 2
    assert len(plan["warp"]["cloth_lengths_mm"]) == 3
    assert Path("towels.zip").is_file()
    again = leafweft("plan", "--brief", "towels/brief.toml", "--out", "again")
    assert again.code == 0, again.err
    assert Path("again/plan.json").read_bytes() == Path("towels/plan.json").read_bytes()


def test_stripes_like_those_of_another_plan(leafweft: Callable, plan_file: Path) -> None:
    old = json.loads(plan_file.read_text(encoding="utf-8"))
    words = ("stripes", plan_file, "--like", plan_file, "--length", "90cm", "--json")
    done = leafweft(*words)
    assert done.code == 0, done.err
    new = json.loads(done.out)
    assert [s["colour"] for s in new["stripes"]] == [s["colour"] for s in old["stripes"]]
    assert new["weft"]["total_picks"] * 2 == pytest.approx(old["weft"]["total_picks"], abs=4)


def test_a_drawdown_file_becomes_a_plan(leafweft: Callable, plan_file: Path) -> None:
    leafweft("sheet", plan_file, "drawdown.wif", "--out", "shared")
    done = leafweft("stripes", "shared/drawdown.wif", "--json")
    assert done.code == 0, done.err
    old = json.loads(plan_file.read_text(encoding="utf-8"))
    new = json.loads(done.out)
    assert [s["picks"] for s in new["stripes"]] == [s["picks"] for s in old["stripes"]]
    assert [s["hex"] for s in new["stripes"]] == [s["hex"] for s in old["stripes"]]
    assert new["weft"]["picks_per_cm"] == pytest.approx(old["weft"]["picks_per_cm"], rel=1e-3)


def test_a_drawdown_file_that_is_none(leafweft: Callable) -> None:
    Path("broken.wif").write_text("no sections here", encoding="utf-8")
    done = leafweft("stripes", "broken.wif", "--json")
    assert done.code == 3
    assert "broken.wif" in done.err


def test_a_reed_is_named_as_it_was_typed(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("warp", plan_file, "--reed", "10/in")
    assert "Reed: 10/in (3.94/cm), sleyed " in done.out
    assert "Reed: 4/cm, sleyed " in leafweft("warp", plan_file, "--reed", "4/cm").out


def test_a_sett_is_offered_from_wraps(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("warp", plan_file, "--wraps", "20/in")
    assert done.code == 0, done.err
    assert "Sett offered from wraps: 3.9/cm" in done.out
    assert "(Peirce's rule of 1937)" in done.out
