"""What is typed wrongly is refused in one sentence with exit code 2, like everything else."""

from collections.abc import Callable
from importlib import metadata
from pathlib import Path

import pytest
import typer

from cli.lazily import COMMANDS


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("plann x", "command: must be one that leafweft has; got 'plann'. Did you mean leafweft"),
        ("zzz", "command: must be one that leafweft has; got 'zzz'. There are plan, palette"),
        ("--verzion", "--verzion: must be an option of leafweft. Did you mean --version?"),
        ("plan x --lenght 3m", "--lenght: must be an option of leafweft plan. Did you mean --l"),
        ("plan x --zork", "--zork: must be an option of leafweft plan. See leafweft plan --help"),
        ("plan x --length", "--length: must be followed by a value; got none."),
        ("plan x --step two", "--step: must be a whole number; got 'two'."),
        ("plan x --step=2.5", "--step: must be a whole number; got '2.5'."),
        ("palette x --jobs 0", "--jobs: must be at least 1; got '0'."),
        ("choices x --pick x", "--pick: must be a whole number; got 'x'."),
        ("yarn x --fit zork", "--fit: must be one of 'nearest', 'longest'; got 'zork'."),
        ("plan x --force=3", "--force: must stand alone; got a value. Leave the value out."),
        ("yarn x more", "leafweft yarn: must get no more words; got 'more'. Put quotes"),
        ("check x", "--woven: must be given; got none. Write it like: leafweft check scarf"),
        ("check x --woven 3cm", "--left: must be given; got none. Write it like: leafweft check"),
        ("yarn x --fit longest", "--fit: needs the yarn in hand; got no --shelf. Add --shelf"),
    ],
)
def test_one_sentence(leafweft: Callable, words: str, said: str) -> None:
    done = leafweft(*words.split())
    assert done.code == 2
    assert done.err.startswith(f"leafweft: {said}")
    assert done.err.count("\n") == 1
    assert done.out == ""


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_alone_says_what_it_needs(leafweft: Callable, command: str) -> None:
    done = leafweft(command)
    assert done.code == 2
    assert "must be given; got none." in done.err
    assert f"leafweft {command}" in done.err
    assert done.err.count("\n") == 1


def test_the_program_alone_shows_its_help(leafweft: Callable) -> None:
    done = leafweft()
    assert done.code == 0
    assert all(command in done.out for command in COMMANDS)


def test_the_version_is_that_of_the_package(leafweft: Callable) -> None:
    done = leafweft("--version")
    assert (done.code, done.out) == (0, f"{metadata.version('leafweft')}\n")


def test_an_option_is_named_as_it_was_typed(leafweft: Callable, plan_file: Path) -> None:
    typed = leafweft("stripes", plan_file, "--order", "zigzag", "--json")
    assert typed.err.startswith("leafweft: --order: must be one of photo, ")
    joined = leafweft("stripes", plan_file, "--weave=zork", "--json")
    assert joined.err.startswith("leafweft: --weave: must be one of plain weave, ")


def test_being_stopped_is_said(leafweft: Callable, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object, **__: object) -> None:
        raise typer.Abort

    monkeypatch.setattr("cli.application.Commands.invoke", stop)
    done = leafweft("plan", "x")
    assert (done.code, done.err) == (130, "leafweft: stopped before it was done.\n")
