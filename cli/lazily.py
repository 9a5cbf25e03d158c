"""The group of commands: each is read from its file when it is asked for, not before."""

from __future__ import annotations

from importlib import import_module
from typing import Any

import typer.core
import typer.main

from cli.inputs import inputs_kept

__all__ = ["COMMANDS", "Commands"]

COMMANDS = (
    "plan",
    "palette",
    "stripes",
    "choices",
    "read",
    "match",
    "warp",
    "yarn",
    "check",
    "dye",
    "blend",
    "cloth",
    "sheet",
)
"""In the order of the work; each is the function ``run`` of its file in ``cli/commands``."""


class Commands(typer.core.TyperGroup):
    """A group that makes a command with its options only where that command was typed."""

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401 - Typer's own
        """List the commands in the order of the work."""
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ANN401 - Typer's own
        """Give a command, made when it is first asked for; None where there is none."""
        if cmd_name in COMMANDS and cmd_name not in self.commands:
            self.commands[cmd_name] = _made(cmd_name)
        return self.commands.get(cmd_name)

    def format_help(self, ctx: Any, formatter: Any) -> None:  # noqa: ANN401 - Typer's own
        """Write the help; one line for each command needs none of its options."""
        made = self.commands
        self.commands = {name: made.get(name) or _line(name) for name in COMMANDS}
        try:
            super().format_help(ctx, formatter)
        finally:
            self.commands = made


def _run(name: str) -> Any:  # noqa: ANN401 - the signature differs from command to command
    return import_module(f"cli.commands.{name}").run


def _made(name: str) -> Any:  # noqa: ANN401 - Typer's own
    alone = typer.Typer(add_completion=False)
    alone.command(name)(inputs_kept(_run(name)))
    return typer.main.get_command(alone)


def _line(name: str) -> Any:  # noqa: ANN401 - Typer's own
    import inspect

    return typer.core.TyperCommand(name=name, help=inspect.getdoc(_run(name)))
