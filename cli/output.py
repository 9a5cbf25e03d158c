"""What the program prints: results on stdout, talk on stderr, colour only where it is welcome."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable, Sequence
from dataclasses import asdict

__all__ = ["CIELAB", "ERROR", "as_json", "block", "result", "table", "talk", "warn"]

CIELAB = (
    "CIELAB is a colour as the eye ranks it: lightness 0 to 100, then green (-) to red (+), "
    "then blue (-) to yellow (+)."
)
ERROR = "Errors are differences as seen (CIEDE2000): under 1 hardly shows, 5 is plain to see."


def result(text: str) -> None:
    """Print a result on stdout, and end its last line once."""
    print(text.removesuffix("\n"))


def talk(text: str) -> None:
    """Say something on stderr."""
    print(text, file=sys.stderr)


def warn(warnings: Iterable[str]) -> None:
    """Say on stderr what was changed or should be looked at, each once."""
    for warning in dict.fromkeys(warnings):
        talk(f"Note: {warning.rstrip('.')}.")


def _in_colour() -> bool:
    return "NO_COLOR" not in os.environ and (
        sys.stdout.isatty() or bool(os.environ.get("FORCE_COLOR"))
    )


def block(hex_code: str, *, width: int = 4) -> str:
    """Build a block of one colour for a terminal, empty where colour is not wanted."""
    if not _in_colour():
        return ""
    red, green, blue = (int(hex_code[i : i + 2], 16) for i in (1, 3, 5))
    return f"\x1b[48;2;{red};{green};{blue}m{' ' * width}\x1b[0m "


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], *, hexes: Sequence[str] = ()) -> str:
    """Set rows in columns: numbers to the right, words to the left, a colour block before each."""
    columns = list(zip(heads, *rows, strict=True))
    widths = [max(map(len, column)) for column in columns]
    right = [all(_is_figure(cell) for cell in column[1:]) for column in columns]
    blank = " " * 5 if hexes and block(hexes[0]) else ""
    lines = [blank + _line(heads, widths, right)]
    for number, row in enumerate(rows):
        lines.append((block(hexes[number]) if hexes else "") + _line(row, widths, right))
    return "\n".join(lines)


def _is_figure(cell: str) -> bool:
    return not cell or cell[0].isdigit() or cell[0] in "+-−"


def _line(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> str:
    padded = (
        cell.rjust(width) if to_right else cell.ljust(width)
        for cell, width, to_right in zip(cells, widths, right, strict=True)
    )
    return "  ".join(padded).rstrip()


def as_json(value: object) -> str:
    """Give a value of the library as JSON, its fields by their names."""
    return json.dumps(asdict(value), indent=2, ensure_ascii=False)  # type: ignore[call-overload]
