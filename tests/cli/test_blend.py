"""Fleece to card and dyes to mix, on the command line."""

import json
import re
import shlex
from collections.abc import Callable
from pathlib import Path

import pytest

from palette.dyeing.blend import BLEND_ERROR_CIEDE2000, CAMERA_ERROR_CIEDE2000
from palette.perception.spaces import hex_to_lab
from palette.plans.palette_contract import palette_to_json
from palette.swatches.palette import Palette, Swatch

FLEECE = (
    "name,colour,kind\nmoss,#5d733a,fleece\nchalk,#f0eee4,fleece\nearth,#5c4632,fleece\n"
    "young leaf,#7a9e3e,fleece\n"
)
SAMPLES = (
    "name,colour,yellow %,blue %\nundyed,#efe6d2,0,0\ny1,#e6d27a,0.5,0\ny2,#dfc04e,1,0\n"
    "y3,#d1a92f,2,0\nb1,#a8bcc8,0,0.5\nb2,#7c9cb4,0,1\nb3,#54789c,0,2\n"
    "g1,#8ea36a,0.5,0.5\ng2,#5f8a4a,1,1\n"
)


@pytest.fixture(autouse=True)
def tables(leafweft: Callable) -> None:
    """Fleece, samples and a palette beside each other."""
    Path("fleece.csv").write_text(FLEECE, encoding="utf-8")
    Path("own.csv").write_text(SAMPLES, encoding="utf-8")
    leaf = Swatch(name="old leaf", lab=hex_to_lab("#8a9a5b"), hex="#8a9a5b", share=1.0)
    Path("hedge.json").write_text(palette_to_json(Palette(swatches=(leaf,))), encoding="utf-8")


def test_parts_are_what_the_scales_can_weigh(leafweft: Callable) -> None:
    words = ("--from", "fleece.csv", "--batch", "20.5g", "--step", "0.5g")
    parts = json.loads(leafweft("blend", "#8a9a5b", *words, "--json").out)["best"]["parts"]
    masses = [part["mass_g"] for part in parts]
    assert sum(masses) == 20.5
    assert all(mass % 0.5 == 0 for mass in masses)
    assert "Batch 20.5 g." in leafweft("blend", "#8a9a5b", *words).out


def test_ounces_go_up_to_whole_grams(leafweft: Callable) -> None:
    """Eight ounces are 226.8 g (international avoirdupois ounce, exact)."""
    done = leafweft("blend", "#8a9a5b", "--from", "fleece.csv", "--batch", "8 oz")
    assert done.code == 0, done.err
    assert "8 oz is 226.8 g; a batch of 227 g is reckoned." in done.err
    assert sum(map(int, re.findall(r" (\d+) g$", done.out, re.MULTILINE))) == 227


def test_without_a_batch_there_are_shares_only(leafweft: Callable) -> None:
    done = leafweft("blend", "#8a9a5b", "--from", "fleece.csv")
    assert done.out.splitlines()[0].split() == ["fleece", "share"]
    assert sum(map(float, re.findall(r"([\d.]+) %", done.out))) == pytest.approx(100, abs=0.2)
    assert "CIEDE2000 with one fleece" in done.out


def test_a_colour_of_a_palette_is_as_sure_as_its_photograph(leafweft: Callable) -> None:
    words = ("--from", "fleece.csv", "--json")
    typed = json.loads(leafweft("blend", "#8a9a5b", *words).out)
    named = json.loads(leafweft("blend", "old leaf", "--palette", "hedge.json", *words).out)
    assert named["best"]["parts"] == typed["best"]["parts"]
    assert typed["typical_error"] == BLEND_ERROR_CIEDE2000
    both = (BLEND_ERROR_CIEDE2000**2 + CAMERA_ERROR_CIEDE2000**2) ** 0.5
    assert named["typical_error"] == pytest.approx(both)


def test_a_recipe_shows_the_errors_of_her_samples(leafweft: Callable) -> None:
    words = ("blend", "old leaf", "--palette", "hedge.json", "--samples", "own.csv")
    done = leafweft(*words, "--batch", "200g")
    assert done.code == 0, done.err
    recipe = json.loads(leafweft(*words, "--batch", "200g", "--json").out)
    assert len(recipe["sample_errors"]) == 8
    for name, error in recipe["sample_errors"]:
        assert re.search(rf"^{name} +{error:.1f}$", done.out, re.MULTILINE)
    mean = sum(error for _, error in recipe["sample_errors"]) / 8
    assert f"Mean {mean:.1f}, worst" in done.out
    assert recipe["typical_error"] == pytest.approx((mean**2 + CAMERA_ERROR_CIEDE2000**2) ** 0.5)
    for part in recipe["best"]["parts"]:
        assert f"{part['dye_g']:.2f} g" in done.out
        assert part["stock_ml"] == pytest.approx(100 * part["dye_g"])
    assert "from a photograph, known to about CIEDE2000 4" in done.err


def test_the_undyed_yarn_may_be_nearest(leafweft: Callable) -> None:
    done = leafweft("blend", "#efe6d2", "--samples", "own.csv")
    assert done.out.startswith("No dye: nothing in these dyes comes nearer than the undyed yarn.")


def test_talk_is_on_stderr(leafweft: Callable) -> None:
    for words in (("--from", "fleece.csv"), ("--samples", "own.csv")):
        done = leafweft("blend", "#8a9a5b", *words, "--json")
        assert json.loads(done.out)["best"]
        assert "A guide: such predictions are typically off" in done.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("#zzz", "--from", "fleece.csv"), "COLOUR: must be a colour; got '#zzz'"),
        (
            ("leaf", "--palette", "hedge.json", "--from", "fleece.csv"),
            "COLOUR: must be one of hedge.json; got 'leaf'. It has: old leaf.",
        ),
        (
            ("#8a9a5b", "--from", "fleece.csv", "--samples", "own.csv"),
            "blend: one of --from (fleece) and --samples (dyes) must be given; got both",
        ),
        (("#8a9a5b", "--from", "fleece.csv", "--batch", "200"), "--batch: must carry a unit"),
        (
            ("#8a9a5b", "--from", "fleece.csv", "--batch", "20.5g"),
            "--batch: must be a multiple of 1 g, which the scales can weigh; got 20.5 g",
        ),
        (
            ("#8a9a5b", "--from", "fleece.csv", "--step", "1g"),
            "--step: must go with --from and --batch",
        ),
        (
            ("#8a9a5b", "--samples", "own.csv", "--batch", "50g", "--step", "1g"),
            "--step: must go with --from and --batch",
        ),
        (
            ("#8a9a5b", "--from", "fleece.csv", "--batch", "9g", "--step", "0g"),
            "--step: must be more than 0",
        ),
        (
            ("#8a9a5b", "--from", "fleece.csv", "--parts", "5"),
            "--parts: must be a whole number from 1 to 4; got '5'",
        ),
    ],
)
def test_one_sentence_for_what_cannot_be_used(
    leafweft: Callable, words: tuple[str, ...], said: str
) -> None:
    done = leafweft("blend", *words)
    assert done.code == 2
    assert said in done.err
    assert len(done.err.splitlines()) == 1
    assert done.out == ""


def test_too_little_fleece_is_refused(leafweft: Callable) -> None:
    Path("small.csv").write_text(
        "name,colour,kind,grams\nmoss,#5d733a,fleece,20\nchalk,#f0eee4,fleece,20\n",
        encoding="utf-8",
    )
    done = leafweft("blend", "#8a9a5b", "--from", "small.csv", "--batch", "200g")
    assert done.code == 2
    assert "--from, shelf: must hold 200 g of fleece that comes to one blend" in done.err


def test_a_bad_row_names_row_and_column(leafweft: Callable) -> None:
    Path("own.csv").write_text(SAMPLES + "g3,#446633,two,1\n", encoding="utf-8")
    done = leafweft("blend", "#8a9a5b", "--samples", "own.csv")
    assert done.code == 3
    assert "own.csv, row 11" in done.err
    assert "yellow" in done.err


def test_the_example_runs(leafweft: Callable) -> None:
    text = " ".join(leafweft("blend", "--help").out.split())
    example = text.partition("Example: leafweft ")[2].partition("╭")[0]
    done = leafweft(*shlex.split(example))
    assert done.code == 0, done.err
    assert "Batch 200 g." in done.out
