"""Reading weaving information files, generously in form and strictly in content."""

from __future__ import annotations

import configparser
import re
from collections.abc import Mapping
from pathlib import Path

from palette.errors import ContractError
from palette.sheets.wif import WeavingFile, significant
from palette.sheets.wif_writing import NAMES_SECTION
from palette.text_files import read_file

__all__ = ["parse_wif", "read_wif"]

_MOST_BYTES = 32_000_000
_MOST_THREADS = 1_000_000
_CM = {"centimeters": 1.0, "inches": 2.54, "decipoints": 2.54 / 720}
_YES, _NO = {"true", "on", "yes", "1"}, {"false", "off", "no", "0"}
_READ = {
    "WIF",
    "CONTENTS",
    "TEXT",
    "WEAVING",
    "WARP",
    "WEFT",
    "COLOR PALETTE",
    "COLOR TABLE",
    "THREADING",
    "TIEUP",
    "TREADLING",
    "LIFTPLAN",
    "WARP COLORS",
    "WEFT COLORS",
    NAMES_SECTION,
}
_REMEDY = "Write the file again with the tool that it came from."


def read_wif(path: str | Path) -> WeavingFile:
    """Read a weaving information file.

    Parameters
    ----------
    path : str or Path

    Returns
    -------
    WeavingFile

    Raises
    ------
    ContractError
        If the file is missing, not text, or breaks the format; the message names the section.
    """
    place = Path(path)
    data = read_file(place, most_bytes=_MOST_BYTES, error=ContractError)
    return parse_wif(data, thing=place.name)


class _Sections:
    """Sections of a file by upper-case name, keys by lower-case name."""

    def __init__(self, text: str, thing: str) -> None:
        self.thing = thing
        parser = configparser.RawConfigParser(
            strict=False,
            delimiters=("=",),
            comment_prefixes=(";",),
            allow_no_value=True,
            default_section="\0",
        )
        parser.optionxform = str  # type: ignore[assignment,method-assign]
        try:
            parser.read_string("\n".join(line.strip() for line in text.splitlines()))
        except configparser.Error as error:
            rule = "must be sections, [NAME], with key=value lines"
            line = getattr(error, "lineno", None)
            got = f"line {line}" if line else "something else"
            raise ContractError(thing, rule, got=got, remedy=_REMEDY) from None
        self.rows: dict[str, dict[str, str]] = {}
        self.plain: list[tuple[str, tuple[tuple[str, str], ...]]] = []
        for name in parser.sections():
            rows = tuple((key, value or "") for key, value in parser.items(name))
            upper = " ".join(name.split()).upper()
            self.rows.setdefault(upper, {}).update({k.strip().lower(): v for k, v in rows})
            if upper not in _READ:
                self.plain.append((upper, rows))

    def section(self, name: str) -> Mapping[str, str]:
        return self.rows.get(name, {})

    def wrong(self, section: str, rule: str, got: str) -> ContractError:
        return ContractError(f"{self.thing} [{section}]", rule, got=got, remedy=_REMEDY)

    def count(self, section: str, key: str, default: int = 0) -> int:
        """Whole number of a key, `default` where it is missing."""
        text = self.section(section).get(key, "").split(",")[0].strip()
        if not text:
            return default
        if not re.fullmatch(r"\d{1,9}", text):
            raise self.wrong(section, f"{key} must be a whole number", repr(text))
        if int(text) > _MOST_THREADS:
            raise self.wrong(section, f"{key} must be at most {_MOST_THREADS}", text)
        return int(text)

    def numbers(self, section: str, *, first_only: bool = False) -> dict[int, tuple[int, ...]]:
        """Numbers of each numbered line: ``3=1,2`` gives {3: (1, 2)}."""
        found: dict[int, tuple[int, ...]] = {}
        for key, value in self.section(section).items():
            parts = [part.strip() for part in value.split(",")] if value.strip() else []
            if not re.fullmatch(r"\d{1,9}", key) or not 1 <= int(key) <= _MOST_THREADS:
                raise self.wrong(section, "lines must be numbered from 1", repr(key))
            if not all(re.fullmatch(r"\d{1,9}", part) for part in parts):
                raise self.wrong(section, f"line {key} must be whole numbers", repr(value))
            whole = tuple(int(part) for part in parts)
            found[int(key)] = whole[:1] if first_only else whole
        return found

    def flag(self, section: str, key: str, *, default: bool) -> bool:
        text = self.section(section).get(key, "").strip().lower()
        if not text:
            return default
        if text not in _YES | _NO:
            raise self.wrong(section, f"{key} must be true or false", repr(text))
        return text in _YES


def _text(data: bytes, thing: str) -> str:
    if b"\0" in data[:4096]:
        raise ContractError(thing, "must be a text file", got="binary data")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")  # as tools of that time wrote


def parse_wif(data: bytes, *, thing: str = "weaving file") -> WeavingFile:
    """Read a weaving information file from its bytes; see `read_wif`.

    Examples
    --------
    >>> text = "[WIF] Version=1.1 [COLOR-TABLE] 1=93,115,58 [WEFT] Threads=4 Color=1"
    >>> parse_wif(text.replace(" ", chr(10)).replace("-", " ").encode()).weft_colours
    (1, 1, 1, 1)
    """
    sections = _Sections(_text(data, thing), thing)
    if "WIF" not in sections.rows:
        rule = "must begin with the section [WIF]"
        got = f"[{next(iter(sections.rows))}]" if sections.rows else "no section"
        raise ContractError(thing, rule, got=got, remedy=_REMEDY)
    _check_sections(sections)
    colours = _colours(sections)
    _check_counts(sections, len(colours))
    names = sections.section(NAMES_SECTION)
    lift_plan = _per_thread(sections, "LIFTPLAN", "WEFT")
    tie_up = sections.numbers("TIEUP")
    treadles = max(sections.count("WEAVING", "treadles"), max(tie_up, default=0)) if tie_up else 0
    return WeavingFile(
        title=sections.section("TEXT").get("title", "").strip(),
        rising=sections.flag("WEAVING", "rising shed", default=True),
        threading=_per_thread(sections, "THREADING", "WARP"),
        tie_up=tuple(_plain(tie_up.get(number, ())) for number in range(1, treadles + 1)),
        treadling=_per_thread(sections, "TREADLING", "WEFT"),
        lift_plan=lift_plan,
        colours=colours,
        names=tuple(names.get(f"{n}", "") for n in range(1, len(colours) + 1)) if names else (),
        warp_colours=_thread_colours(sections, "WARP", len(colours)),
        weft_colours=_thread_colours(sections, "WEFT", len(colours)),
        ends_per_cm=_per_cm(sections, "WARP"),
        picks_per_cm=_per_cm(sections, "WEFT"),
        others=tuple(sections.plain),
    )


def _check_sections(sections: _Sections) -> None:
    """Refuse a file that lacks a section which its own list of contents has: it is cut short."""
    for key, value in sections.section("CONTENTS").items():
        name = " ".join(key.split()).upper()
        if name in _READ and name not in sections.rows and value.strip().lower() in _YES:
            raise sections.wrong(name, "must be there, as [CONTENTS] says", "no such section")


def _check_counts(sections: _Sections, colours: int) -> None:
    """Refuse figures that say something else than the lines they count."""
    threading, tie_up = sections.numbers("THREADING"), sections.numbers("TIEUP")
    picks = {**sections.numbers("TREADLING"), **sections.numbers("LIFTPLAN")}
    used = {
        ("WARP", "threads"): max(threading, default=1),
        ("WEFT", "threads"): max(picks, default=1),
        ("WEAVING", "shafts"): max((n for each in threading.values() for n in each), default=1),
        ("WEAVING", "treadles"): max(tie_up, default=0),
        ("COLOR PALETTE", "entries"): colours,
    }
    for (section, key), least in used.items():
        if key not in sections.section(section):
            continue
        count = sections.count(section, key, -1)
        if count < least or (key == "entries" and count != least):
            rule = f"{key.capitalize()} must count what is there"
            raise sections.wrong(section, rule, f"{count}, and {least} in use")
    for name, lines in (("WARP", threading), ("WEFT", picks)):
        if lines and name not in sections.rows:
            raise sections.wrong(name, "must be there beside the draft", "no such section")


def _plain(numbers: tuple[int, ...]) -> tuple[int, ...]:
    """Numbers without the 0 that stands for none."""
    return tuple(number for number in numbers if number)


def _per_thread(sections: _Sections, name: str, threads: str) -> tuple[tuple[int, ...], ...]:
    rows = sections.numbers(name)
    if not rows:
        return ()
    count = max(sections.count(threads, "threads"), max(rows))
    return tuple(_plain(rows.get(number, ())) for number in range(1, count + 1))


def _thread_colours(sections: _Sections, name: str, table: int) -> tuple[int, ...]:
    """Colour of each thread: its own line, or the default of its section."""
    if not table:
        return ()
    rows = sections.numbers(f"{name} COLORS", first_only=True)
    count = max(sections.count(name, "threads"), max(rows, default=0))
    default = sections.count(name, "color", 1)
    return tuple((rows.get(n) or (default,))[0] for n in range(1, count + 1))


def _colours(sections: _Sections) -> tuple[str, ...]:
    """Color table as hex, from the scale that the color palette declares."""
    table = sections.section("COLOR TABLE")
    if not table:
        return ()
    low, high = _range(sections)
    found: dict[int, str] = {}
    for key in table:
        parts = [part.strip() for part in table[key].split(",")]
        if not re.fullmatch(r"\d{1,6}", key) or int(key) < 1:
            raise sections.wrong("COLOR TABLE", "lines must be numbered from 1", repr(key))
        if len(parts) != 3 or not all(re.fullmatch(r"-?\d{1,9}", part) for part in parts):
            rule = f"line {key} must be red, green and blue as whole numbers"
            raise sections.wrong("COLOR TABLE", rule, repr(table[key]))
        values = [int(part) for part in parts]
        if not all(low <= value <= high for value in values):
            rule = f"line {key} must lie in the range {low} to {high}"
            raise sections.wrong("COLOR TABLE", rule, repr(table[key]))
        codes = [round((value - low) * 255 / (high - low)) for value in values]
        found[int(key)] = "#" + bytes(codes).hex()
    if sorted(found) != list(range(1, len(found) + 1)):
        missing = next(n for n in range(1, len(found) + 2) if n not in found)
        raise sections.wrong("COLOR TABLE", "must have a line for each colour", f"no {missing}")
    return tuple(found[number] for number in sorted(found))


def _range(sections: _Sections) -> tuple[int, int]:
    text = sections.section("COLOR PALETTE").get("range", "").strip()
    if not text:
        return 0, 255
    match = re.fullmatch(r"(-?\d{1,9})\s*,\s*(-?\d{1,9})", text)
    if not match or not int(match[1]) < int(match[2]):
        raise sections.wrong("COLOR PALETTE", "Range must be two rising numbers", repr(text))
    return int(match[1]), int(match[2])


def _per_cm(sections: _Sections, name: str) -> float:
    """Threads per cm from the spacing, 0 where there is none."""
    spacing = sections.section(name).get("spacing", "").split(",")[0].strip()
    units = sections.section(name).get("units", "").strip().lower()
    if not spacing or not units:
        return 0.0
    if units not in _CM:
        rule = "Units must be decipoints, inches or centimeters"
        raise sections.wrong(name, rule, repr(units))
    try:
        value = float(spacing)
    except ValueError:
        value = -1.0
    if not 0 < value < float("inf"):
        raise sections.wrong(name, "Spacing must be more than 0", repr(spacing))
    return significant(1 / (value * _CM[units]))
