"""Figures as they are printed: one form of per cents, the units of the plan."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

COMMANDS = (
    ("yarn", "--fleece", "merino", "--allowance", "12%", "--draw-in", "7%"),
    ("warp", "--reed", "11/in", "--wraps", "12/cm"),
    ("dye", "--fibre", "60% wool 40% bamboo", "--acid", "vinegar"),
    ("cloth",),
    ("palette",),
)


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_printed_per_cents_have_a_blank(
    leafweft: Callable, plan_file: Path, words: tuple[str, ...]
) -> None:
    done = leafweft(words[0], plan_file, *words[1:])
    assert done.code == 0, done.err
    as_typed = {"60% wool 40% bamboo": ""}
    text = done.out + done.err
    for typed, nothing in as_typed.items():
        text = text.replace(typed, nothing)
    assert re.search(r"\d %", text) or words == ("palette",)
    assert re.findall(r".{0,30}\d%.{0,20}", text.replace("like 60% wool 40% bamboo", "")) == []


@pytest.mark.parametrize("command", ["plan", "yarn", "dye"])
def test_defaults_are_told_as_they_are_printed(leafweft: Callable, command: str) -> None:
    text = " ".join(leafweft(command, "--help").out.replace("│", " ").split())
    told = re.findall(r"(?:Default:|Without it:) [^.]*?\d ?%", text)
    assert told
    assert not [each for each in told if re.search(r"\d%", each)]


def test_defaults_that_were_taken_are_printed_so_too(leafweft: Callable, bank: Path) -> None:
    err = leafweft("plan", bank).err
    assert "shrinkage 10 %" in err
    assert not re.search(r"\d%", err)


def test_bobbins_to_fill(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("yarn", plan_file, "--bobbin", "2 oz", "--units", "imperial")
    table = done.out.partition("to spin")[2]
    assert re.search(r"warp +warp +2 +\d+ yd +\d+\.\d\d oz +2 × \d", table)
    assert "A bobbin takes 2 oz" in table
    assert "to spin" not in leafweft("yarn", plan_file).out


def test_a_shelf_that_allows_nothing_is_refused_in_the_units_of_the_plan(
    leafweft: Callable, plan_file: Path
) -> None:
    Path("shelf.csv").write_text(
        "name,colour,fibre,count,grams\nwarp,#ffffff,cotton,NeC 8/2,20\n", encoding="utf-8"
    )
    words = ("--shelf", "shelf.csv", "--fit", "nearest", "--units", "imperial")
    done = leafweft("yarn", plan_file, *words)
    assert done.code == 4
    assert " 0.00 oz" in done.err
    assert "warp 0.70 oz" in done.err
    assert not re.search(r"\d g\b", done.err)
