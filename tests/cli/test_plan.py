"""The main job from the command line."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from sklearn.datasets import load_sample_images

FILES = {
    "brief.toml",
    "cloth.png",
    "plan.json",
    "sheet.html",
    "sheet.pdf",
    "stripes.csv",
    "yarn.csv",
}
INTEGRATED = (
    *("--length", "180cm", "--width", "25cm", "--sett", "20/in", "--picks", "20/in"),
    *("--shrinkage", "10%", "--draw-in", "6%", "--take-up", "8%", "--weft-take-up", "0%"),
    *("--fringe", "15cm", "--loom-waste", "75cm", "--tail", "0cm", "--allowance", "0%"),
    *("--weft", "NeC 8/2", "--warp", "NeC 8/2", "--least", "0"),
)


def contents(folder: str | Path) -> dict[str, bytes]:
    """Files of a folder by name."""
    return {path.name: path.read_bytes() for path in Path(folder).iterdir()}


def test_a_photograph_and_a_folder_are_enough(made_scarf: tuple) -> None:
    folder, done = made_scarf
    assert set(contents(folder)) == FILES
    assert "a scarf: length 180cm, width 25cm" in done.err
    assert "common practice" in done.err
    assert "Weave a sample" in done.err


def test_the_same_inputs_give_the_same_bytes(
    leafweft: Callable, bank: Path, made_scarf: tuple
) -> None:
    leafweft("plan", bank, "--out", "two")
    one, two = contents(made_scarf[0]), contents("two")
    brief = one.pop("brief.toml"), two.pop("brief.toml")
    assert one == two
    without_path = [re.sub(rb"photo = .*", b"", text) for text in brief]
    assert without_path[0] == without_path[1]


def test_the_brief_makes_the_same_plan_again(leafweft: Callable, bank: Path) -> None:
    leafweft(
        "plan", bank, "--length", "72 in", "--order", "mirrored", "--seed", "5", "--out", "one"
    )
    done = leafweft("plan", "--brief", "one/brief.toml", "--out", "two")
    assert done.code == 0, done.err
    assert contents("one") == contents("two")


def test_what_is_typed_wins_over_the_brief(leafweft: Callable, bank: Path) -> None:
    Path("b.toml").write_text('length = "1 m"\ncolours = 3\n', encoding="utf-8")
    done = leafweft("plan", bank, "--brief", "b.toml", "--length", "2 m", "--json")
    plan = json.loads(done.out)
    assert plan["weft"]["finished_length_mm"] == 2000
    assert plan["brief"]["colours"] == 3


@pytest.mark.parametrize(("step", "picks"), [("1", 1575), ("2", 1574)])
def test_the_integrated_case(leafweft: Callable, bank: Path, step: str, picks: int) -> None:
    done = leafweft("plan", bank, *INTEGRATED, "--step", step, "--json")
    plan = json.loads(done.out)
    warp = next(yarn for yarn in plan["yarn"] if yarn["use"] == "warp")
    assert plan["weft"]["total_picks"] == picks
    assert sum(stripe["picks"] for stripe in plan["stripes"]) == picks
    assert plan["warp"]["ends"] == 234
    assert round(plan["warp"]["woven_width_mm"], 2) == 277.78
    assert round(plan["warp"]["width_in_reed_mm"], 2) == 295.51
    assert round(warp["length_m"], 1) == pytest.approx(754.4, abs=0.5)


def test_the_integrated_case_to_the_last_digit(leafweft: Callable, bank: Path) -> None:
    plan = json.loads(leafweft("plan", bank, *INTEGRATED, "--step", "1", "--json").out)
    weft = [yarn for yarn in plan["yarn"] if yarn["use"] == "weft"]
    assert round(sum(yarn["length_m"] for yarn in weft), 2) == 465.43
    assert round(sum(yarn["mass_g"] for yarn in weft), 2) == 68.71


def test_json_prints_nothing_else_and_writes_nothing(leafweft: Callable, bank: Path) -> None:
    done = leafweft("plan", bank, "--json")
    assert json.loads(done.out)["kind"] == "leafweft/plan"
    assert list(Path().iterdir()) == []


def test_imperial_in_imperial_out(leafweft: Callable, bank: Path) -> None:
    done = leafweft("plan", bank, "--length", "72 in", "--picks", "20/in", "--out", "scarf")
    assert "72.0 in finished" in done.out
    assert " yd" in done.out
    assert " cm" not in done.out


def test_colour_only_where_it_is_welcome(
    leafweft: Callable, bank: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "\x1b" not in leafweft("palette", bank, "--out", "a.json").out
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b[48;2;" in leafweft("palette", bank, "--out", "b.json").out
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b" not in leafweft("palette", bank, "--out", "c.json").out


def test_printed_per_cents_sum_to_100(leafweft: Callable, bank: Path) -> None:
    done = leafweft("palette", bank, "--colours", "7", "--out", "a.json")
    figures = [
        float(line.split(" %")[0].split()[-1]) for line in done.out.splitlines() if " %" in line
    ]
    assert len(figures) >= 5
    assert round(sum(figures), 6) == 100


@pytest.mark.parametrize("number", [0, 1], ids=["china.jpg", "flower.jpg"])
def test_real_photographs(leafweft: Callable, number: int, tmp_path: Path) -> None:
    path = Path(load_sample_images().filenames[number])
    done = leafweft("plan", path, "--out", "scarf")
    assert done.code == 0, done.err
    plan = json.loads(Path("scarf/plan.json").read_text(encoding="utf-8"))
    assert sum(stripe["picks"] for stripe in plan["stripes"]) == plan["weft"]["total_picks"]
    assert abs(sum(colour["share"] for colour in plan["palette"]["colours"]) - 1) < 1e-6
    with Image.open("scarf/cloth.png") as picture:
        assert picture.height > picture.width


def test_a_step_at_a_time_is_the_same_as_all_at_once(leafweft: Callable, bank: Path) -> None:
    whole = json.loads(leafweft("plan", bank, "--json").out)
    leafweft("palette", bank, "--out", "p.json")
    steps = json.loads(leafweft("stripes", "p.json", "--json").out)
    assert steps["stripes"] == whole["stripes"]
    assert steps["yarn"] == whole["yarn"]


def test_yarn_follows_a_new_count(leafweft: Callable, plan_file: Path) -> None:
    old = json.loads(leafweft("yarn", plan_file, "--json").out)["yarn"]
    new = json.loads(leafweft("yarn", plan_file, "--weft", "NeC 4/2", "--json").out)["yarn"]
    for before, after in zip(old, new, strict=True):
        ratio = 2.0 if before["use"] == "weft" else 1.0
        assert after["mass_g"] == pytest.approx(before["mass_g"] * ratio)
        assert after["length_m"] == pytest.approx(before["length_m"])


def test_warp_follows_a_new_width(leafweft: Callable, plan_file: Path) -> None:
    narrow = json.loads(leafweft("warp", plan_file, "--json").out)
    wide = json.loads(leafweft("warp", plan_file, "--width", "50cm", "--json").out)
    assert wide["warp"]["width_in_reed_mm"] == pytest.approx(2 * narrow["warp"]["width_in_reed_mm"])
    assert wide["stripes"] == narrow["stripes"]


def test_stripes_with_their_hex_are_enough(leafweft: Callable) -> None:
    rows = "colour,picks,hex\nmoss,200,#5d733a\nrust,60,#a84f28\nmoss,200,\n"
    Path("semi.csv").write_text(rows, encoding="utf-8")
    done = leafweft("plan", "--stripes", "semi.csv", "--out", "semi")
    assert done.code == 0, done.err
    plan = json.loads(Path("semi/plan.json").read_text(encoding="utf-8"))
    assert plan["name"] == "semi"
    assert [s["picks"] for s in plan["stripes"]] == [200, 60, 200]
    assert [c["name"] for c in plan["palette"]["colours"]] == ["moss", "rust"]
    assert "shares" not in done.err
    again = leafweft("plan", "--brief", "semi/brief.toml", "--out", "again")
    assert again.code == 0, again.err
    assert Path("again/plan.json").read_bytes() == Path("semi/plan.json").read_bytes()


def test_a_colour_renamed_in_the_table_is_renamed_everywhere(
    leafweft: Callable, made_scarf: tuple
) -> None:
    folder, _ = made_scarf
    old = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    name = old["stripes"][0]["colour"]
    table = (folder / "stripes.csv").read_text(encoding="utf-8-sig")
    Path("ren.csv").write_text(table.replace(f",{name},", ",holly,"), encoding="utf-8")
    done = leafweft("plan", "--brief", folder / "brief.toml", "--stripes", "ren.csv", "--json")
    assert done.code == 0, done.err
    new = json.loads(done.out)
    renamed = [{"name": c["name"], "hex": c["hex"]} for c in new["palette"]["colours"]]
    assert renamed == [
        {"name": c["name"].replace(name, "holly"), "hex": c["hex"]}
        for c in old["palette"]["colours"]
    ]
    assert f"Renamed, the hex being the same: {name} is now holly." in done.err
    assert "0 picks" not in done.err


def test_sett_and_picks_follow_the_yarn_and_are_said(leafweft: Callable, bank: Path) -> None:
    """Ashenhurst's rule at 80 %: 12 to the centimetre for cotton of Nm 2/28."""
    done = leafweft("plan", bank, "--colours", "3", "--weft", "Nm 2/28", "--warp", "Nm 2/28")
    assert "picks at 12/cm" in done.out
    assert "80 % of the closest for this yarn and weave: sett 12/cm" in done.err
    assert "as the sett: picks 12/cm" in done.err
    assert " are open" not in done.err


def test_a_net_is_told_and_what_has_no_room_is_refused(leafweft: Callable, bank: Path) -> None:
    palette = ("plan", bank, "--colours", "3", "--length", "20cm")
    done = leafweft(*palette, "--sett", "3/cm", "--picks", "3/cm")
    assert done.code == 0
    assert "Note: Sett 3/cm and picks 3/cm are open: a balanced cloth of NeC 8/2" in done.err
    done = leafweft(*palette, "--sett", "150/cm", "--picks", "150/cm")
    assert done.code == 4
    assert "The nearest that can be woven: sett 16.4/cm, picks 16.4/cm." in done.err


def test_hem_treadles_and_an_uneven_threading_are_told(leafweft: Callable, plan_file: Path) -> None:
    leafweft("stripes", plan_file, "--hem", "3cm", "--weave", "2/2 twill", "--out", "t.json")
    done = leafweft("warp", "t.json", "--width", "39.9cm", "--sett", "8/cm")
    assert "does not come out even in 378 ends: 376 or 380 would." in done.err
    assert "Treadling: 1 2 3 4, repeat; hems on 5 and 6." in done.out
    assert "5 lifts 1+3, 0 times" not in done.out
    assert "Selvedge: 1 floating end more each side" in done.out
