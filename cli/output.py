"""What the program prints: results on stdout, talk on stderr, colour only where it is welcome."""

from __future__ import annotations

import contextlib
import json
import os
import re
import sys
from collections.abc import Iterable, Sequence
from dataclasses import asdict

__all__ = ["CIELAB", "ERROR", "as_json", "block", "result", "table", "talk", "warn"]

CIELAB = (
    "CIELAB is a colour as the eye ranks it: lightness 0 to 100, then green (-) to red (+), "
    "then blue (-) to yellow (+)."
)
ERROR = "Errors are differences as seen (CIEDE2000): under 1 hardly shows, 5 is plain to see."


_UNSEEN = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
"""Characters that a terminal obeys instead of showing; line ends are left."""
_SHOWN = re.compile(r"\x1b\[(?:48;2;\d+;\d+;\d+|0)m")
"""What `block` writes."""


def result(text: str) -> None:
    """Print a result on stdout, and end its last line once."""
    print(_seen(text.removesuffix("\n")))


def talk(text: str) -> None:
    """Say something on stderr; where it is closed or full that stops nothing."""
    with contextlib.suppress(OSError):
        print(_seen(text), file=sys.stderr)


def _seen(text: str) -> str:
    """Text with the characters that a terminal would obey written out, colour blocks left."""
    if _UNSEEN.search(text) is None:
        return text
    parts, start = [], 0
    for colour in [*_SHOWN.finditer(text), None]:
        end = len(text) if colour is None else colour.start()
        parts.append(_UNSEEN.sub(_written_out, text[start:end]))
        if colour is not None:
            parts.append(colour.group())
            start = colour.end()
    return "".join(parts)


def _written_out(character: re.Match[str]) -> str:
    return f"\\u{ord(character.group()):04x}"  # as JSON writes it, so that JSON stays JSON


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
