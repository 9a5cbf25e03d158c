"""The example in the help of every command runs as it stands."""

import json
import re
import shlex
import shutil
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from cli.lazily import COMMANDS
from palette.perception.spaces import hex_to_lab

HELPS = {name: import_module(f"cli.commands.{name}").run.__doc__ or "" for name in COMMANDS}
SAMPLES = Path(__file__).parents[2] / "sample_images"


def example_of(command: str) -> list[str]:
    """Words of the example, without the name of the program."""
    _, mark, text = HELPS[command].partition("Example: ")
    assert mark, f"{command} shows no example"
    words = shlex.split(text.strip())
    assert words[:2] == ["leafweft", command]
    return words[1:]


@pytest.fixture
def desk(bank: Path, tmp_path: Path) -> Path:
    """The files that the examples name: a hedge, its palette, a plan, a shelf, an old shawl."""
    Image.open(bank).save(tmp_path / "hedge.jpg", quality=95)
    shutil.copy(SAMPLES / "shelf.csv", tmp_path / "shelf.csv")
    shutil.copy(SAMPLES / "shelf.csv", tmp_path / "fleece.csv")
    colours = [("moss", "#5d733a"), ("rust", "#a3522b")]
    content = {
        "kind": "leafweft/palette",
        "version": 1,
        "source": {"photos": ["hedge.jpg"], "region": None},
        "colours": [
            {
                "name": name,
                "hex": code,
                "lab": hex_to_lab(code),
                "share": 0.5,
                "accent": False,
                "in_srgb": True,
            }
            for name, code in colours
        ],
    }
    (tmp_path / "hedge-palette.json").write_text(json.dumps(content), encoding="utf-8")
    bands = np.repeat(np.array([[93, 115, 58], [163, 82, 43]] * 4, np.uint8), 60, axis=0)
    picture = np.repeat(bands[:, None], 320, axis=1)
    Image.fromarray(picture).save(tmp_path / "old-shawl.jpg", quality=95)
    return tmp_path


@pytest.mark.parametrize("command", sorted(HELPS))
def test_example_runs(leafweft: Callable, desk: Path, command: str) -> None:
    words = example_of(command)
    if command == "palette":
        Path("hedge-palette.json").unlink()  # what it is to make
    if "scarf" in words and command != "plan":
        size = ("--length", "60cm", "--width", "12cm") if command == "cloth" else ()
        made = leafweft("stripes", "hedge-palette.json", *size, "--out", "plan.json")
        assert made.code == 0, made.err
        (desk / "scarf").mkdir()
        (desk / "plan.json").rename(desk / "scarf" / "plan.json")
    done = leafweft(*words)
    assert done.code == 0, done.err
    assert done.out or done.err
    asked = re.search(r"--out (\S+)", shlex.join(words))
    if asked:
        assert (desk / asked[1]).exists()
