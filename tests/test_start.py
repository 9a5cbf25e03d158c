"""Starting the program must not pay for libraries that the chosen command does not use."""

import subprocess
import sys
from pathlib import Path

import pytest

import cli
from cli.lazily import COMMANDS

HEAVY = {
    "PIL",
    "colour",
    "jinja2",
    "matplotlib",
    "numpy",
    "pi_heif",
    "pydantic",
    "scipy",
    "sklearn",
}


def loaded_by(statement: str) -> set[str]:
    """Top-level modules in a fresh interpreter after one statement."""
    code = f"import sys; {statement}; print(*{{name.split('.')[0] for name in sys.modules}})"
    command = [sys.executable, "-c", code]
    return set(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())


@pytest.mark.parametrize(
    "statement", ["import cli.main", "import palette", "import palette.errors"]
)
def test_import_stays_light(statement: str) -> None:
    assert not loaded_by(statement) & HEAVY


def test_a_palette_of_so_many_colours_does_not_pay_for_choosing_how_many() -> None:
    statement = (
        "import numpy as np; from palette import Photo, extract; "
        "extract(Photo(name='x', pixels=np.eye(3, dtype=np.uint8)[:, :, None].repeat(3, 2)), 2)"
    )
    assert not loaded_by(statement) & {"sklearn"}


def test_help_stays_light() -> None:
    statement = (
        "import io, contextlib, cli.main\n"
        "sys.argv = ['leafweft', '--help']\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):\n"
        "    cli.main.run()\n"
    )
    code = f"import sys\n{statement}print(*{{name.split('.')[0] for name in sys.modules}})"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not set(done.stdout.split()) & HEAVY


def commands_read_by(*words: str) -> set[str]:
    """Commands whose files were read when this was typed."""
    code = (
        "import sys, io, contextlib, cli.main\n"
        f"sys.argv = ['leafweft', *{words!r}]\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.suppress(SystemExit):\n"
        "    cli.main.run()\n"
        "print(*(name.removeprefix('cli.commands.') for name in sys.modules"
        " if name.startswith('cli.commands.')))"
    )
    command = [sys.executable, "-c", code]
    return set(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())


def test_only_the_command_that_was_typed_is_read() -> None:
    assert commands_read_by("yarn", "--help") == {"yarn"}
    assert commands_read_by("--version") == set()


def test_every_command_has_a_file_and_every_file_is_a_command() -> None:
    files = {path.stem for path in (Path(cli.__file__).parent / "commands").glob("*.py")}
    assert files - {"__init__"} == set(COMMANDS)
    assert len(COMMANDS) == len(set(COMMANDS))


def test_the_check_can_fail() -> None:
    assert "numpy" in loaded_by("import numpy")
