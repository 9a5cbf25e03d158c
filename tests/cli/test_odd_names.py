"""Files and colours with odd names: shown as they are where they can be, and never obeyed."""

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

ODD = ["a\nb\x1b[31m.png", "\u202eevil.png", os.fsdecode(b"bad\xff\xfeutf8.png"), "\x1b.png"]


@pytest.mark.parametrize("name", ODD)
@pytest.mark.parametrize("command", ["palette", "stripes", "choices", "plan"])
def test_a_photograph_with_an_odd_name(
    leafweft: Callable, bank: Path, command: str, name: str
) -> None:
    shutil.copy(bank, name)
    made = Path("made" if command in {"choices", "plan"} else "made.json")
    done = leafweft(command, f"./{name}", "--out", made)
    assert done.code == 0, done.err
    assert "\x1b" not in done.out + done.err
    assert "\u202e" not in done.out + done.err
    if command != "choices":
        made = made / "plan.json" if made.is_dir() else made
        assert leafweft("stripes", made, "--json").code == 0
        assert json.loads(made.read_text(encoding="utf-8"))["version"] == 1


@pytest.mark.parametrize("sign", [r"\u0000", r"\u001b[31m", r"\n", r"\u202e"])
def test_a_colour_with_a_name_that_cannot_be_shown(
    leafweft: Callable, bank: Path, sign: str
) -> None:
    assert leafweft("palette", bank, "--out", "p.json").code == 0
    text = Path("p.json").read_text(encoding="utf-8")
    name = json.loads(text)["colours"][0]["name"]
    Path("p.json").write_text(text.replace(f'"{name}"', f'"{name}{sign}"'), encoding="utf-8")
    done = leafweft("stripes", "p.json")
    assert (done.code, done.out) == (3, "")
    assert "p.json: swatch: name must hold no control characters; got " in done.err
    assert done.err.count("\n") == 1


def test_a_brief_with_a_name_that_cannot_be_shown(leafweft: Callable, plan_file: Path) -> None:
    Path("b.toml").write_text('name = "a\\u0000b"\n', encoding="utf-8")
    done = leafweft("plan", plan_file, "--brief", "b.toml", "--out", "new")
    assert (done.code, done.out) == (2, "")
    assert "b.toml, line 1, name: name must hold no control characters" in done.err
