"""The palette in yarns from the shelf, on the command line."""

import json
import math
import re
import shlex
import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from palette.cloth.mixing_law import mix_lab
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab
from palette.plans.palette_contract import palette_to_json
from palette.swatches.palette import Palette, Swatch


def swatch(name: str, code: str, share: float) -> Swatch:
    return Swatch(name=name, lab=hex_to_lab(code), hex=code, share=share)


@pytest.fixture
def hedge(leafweft: Callable) -> Path:
    """A palette file: two greens that one yarn is near to, and a grey that none is."""
    swatches = (
        swatch("leaf", "#5d733a", 0.5),
        swatch("fern", "#627a3c", 0.3),
        swatch("fog", "#b9b5ab", 0.2),
    )
    path = Path("hedge-palette.json")
    path.write_text(palette_to_json(Palette(swatches=swatches)), encoding="utf-8")
    return path


@pytest.fixture
def shelf(leafweft: Callable) -> Path:
    """One green, a dark, a light, an undyed fleece that is left over."""
    text = (
        "name,colour,fibre,count,grams,kind\nloden,#60773b,wool,NeK 2/20,120,yarn\n"
        "ink,#303030,wool,NeK 2/20,80,yarn\nchalk,#f0eee4,wool,NeK 2/20,,yarn\n"
        "spent,#5d733a,wool,,0,yarn\nfawn,#c9a37a,wool,,300,undyed fleece\n"
    )
    Path("shelf.csv").write_text(text, encoding="utf-8")
    return Path("shelf.csv")


def test_mixes_are_those_of_threads_side_by_side(
    leafweft: Callable, hedge: Path, shelf: Path
) -> None:
    """A mix has the colour that Stearns and Noechel's law gives it, not the average of light."""
    pairs = json.loads(leafweft("match", hedge, shelf, "--json").out)["pairings"]
    labs = {pair["colour"]: pair["colour_lab"] for pair in pairs}
    codes = {"loden": "#60773b", "ink": "#303030", "chalk": "#f0eee4"}
    mixes = [(pair["colour"], mix) for pair in pairs for mix in pair["mixes"]]
    assert mixes
    for colour, mix in mixes:
        first, second = (hex_to_lab(codes[name]) for name in mix["yarns"])
        law = mix_lab(first, second, mix["shares"][0])
        np.testing.assert_allclose(mix["lab"], law, atol=1e-9)
        assert mix["difference"] == pytest.approx(float(ciede2000(law, labs[colour])))
        assert mix["contrast"] == pytest.approx(float(ciede2000(np.array(first), np.array(second))))


def test_the_table_says_who_took_the_nearest(leafweft: Callable, hedge: Path, shelf: Path) -> None:
    done = leafweft("match", hedge, shelf)
    assert done.code == 0, done.err
    pairs, mixes, unused = done.out.split("\n\n")
    taken = [line for line in pairs.splitlines() if "taken by" in line]
    assert len(taken) == 1
    assert "loden" in taken[0]
    assert "120 g" in pairs
    assert "nearest on the shelf" in pairs
    assert mixes.splitlines()[1].split() == ["colour", "parts", "CIEDE2000", "contrast"]
    assert "a guide, so try a sample" in mixes
    assert unused.startswith("Not used: ")
    assert "fog  nothing near" in squeezed(pairs, keep=2)


def squeezed(text: str, *, keep: int) -> str:
    """Text with gaps of so many spaces."""
    return re.sub(" {2,}", " " * keep, text)


def test_fleece_stands_apart_and_is_named_as_fleece(
    leafweft: Callable, hedge: Path, shelf: Path
) -> None:
    lines = leafweft("match", hedge, shelf).out.replace("\u00a0", " ").splitlines()
    assert lines[-2:] == ["Not used: ink 80 g, chalk.", "Fleece, to be spun: fawn 300 g."]
    shelf.write_text(shelf.read_text().replace("fawn,#c9a37a", "fawn,#b9b5ab"))
    assert "fawn (fleece)" in leafweft("match", hedge, shelf).out
    shelf.write_text(shelf.read_text().replace("fawn,", "fawn fleece,"))
    assert "fleece (fleece)" not in leafweft("match", hedge, shelf).out


def test_a_plan_has_its_grams_beside_what_is_in_hand(
    leafweft: Callable, plan_file: Path, shelf: Path
) -> None:
    plan = json.loads(plan_file.read_text(encoding="utf-8"))
    weft = next(yarn for yarn in plan["yarn"] if yarn["use"] == "weft")
    shelf.write_text(f"name,colour,grams\nlittle,{weft['hex']},1\n")
    done = leafweft("match", plan_file, shelf)
    assert done.out.splitlines()[0].split()[:5] == ["colour", "yarn", "needed", "in", "hand"]
    grams = f"{math.ceil(round(weft['mass_g'], 6))} g"
    line = next(line for line in done.out.splitlines() if line.startswith(weft["colour"]))
    assert squeezed(line, keep=2).startswith(f"{weft['colour']}  little  {grams}  1 g  0.3  yes")
    assert f"little: {grams} is needed for {weft['colour']}, 1 g is in hand." in done.err
    pairs = json.loads(leafweft("match", plan_file, shelf, "--json").out)["pairings"]
    assert {pair["colour"]: pair["needed_g"] for pair in pairs}[weft["colour"]] == weft["mass_g"]


def test_nothing_near_at_all(leafweft: Callable, hedge: Path) -> None:
    Path("pink.csv").write_text("name,colour\npink,#ff66cc\n", encoding="utf-8")
    done = leafweft("match", hedge, "pink.csv")
    assert done.code == 0
    assert "None of the 3 colours has a yarn; near: up to 5." in done.out
    assert json.loads(leafweft("match", hedge, "pink.csv", "--json").out)["mean_difference"] is None


def test_other_fibres_are_seen(leafweft: Callable, hedge: Path, shelf: Path) -> None:
    alike = leafweft("match", hedge, shelf).out
    assert "fibre, count" not in alike.replace("fawn", "")
    text = shelf.read_text().replace("chalk,#f0eee4,wool,NeK", "chalk,#f0eee4,linen,NeL")
    shelf.write_text(text)
    _, mixes, _ = leafweft("match", hedge, shelf).out.split("\n\n")
    mixed = [line for line in mixes.splitlines() if "chalk" in line]
    assert mixed
    assert all("chalk (linen) x" in line for line in mixed)
    shelf.write_text(text.replace("#f0eee4", "#b9b5ab"))
    pairs = leafweft("match", hedge, shelf).out.partition("\n\n")[0]
    assert "fibre, count" in pairs
    assert "wool NeK 2/20" in pairs
    assert "linen NeL 2/20" in pairs


def test_a_large_shelf_is_read_in_lines(leafweft: Callable, hedge: Path) -> None:
    rows = "".join(f"yarn of many words {i},#{i:02x}4060,wool,,{i + 100},yarn\n" for i in range(90))
    Path("large.csv").write_text(f"name,colour,fibre,count,grams,kind\n{rows}", encoding="utf-8")
    unused = leafweft("match", hedge, "large.csv").out.split("\n\n")[-1]
    assert unused.startswith("Not used: ")
    assert max(map(len, unused.splitlines())) <= 100
    assert unused.replace("\u00a0", " ").count(" g") >= 87


def test_warnings_are_said_once(leafweft: Callable, hedge: Path, shelf: Path) -> None:
    shelf.write_bytes(shelf.read_bytes().replace(b"ink", b"encre fonc\xe9e"))
    said = leafweft("match", hedge, shelf).err.splitlines()
    assert len(said) == len(set(said))
    assert len([line for line in said if "accents were read as Western European" in line]) == 1
    assert len([line for line in said if "0 g in hand: spent" in line]) == 1


def test_one_yarn_for_several_colours(leafweft: Callable, hedge: Path, shelf: Path) -> None:
    done = leafweft("match", hedge, shelf, "--reuse")
    assert "taken by" not in done.out
    assert len([line for line in done.out.splitlines() if "loden" in line and "yes" in line]) == 2


def test_fewer_yarns_than_colours(leafweft: Callable, hedge: Path) -> None:
    Path("one.csv").write_text("name,colour\nloden,#60773b\n", encoding="utf-8")
    done = leafweft("match", hedge, "one.csv")
    assert done.code == 0
    assert done.out.count("none left") == 1
    assert done.out.count("nothing near") == 1
    assert "over 1 of 3 colours" in done.out
    assert "in hand" not in done.out
    assert "Not used" not in done.out
    assert "left without a yarn: fog" in done.err
    assert "Without it there is no yarn for this colour." in done.err


@pytest.mark.parametrize("near", ["0", "-1", "nan", "inf", "close"])
def test_nearness_is_a_difference(leafweft: Callable, hedge: Path, shelf: Path, near: str) -> None:
    done = leafweft("match", hedge, shelf, f"--near={near}")
    assert done.code == 2
    assert f"--near: must be a CIEDE2000 difference, more than 0; got '{near}'" in done.err
    assert len(done.err.splitlines()) == 1


def test_files_that_cannot_be_used(leafweft: Callable, hedge: Path, shelf: Path) -> None:
    for words in (("missing.json", shelf), (hedge, "missing.csv"), (shelf, shelf)):
        done = leafweft("match", *words)
        assert done.code == 3
        assert done.out == ""
        assert len(done.err.splitlines()) == 1


def test_the_example_runs(leafweft: Callable, hedge: Path, shelf: Path, plan_file: Path) -> None:
    text = " ".join(leafweft("match", "--help").out.split())
    example = text.partition("Example: leafweft ")[2].partition("╭")[0]
    assert leafweft(*shlex.split(example)).code == 0
    shutil.copy(plan_file, hedge)
    assert leafweft(*shlex.split(example)).code == 0
