"""The program ``leafweft``: the list of its commands, and the one place where errors end."""

from __future__ import annotations

import os
import sys

import typer

from cli.commands import (
    blend,
    check,
    choices,
    cloth,
    dye,
    match,
    palette,
    plan,
    read,
    sheet,
    stripes,
    warp,
    yarn,
)

__all__ = ["app", "run"]

app = typer.Typer(
    name="leafweft",
    help="From a photograph to a cloth that can be woven: palette, weft stripes, yarn.",
    epilog="Start with: leafweft plan PHOTO --out FOLDER. Exit codes: 0 done, 2 something typed, "
    "3 a file, 4 a plan that cannot be woven.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
for name, module in {
    "plan": plan,
    "palette": palette,
    "stripes": stripes,
    "choices": choices,
    "read": read,
    "match": match,
    "warp": warp,
    "yarn": yarn,
    "check": check,
    "dye": dye,
    "blend": blend,
    "cloth": cloth,
    "sheet": sheet,
}.items():
    app.command(name)(module.run)


def run() -> None:
    """Run the program; whatever the library refuses becomes one line and its exit code."""
    try:
        app()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise SystemExit(0) from None
    except MemoryError:
        sys.stderr.write("leafweft: there is not enough memory for this picture.\n")
        raise SystemExit(3) from None
    except Exception as error:
        from palette.errors import LeafweftError

        if not isinstance(error, LeafweftError):
            raise
        sys.stderr.write(f"leafweft: {error}\n")
        raise SystemExit(error.exit_code) from None
