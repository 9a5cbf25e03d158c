"""The brief as a TOML file that a person keeps, edits and runs again."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import BriefError, LeafweftError
from palette.plain_text import whole_characters
from palette.plans.nesting import MOST_NESTED, too_deep
from palette.plans.options import OPTIONS
from palette.text_files import read_text

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["PATH_KEYS", "brief_toml", "paths_of", "read_brief", "with_paths"]

_MOST_BYTES = 1_000_000  # a brief with every value has some 8 kB
PATH_KEYS = ("photo", "palette", "stripes", "mask")
"""Keys that hold a path, or several."""


def with_paths(values: Mapping[str, object], change: Callable[[str], str]) -> dict[str, object]:
    """Change every path of a brief, those of its cloths too; values that are no paths stay.

    Examples
    --------
    >>> with_paths({"photo": ("a.jpg",), "length": "1m"}, lambda path: f"photos/{path}")
    {'photo': ('photos/a.jpg',), 'length': '1m'}
    """

    def changed(value: object) -> object:
        if isinstance(value, tuple | list):
            return tuple(map(changed, value))
        return change(value) if isinstance(value, str) else value

    result = {key: changed(value) if key in PATH_KEYS else value for key, value in values.items()}
    cloths = values.get("cloth")
    if isinstance(cloths, list | tuple):
        result["cloth"] = tuple(
            with_paths(cloth, change) if isinstance(cloth, dict) else cloth for cloth in cloths
        )
    return result


def paths_of(brief: Brief) -> tuple[str, ...]:
    """Give every path that a brief names, those of its cloths too."""
    found: list[str] = []

    def noted(path: str) -> str:
        found.append(path)
        return path

    with_paths({**dict(brief.values), "cloth": brief.cloth}, noted)
    return tuple(found)


def read_brief(path: Path) -> tuple[dict[str, object], Callable[[str], str]]:
    """Read the values of a brief file, and a way to name the line that each key stands in.

    Paths in a brief start from its own folder; the values returned start from where we are.

    Raises
    ------
    FileError
        The file is missing or cannot be read.
    BriefError
        The file is not TOML; the message names the line.
    """
    rule = "must be a text file that can be read"
    text = read_text(path, most_bytes=_MOST_BYTES, thing=f"brief {path}", rule=rule, form=rule)
    values = with_paths(_values(text, f"brief {path}"), lambda text: str(path.parent / text))
    return values, lambda key: f"{path.name}, line {_line_of(key, text)}, {key}"


def _values(text: str, thing: str) -> dict[str, object]:
    remedy = 'Each line reads like: length = "180cm".'
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BriefError(thing, "must be TOML", got=str(error), remedy=remedy) from None
    except ValueError:  # more digits than Python reads
        raise BriefError(thing, "must be TOML", got="a number too long", remedy=remedy) from None
    except RecursionError:
        pass
    else:
        if not too_deep(values):
            return values
    rule = f"must nest its lists at most {MOST_NESTED} deep"
    raise BriefError(thing, rule, got="deeper ones", remedy=remedy)


def _line_of(key: str, text: str) -> int:
    pattern = re.compile(rf"\s*(\[+\s*)?[\"']?{re.escape(key)}[\"']?\s*[=\]]")
    lines = text.splitlines()
    return next((number for number, line in enumerate(lines, 1) if pattern.match(line)), 1)


def brief_toml(brief: Brief) -> str:
    """Write a brief so that a person can keep, edit and run it again.

    Every value in use is written, with what it means, and with where it comes from where it is
    the one that is taken when nothing is said.
    """
    untouched = _untouched(brief)
    lines = [
        "# Everything that this plan was made from. Edit a value and run:",
        "#   leafweft plan --brief brief.toml --out FOLDER",
        "",
    ]
    for key, value in brief.values:
        option = OPTIONS.get(key)
        if option is not None:
            lines.append(f"# {option.says}{f' ({option.label})' if key in untouched else ''}")
        lines.append(f"{key} = {_toml(value)}")
    values = dict(brief.values)
    lines += [
        f"# {option.key} (not set): {option.help}"
        for option in OPTIONS.values()
        if option.unset and option.key not in values
    ]
    for cloth in brief.cloth:
        lines += ["", "[[cloth]]", *(f"{key} = {_toml(value)}" for key, value in cloth.items())]
    return whole_characters("\n".join(lines) + "\n")


def _untouched(brief: Brief) -> set[str]:
    """Keys with a labelled default whose value is what it would be if it were left out."""
    values = dict(brief.values)
    found = set()
    for key, option in OPTIONS.items():
        if option.label and key in values:
            rest = {name: value for name, value in values.items() if name != key}
            try:
                usual = dict(type(brief).of(rest).values)
            except LeafweftError:  # the rest asks for it
                continue
            if usual.get(key) == values[key]:
                found.add(key)
    return found


def _toml(value: object) -> str:
    if isinstance(value, tuple | list):
        return f"[{', '.join(_toml(item) for item in value)}]"
    if isinstance(value, int):
        return str(value)
    return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
