"""Commands that only reckon do not pay for the libraries of pictures and colours."""

import subprocess
import sys
from pathlib import Path

import pytest

SLOW = {"PIL", "colour", "matplotlib", "scipy", "sklearn"}


def libraries_of(*words: str) -> set[str]:
    """Top-level modules that the program has loaded when it ends."""
    code = (
        "import sys, io, contextlib, cli.main\n"
        f"sys.argv = ['leafweft', *{words!r}]\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        "    cli.main.run()\n"
        "print(*{name.split('.')[0] for name in sys.modules})"
    )
    command = [sys.executable, "-c", code]
    return set(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())


@pytest.mark.parametrize("words", ["yarn {}", "warp {}", "dye {} --fibre wool"])
def test_reckoning_loads_no_library_of_colour(plan_file: Path, words: str) -> None:
    assert not libraries_of(*words.format(plan_file).split()) & SLOW


def test_the_check_can_fail(bank: Path) -> None:
    assert "PIL" in libraries_of("palette", str(bank), "--json")
