"""The faces, which matplotlib carries with it, and how wide a text runs in them."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from palette.sheets.style import Face, Type

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties

__all__ = ["MM_PER_POINT", "clean", "fitted", "properties", "width_mm", "wrapped"]

MM_PER_POINT = 25.4 / 72
_FILES: dict[Face, str] = {
    "roman": "STIXGeneral.ttf",
    "italic": "STIXGeneralItalic.ttf",
    "sans": "DejaVuSans.ttf",
    "bold": "DejaVuSans-Bold.ttf",
}
_UNSEEN = re.compile(r"[\s\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]+")
_MISSING = "□"
_SCALE = 1000


@lru_cache(maxsize=8)
def _path(face: Face) -> Path:
    """Path by name: looking a face up among the system's would depend on the machine."""
    import matplotlib as mpl

    return Path(mpl.get_data_path(), "fonts", "ttf", _FILES[face])


@lru_cache(maxsize=8)
def _font(face: Face) -> Any:  # noqa: ANN401
    from matplotlib.ft2font import FT2Font

    font = FT2Font(str(_path(face)))
    font.set_size(_SCALE, 72)
    return font


@lru_cache(maxsize=4096)
def _advance(face: Face, character: str) -> float:
    """Width of one character as a part of the type size; negative where the face lacks it."""
    from matplotlib.ft2font import LoadFlags

    font = _font(face)
    if not font.get_char_index(ord(character)):
        return -1.0
    glyph = font.load_char(ord(character), flags=LoadFlags.NO_SCALE | LoadFlags.NO_HINTING)
    return float(glyph.horiAdvance / font.units_per_EM)


@lru_cache(maxsize=64)
def _properties(face: Face, points: float) -> FontProperties:
    from matplotlib.font_manager import FontProperties

    return FontProperties(fname=_path(face), size=points)


def _whole_face(text: str, face: Face) -> Face:
    """Face that has every character of a text: the asked one, or its wider-ranging cousin."""
    if face in {"roman", "italic"} and any(_advance(face, c) < 0 for c in text):
        return "sans"
    return face


def properties(text: str, style: Type) -> FontProperties:
    """Face and size for a text, as matplotlib takes them."""
    return _properties(_whole_face(text, style.face), style.points)


def clean(text: str) -> str:
    """Text that every face can set: no control characters, a box for an unknown letter."""
    plain = unicodedata.normalize("NFC", _UNSEEN.sub(" ", text)).strip()
    return "".join(c if _advance("sans", c) >= 0 else _MISSING for c in plain)


@lru_cache(maxsize=4096)
def width_mm(text: str, style: Type) -> float:
    """Width of a line of text in millimetres, kerning left aside."""
    face = _whole_face(text, style.face)
    em = sum(max(_advance(face, c), 0.0) for c in text)
    return em * style.points * MM_PER_POINT


def fitted(text: str, style: Type, room_mm: float) -> str:
    """Text, cut short with an ellipsis where it is wider than its room."""
    if width_mm(text, style) <= room_mm:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width_mm(text[:middle].rstrip() + "…", style) <= room_mm:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def wrapped(text: str, style: Type, room_mm: float, *, most: int = 99) -> list[str]:
    """Lines of a text that fit their room; beyond `most` lines the last one is cut short."""
    lines: list[str] = []
    line = ""
    for word in clean(text).split():
        trial = f"{line} {word}" if line else word
        if line and width_mm(trial, style) > room_mm:
            lines.append(line)
            line = word
        else:
            line = trial
    if line:
        lines.append(line)
    if len(lines) > most:
        lines[most - 1] = f"{' '.join(lines[most - 1 :])}"
    return [fitted(line, style, room_mm) for line in lines[:most]]
