"""The brief as a TOML file that a person keeps, edits and runs again."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import BriefError, FileError
from palette.plans.options import OPTIONS

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["brief_toml", "read_brief"]


def read_brief(path: Path) -> tuple[dict[str, object], Callable[[str], str]]:
    """Values of a brief file, and a way to name the line that each key stands in.

    Raises
    ------
    FileError
        The file is missing or cannot be read.
    BriefError
        The file is not TOML; the message names the line.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        rule = "must be a readable text file"
        raise FileError(f"brief {path}", rule, got=_reason(error)) from None
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        remedy = 'Each line reads like: length = "180cm".'
        raise BriefError(f"brief {path}", "must be TOML", got=str(error), remedy=remedy) from None
    return values, lambda key: f"{path.name}, line {_line_of(key, text)}, {key}"


def _reason(error: Exception) -> str:
    return error.strerror or "an error" if isinstance(error, OSError) else "bytes that are no text"


def _line_of(key: str, text: str) -> int:
    pattern = re.compile(rf"\s*(\[+\s*)?[\"']?{re.escape(key)}[\"']?\s*[=\]]")
    lines = text.splitlines()
    return next((number for number, line in enumerate(lines, 1) if pattern.match(line)), 1)


def brief_toml(brief: Brief) -> str:
    """Write a brief so that a person can keep, edit and run it again.

    Every value in use is written, with what it means and where its default comes from.
    """
    lines = [
        "# Everything that this plan was made from. Edit a value and run:",
        "#   leafweft plan --brief brief.toml --out FOLDER",
        "",
    ]
    for key, value in brief.values:
        option = OPTIONS.get(key)
        if option is not None:
            lines.append(f"# {option.says}{f' ({option.label})' if option.label else ''}")
        lines.append(f"{key} = {_toml(value)}")
    for cloth in brief.cloth:
        lines += ["", "[[cloth]]", *(f"{key} = {_toml(value)}" for key, value in cloth.items())]
    return "\n".join(lines) + "\n"


def _toml(value: object) -> str:
    if isinstance(value, tuple | list):
        return f"[{', '.join(_toml(item) for item in value)}]"
    if isinstance(value, int):
        return str(value)
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
