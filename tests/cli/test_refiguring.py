"""A plan that is reckoned anew is written and printed once nothing can be refused any more."""

from collections.abc import Callable
from pathlib import Path

import pytest


@pytest.mark.parametrize("way", ["--out new.json", "--json"])
@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ("yarn PLAN --shelf bad.csv", 3, "bad.csv"),
        ("yarn PLAN --shelf none.csv", 3, "none.csv"),
        ("yarn PLAN --shelf bad.csv --fit nearest", 3, "bad.csv"),
        ("yarn PLAN --price 24", 2, "--price"),
        ("yarn PLAN --fleece zork", 2, "--fleece"),
        ("yarn PLAN --fit longest", 2, "--fit"),
        ("warp PLAN --wraps zork", 2, "wraps"),
        ("warp PLAN --wraps 20", 2, "wraps"),
    ],
)
def test_a_refusal_leaves_nothing_behind(
    leafweft: Callable, plan_file: Path, words: str, code: int, said: str, way: str
) -> None:
    Path("bad.csv").write_text("name,colour\nx,y\n", encoding="utf-8")
    asked = f"{words} {way}".replace("PLAN", str(plan_file))
    done = leafweft(*asked.split())
    assert (done.code, done.out) == (code, "")
    assert said in done.err
    assert done.err.count("\n") == 1
    assert not Path("new.json").exists()


@pytest.mark.parametrize("command", ["yarn", "warp"])
def test_the_plan_is_written_and_printed(leafweft: Callable, plan_file: Path, command: str) -> None:
    done = leafweft(command, plan_file, "--sett", "9/cm", "--out", "new.json", "--json")
    assert done.code == 0
    assert done.err.startswith("Wrote new.json.\n")
    assert Path("new.json").read_text(encoding="utf-8").rstrip("\n") == done.out.rstrip("\n")
