"""The files that a command is given: what it writes takes the place of none that it only reads."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import wraps
from pathlib import Path
from typing import Any

__all__ = ["inputs_kept"]

_FILES_ASKED = ("mask",)  # options of the table that name a file


def inputs_kept(run: Callable[..., None]) -> Callable[..., None]:
    """Make a command leave alone what it is given, whatever it is told to write and how."""

    @wraps(run)
    def kept(**values: Any) -> None:  # noqa: ANN401 - Typer passes what the signature says
        files = tuple(_files(values))
        if not files:
            run(**values)
            return
        from palette.sheets.keeping import check_kept, keeping

        with keeping(files):
            if values.get("out") is not None:
                check_kept(values["out"])
            run(**values)

    return kept


def _files(values: Mapping[str, object]) -> Iterator[Path]:
    for name, value in values.items():
        if name != "out":
            each = value if isinstance(value, list | tuple) else (value,)
            yield from (path for path in each if isinstance(path, Path))
        if name in _FILES_ASKED and isinstance(value, str):
            yield Path(value)
