"""Sizes beyond every loom are refused at the option; the largest that are not can be drawn."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("--length 99999999999999999999cm", "--length: must be at most 50 m; got '9999"),
        ("--length 51m", "--length: must be at most 50 m; got '51m'. Look at its unit."),
        ("--width 11m", "--width: must be at most 10 m; got '11m'."),
        ("--fringe 51m", "--fringe: must be at most 50 m; got '51m'."),
        ("--picks 401/cm", "--picks: must be at most 400/cm; got '401/cm'."),
        ("--sett 99999/in", "--sett: must be at most 400/cm; got '99999/in'."),
    ],
)
@pytest.mark.parametrize("command", ["plan", "stripes"])
def test_sizes_beyond_every_loom(
    leafweft: Callable, plan_file: Path, words: str, said: str, command: str
) -> None:
    done = leafweft(command, plan_file, *words.split(), "--out", "new")
    assert (done.code, done.out) == (2, "")
    assert said in done.err
    assert not Path("new").exists()


def test_a_card_wider_than_any_card(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("sheet", plan_file, "winding.pdf", "--card-width", "100m")
    assert (done.code, done.out) == (2, "")
    assert "--card-width: must be more than 0, and at most 100 cm; got 10000 cm" in done.err


def test_the_largest_cloth_is_drawn_smaller(leafweft: Callable, plan_file: Path) -> None:
    from palette.plans.loading import load_plan
    from palette.sheets.cloth_pictures import _finest

    words = ("--length", "50m", "--width", "10m", "--out", "large.json")
    assert leafweft("stripes", plan_file, *words).code == 0
    large, small = load_plan(Path("large.json")), load_plan(plan_file)
    assert 0.5 < _finest(large, large.cloths) < 2
    assert _finest(small, small.cloths) > 12


def test_what_is_read_depends_on_no_number_of_threads(tmp_path: Path) -> None:
    photo = Path(__file__).parents[2] / "sample_images" / "striped-cloth.jpg"
    code = "from cli.main import run; run()"
    words = ("read", str(photo), "--width", "22.4cm", "--picks", "9/cm", "--json")
    said = {
        subprocess.run(
            [sys.executable, "-c", code, *words],
            capture_output=True,
            check=True,
            cwd=tmp_path,
            env={**os.environ, "OMP_NUM_THREADS": count, "OPENBLAS_NUM_THREADS": count},
        ).stdout
        for count in ("1", "2")
    }
    assert len(said) == 1
