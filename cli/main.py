"""The program ``leafweft``: how it starts, and the one place where errors end."""

from __future__ import annotations

import os
import sys
from typing import Annotated, NoReturn

import typer

from cli.lazily import Commands
from cli.output import result
from cli.usage import UsageError, refusal
from palette.errors import LeafweftError

__all__ = ["app", "run"]

_OPTIONS = {"inner order": "inner"}  # what the library calls otherwise

app = typer.Typer(
    name="leafweft",
    cls=Commands,
    help="From a photograph to a cloth that can be woven: palette, weft stripes, yarn.",
    epilog="Start with: leafweft plan PHOTO --out FOLDER. Exit codes: 0 done, 2 something typed, "
    "3 a file, 4 a plan that cannot be woven.",
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


def run() -> None:
    """Run the program; whatever is refused becomes one line and its exit code."""
    try:
        code = app(prog_name="leafweft", standalone_mode=False)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise SystemExit(0) from None
    except (typer.Abort, KeyboardInterrupt):
        _refuse("stopped before it was done.", 130)
    except UsageError as error:
        _refuse(str(refusal(error)), 2)
    except MemoryError:
        _refuse("there is not enough memory for this picture.", 3)
    except LeafweftError as error:
        _refuse(_as_typed(error), error.exit_code)
    if code:
        raise SystemExit(code)


def _refuse(sentence: str, code: int) -> NoReturn:
    sys.stderr.write(f"leafweft: {sentence}\n")
    raise SystemExit(code) from None


def _as_typed(error: LeafweftError) -> str:
    """Name an option with its dashes where it was typed with them."""
    option = f"--{_OPTIONS.get(error.thing, error.thing)}"
    typed = any(word == option or word.startswith(f"{option}=") for word in sys.argv)
    return option + str(error).removeprefix(error.thing) if typed else str(error)
