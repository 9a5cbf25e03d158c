"""What a photograph, a mask, a place or a shelf can be that ``palette`` and ``match`` refuse.

One sentence on stderr, nothing on stdout, nothing written.
"""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from palette.perception.spaces import hex_to_lab
from palette.plans.palette_contract import palette_to_json
from palette.swatches.palette import Palette, Swatch

LEAF = (93, 115, 58)


@pytest.fixture
def kitchen(leafweft: Callable) -> Callable:
    """Run a command among files that are there, and check that it refuses and writes nothing."""
    leaf = np.full((40, 60, 3), LEAF, np.uint8)
    leaf[:10, :10] = 0
    leaf[30:, 50:] = 255
    Image.fromarray(leaf).save("Blätter 🌿.png")
    Image.fromarray(leaf).save("leaf.png")
    Image.new("RGB", (20, 20), LEAF).save("plain.png")
    Image.new("L", (60, 40), 90).save("grey.png")
    Image.new("L", (30, 20), 255).save("small-mask.png")
    Image.new("L", (60, 40), 0).save("black-mask.png")
    Image.new("RGB", (1, 1), LEAF).save("dot.png")
    Path("no-mask.png").write_text("no picture", encoding="utf-8")
    Path("bare").mkdir()
    moss = Swatch(name="moss", lab=hex_to_lab("#5d733a"), hex="#5d733a", share=1.0)
    text = palette_to_json(Palette(swatches=(moss,)))
    Path("p.json").write_text(text, encoding="utf-8")

    def refuse(*words: str, code: int, said: str) -> None:
        before = sorted(map(str, Path().rglob("*")))
        done = leafweft(*words)
        assert done.code == code, done.err
        assert done.out == ""
        assert done.err.startswith(f"leafweft: {said}"), done.err
        assert len(done.err.splitlines()) == 1
        assert sorted(map(str, Path().rglob("*"))) == before

    return refuse


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (
            ["--mask", "small-mask.png"],
            2,
            "--mask: must be as large as the picture, 60 x 40; got 30",
        ),
        (["--mask", "black-mask.png"], 2, "--mask: must leave something; got a mask (black-mask"),
        (["--mask", "no-mask.png"], 3, "no-mask.png: must be a picture; got text."),
        (["--mask", "none.png"], 3, "none.png: must be a file; got nothing by that name."),
        (["--region", "50,50,120,80"], 2, "--region: must be 4 per cents of the picture, each"),
        (["--region", "60,10,20,80"], 2, "--region: must lie inside the picture, left before"),
        (["--region", "here"], 2, "--region: must be 4 per cents of the picture, each from 0"),
        (["--region", "nan,0,50,50"], 2, "--region: must be 4 per cents of the picture, each"),
        (["--neutral", "2,2"], 2, "--neutral: must be a grey or white place with light on it"),
        (["--neutral", "99,99"], 2, "--neutral: must be a place that is not blown out; got 99,99"),
        (["--neutral", "200,2"], 2, "--neutral: must be 2 per cents of the picture, each from 0"),
        (["--light", "Q"], 2, "--light: must be a CIE illuminant or a colour temperature; got"),
        (["--light", "900 K"], 2, "--light: must be from 1667 to 25000 K; got '900 K'."),
        (["--light", "A", "--neutral", "50,50"], 2, "--light: must stand without --neutral; got"),
        (["--leave-out", "zork"], 2, "--leave-out: must be a colour; got 'zork'."),
        (["--keep", "zork"], 2, "--keep: must be a colour; got 'zork'."),
        (["--merge", "zork+leaf"], 2, "--merge: must name colours of the palette; got 'zork'."),
        (["--colours", "65"], 2, "--colours: must be a whole number from 1 to 64, or auto; got"),
        (["--out", "bare"], 3, "bare: must be"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else None,
)
def test_a_wish_that_a_photograph_cannot_meet(kitchen: Callable, words, code, said) -> None:
    kitchen("palette", "leaf.png", *words, code=code, said=said)
    kitchen("palette", "Blätter 🌿.png", *words, code=code, said=said)


def test_a_photograph_that_cannot_meet_the_wish(kitchen: Callable) -> None:
    said = "--leave-out: must leave something of every picture; got colours that are all of plain"
    kitchen("palette", "plain.png", "--leave-out", "#5d733a", code=2, said=said)
    said = "--region: must hold at least one pixel; got 0,0,10,10."
    kitchen("palette", "dot.png", "--region", "0,0,10,10", code=2, said=said)
    said = "--neutral: must be used on a colour picture; got a grey one."
    kitchen("palette", "grey.png", "--neutral", "50,50", code=2, said=said)
    said = "bare: must hold a photograph; got a folder without one."
    kitchen("palette", "bare", code=2, said=said)
    kitchen("palette", "bare", "--jobs", "2", code=2, said=said)


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("moss,#5d73,wool,NeK 2/20,50,yarn", "column colour: must be a hex code, three CIELAB"),
        ("moss,,wool,NeK 2/20,50,yarn", "column colour: must not be empty."),
        ("moss,200 0 0,wool,,50,yarn", "column colour: CIELAB must have L from 0 to 100, a and b"),
        ("moss,skein.jpg,wool,,50,yarn", "column colour: photo must be beside the table; got no"),
        ("moss,../skein.jpg,wool,,50,yarn", "column colour: photo must be in the folder of the"),
        ("moss,no-mask.png,wool,,50,yarn", "column colour: photo must be one that can be read;"),
        ("moss,#5d733a,wool,NeK 2/20,many,yarn", "column grams: "),
        ("moss,#5d733a,wool,NeK 2/20,-5,yarn", "column grams: "),
        ("moss,#5d733a,wool,8/2,50,yarn", "column count: must name its system; got '8/2'."),
        ("moss,#5d733a,wool,NeK 2/20,50,plank", "column kind: must be yarn, fleece, undyed yarn"),
        (",#5d733a,wool,NeK 2/20,50,yarn", "column name: must not be empty."),
        ("chalk,#5d733a,wool,NeK 2/20,50,yarn", "column name: names must differ; got 'chalk', alr"),
    ],
)
def test_a_bad_row_of_a_shelf_is_named_by_row_and_column(kitchen: Callable, row, said) -> None:
    head = "name,colour,fibre,count,grams,kind\nchalk,#ecebe4,wool,,400,yarn\n"
    Path("shelf.csv").write_text(f"{head}{row}\nink,#101010,wool,,1,yarn\n", encoding="utf-8")
    kitchen("match", "p.json", "shelf.csv", code=3, said=f"shelf.csv, row 3, {said}")


def test_a_shelf_that_is_no_table(kitchen: Callable) -> None:
    said = "none.csv: must be a table (CSV); got nothing by that name. Check the name and the"
    kitchen("match", "p.json", "none.csv", code=3, said=said)
    kitchen("match", "p.json", "bare", code=3, said="bare: must be a table (CSV); got a folder.")
    kitchen("match", "p.json", "leaf.png", code=3, said="leaf.png: must be a CSV table; got a bin")
