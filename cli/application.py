"""The application: its commands, its help, and one run of it."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import Annotated

import typer
import typer.main

from cli.lazily import Commands
from cli.output import result

__all__ = ["app", "exit_code_of"]

app = typer.Typer(
    name="leafweft",
    cls=Commands,
    help="From a photograph to a cloth that can be woven: palette, weft stripes, yarn.",
    epilog="Start with: leafweft plan PHOTO --out FOLDER. Exit codes: 0 done, 2 something typed, "
    "3 a file, 4 a plan that cannot be woven, 130 stopped with Ctrl-C.",
    invoke_without_command=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


@app.callback()
def _start(
    context: typer.Context,
    *,
    version: Annotated[
        bool, typer.Option("--version", help="Show which version this is, and exit.")
    ] = False,
) -> None:
    if version:
        from importlib import metadata

        result(metadata.version("leafweft"))
        raise typer.Exit
    if context.invoked_subcommand is None:
        result(context.get_help())


def exit_code_of(words: Sequence[str]) -> int:
    """Run what was typed, and give the exit code that it asks for.

    Interrupts, broken pipes and refusals come out as they are: Typer's own way of running would
    turn some of them into codes without a word.
    """
    command = typer.main.get_command(app)
    try:
        with command.make_context("leafweft", _spread(words)) as context:
            command.invoke(context)
    except typer.Exit as ended:
        return ended.exit_code
    except (typer.Abort, EOFError):
        raise KeyboardInterrupt from None
    return 0


def _spread(words: Sequence[str]) -> list[str]:
    """Replace ``*.jpg`` by the files it stands for where no shell has done so."""
    if os.name != "nt":
        return list(words)
    import glob

    return [each for word in words for each in (sorted(glob.glob(word)) or [word])]
