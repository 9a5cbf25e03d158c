"""A word that means nothing is refused or said to be unused; it never falls back in silence."""

from collections.abc import Callable
from pathlib import Path

import pytest

from palette.plans.options import OPTIONS

WORDS = [key for key, option in OPTIONS.items() if option.kind is not int and key != "name"]
OWN_FORM = {"most": "zork=3", "warp-stripes": "zork=3"}
BESIDE = {
    "hem-colour": ("--hem", "3cm"),
    "border-colour": ("--border", "3cm"),
    "soft-way": ("--soft", "2cm"),
}


@pytest.mark.parametrize("key", WORDS)
def test_a_word_without_meaning_is_answered(leafweft: Callable, plan_file: Path, key: str) -> None:
    """Beside a palette file: what only a photograph uses is named as unused."""
    typed = (f"--{key}", OWN_FORM.get(key, "zork"))
    done = leafweft("stripes", plan_file, *typed, *BESIDE.get(key, ()), "--json")
    if done.code == 0:
        assert f"Note: Not used: {key} (" in done.err
    else:
        assert (done.code, done.out) == (2, "")
        assert done.err.startswith(f"leafweft: --{key}: ")
        assert "; got '" in done.err


@pytest.mark.parametrize("key", BESIDE)
def test_a_colour_of_nothing_is_named_as_unused(
    leafweft: Callable, plan_file: Path, key: str
) -> None:
    done = leafweft("stripes", plan_file, f"--{key}", {"soft-way": "between"}.get(key, "zork"))
    assert f"Note: Not used: {key} (there is no " in done.err


@pytest.mark.parametrize("command", ["stripes", "plan", "yarn", "warp", "choices"])
def test_an_unknown_fibre_is_refused_with_those_that_are_known(
    leafweft: Callable, plan_file: Path, command: str
) -> None:
    done = leafweft(command, plan_file, "--fibre", "wol")
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith("leafweft: --fibre: must be a fibre that is known; got 'wol'.")
    assert "Did you mean wool? Known are: protein, wool, " in done.err


@pytest.mark.parametrize(
    ("fibre", "said"),
    [
        ("merino wool", "as wool in this weave"),
        ("60% wool 40% silk", "as wool and silk in this weave"),
        ("linen", "as linen in this weave"),
    ],
)
def test_the_sett_is_offered_for_the_fibre_typed(
    leafweft: Callable, plan_file: Path, fibre: str, said: str
) -> None:
    assert said in leafweft("warp", plan_file, "--fibre", fibre).out


@pytest.mark.parametrize(
    ("words", "idle"),
    [
        ("stripes.csv --paper Letter", "--paper (only for sheet.pdf)"),
        ("palette.css --card-width 8cm", "--card-width (only for winding.pdf, winding.png, "),
        ("loom-card.pdf --photo {}", "--photo (only for sheet.pdf, sheet.html, swatches.pdf"),
    ],
)
def test_what_no_sheet_uses_is_named(
    leafweft: Callable, small_plan: Path, bank: Path, words: str, idle: str
) -> None:
    done = leafweft("sheet", small_plan, *words.format(bank).split())
    assert (done.code, done.out) == (0, "")
    assert f"Note: Not used: {idle}" in done.err


@pytest.mark.parametrize("sheet", ["stripes.csv", "sheet.pdf"])
def test_a_paper_that_is_none_is_refused_whatever_is_made(
    leafweft: Callable, small_plan: Path, sheet: str
) -> None:
    done = leafweft("sheet", small_plan, sheet, "--paper", "zork")
    assert (done.code, done.out) == (2, "")
    assert done.err == "leafweft: --paper: must be one of A4, Letter; got 'zork'.\n"
    assert not list(Path().iterdir())
