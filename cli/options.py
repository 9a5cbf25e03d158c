"""Options of the commands, made from the table that the briefs are made from."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Annotated, Any

import typer

from palette.plans.options import Group, Option, options_of

__all__ = ["Force", "Json", "Out", "PlanPath", "takes"]

PlanPath = Annotated[Path, typer.Argument(help="A plan file, or a plan's folder.", metavar="PLAN")]

Json = Annotated[bool, typer.Option("--json", help="Print the result as JSON, and nothing else.")]
Force = Annotated[bool, typer.Option("--force", help="Write over what is there.")]
Out = Annotated[Path | None, typer.Option("--out", help="Where to write.", show_default=False)]

_PANELS: dict[Group, str] = {
    "palette": "Palette",
    "stripes": "Stripes",
    "loom": "Loom and warp",
    "yarn": "Yarn",
    "page": "Output",
}


def takes(*groups: Group) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command the options of these groups.

    The command receives them as one dict ``asked``, by key, holding only what was typed.
    """
    options = options_of(*groups)

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        own = [
            parameter
            for parameter in inspect.signature(command, eval_str=True).parameters.values()
            if parameter.name != "asked"
        ]
        added = [_parameter(option) for option in options]

        @wraps(command)
        def typed(**values: Any) -> None:  # noqa: ANN401 - Typer passes what the signature says
            asked = {option.key: values.pop(_name(option)) for option in options}
            command(
                asked={key: value for key, value in asked.items() if value not in (None, [])},
                **values,
            )

        typed.__signature__ = inspect.Signature([*own, *added])  # type: ignore[attr-defined]
        typed.__annotations__ = {each.name: each.annotation for each in [*own, *added]}
        del typed.__wrapped__
        return typed

    return decorate


def _name(option: Option) -> str:
    return option.key.replace("-", "_")


def _parameter(option: Option) -> inspect.Parameter:
    kind: Any = {str: str, int: int, tuple: list[str]}[option.kind]
    info = typer.Option(
        f"--{option.key}",
        help=option.help,
        metavar=option.form,
        show_default=False,
        rich_help_panel=_PANELS[option.group],
    )
    annotation = Annotated[kind | None, info]
    return inspect.Parameter(
        _name(option), inspect.Parameter.KEYWORD_ONLY, default=None, annotation=annotation
    )
