"""From what was typed, and a brief file if there is one, to a checked brief."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["brief_from"]

_WHOLE = re.compile(r"-?[0-9]{1,9}")


def brief_from(
    asked: Mapping[str, object], *, file: Path | None = None, kept: Mapping[str, object] = {}
) -> Brief:
    """Make the brief; what was typed wins over the file, the file over what a plan kept."""
    from palette.plans.brief import Brief
    from palette.plans.brief_file import read_brief

    values, line = read_brief(file) if file else ({}, str)
    typed = {key: _typed(key, value) for key, value in asked.items()}

    def where(key: str) -> str:
        if key in typed:
            return f"--{key}"
        return line(key) if key in values else key

    return Brief.of({**kept, **values, **typed}, where)


def _typed(key: str, value: object) -> object:
    """Turn the number of colours into a number; the brief says what else it may be."""
    if key == "colours" and isinstance(value, str) and _WHOLE.fullmatch(value):
        return int(value)
    return tuple(value) if isinstance(value, list) else value
