"""Writing weaving information files."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import cycle, islice

from palette.errors import InputError
from palette.loom.chains import WarpStripe
from palette.loom.draft import Draft
from palette.loom.treadling import whole_draft
from palette.loom.warp import Warp
from palette.plans.plan import Plan
from palette.sheets.wif import WeavingFile, significant

__all__ = ["NAMES_SECTION", "weaving_file_of", "wif_bytes"]

NAMES_SECTION = "PRIVATE LEAFWEFT COLOR NAMES"
_ABOUT = (
    ("Version", "1.1"),
    ("Date", "April 20, 1997"),  # of the specification, as it asks; never of the file
    ("Developers", "wif@mhsoft.com"),  # fixed by the specification
    ("Source Program", "Leafweft"),
)


def weaving_file_of(plan: Plan, cloth: int = 0) -> WeavingFile:
    """Turn one cloth of a plan into a weaving information file.

    Parameters
    ----------
    plan : Plan
    cloth : int
        Which cloth, from 0.

    Returns
    -------
    WeavingFile
        Every end and every pick, hems in plain weave; colour 1 is that of end 1.

    Raises
    ------
    InputError
        If the plan has no such cloth.
    """
    if not 0 <= cloth < len(plan.cloths):
        got = f"{cloth + 1}"
        raise InputError("cloth", f"must be from 1 to {len(plan.cloths)}", got=got)
    weft = plan.cloths[cloth]
    table: dict[tuple[str, str], int] = {}
    ends: list[int] = []
    for run in plan.warp_stripes or (_one_colour(plan),):
        ends += [table.setdefault((run.colour, run.hex), len(table) + 1)] * run.ends
    picks: list[int] = []
    for stripe in weft.stripes:
        number = table.setdefault((stripe.colour, stripe.hex), len(table) + 1)
        picks += [number] * stripe.picks
    treadling = islice(cycle(whole_draft(plan.draft, weft).treadling), weft.total_picks)
    title = weft.name or plan.name
    return WeavingFile(
        title=" ".join(title.split()),
        threading=tuple((shaft,) for shaft in _threading(plan.draft, plan.warp)),
        tie_up=plan.draft.tie_up,
        treadling=tuple((treadle,) for treadle in treadling),
        colours=tuple(hex_colour for _, hex_colour in table),
        names=tuple(" ".join(name.split()) for name, _ in table),
        warp_colours=tuple(ends),
        weft_colours=tuple(picks),
        ends_per_cm=significant(plan.warp.ends_per_cm),
        picks_per_cm=significant(weft.picks_per_cm),
    )


def _one_colour(plan: Plan) -> WarpStripe:
    name = next((yarn.colour for yarn in plan.yarns if yarn.use == "warp"), "warp")
    return WarpStripe(colour=name, hex=plan.warp_hex, ends=plan.warp.ends)


def _threading(draft: Draft, warp: Warp) -> list[int]:
    """Shaft of every end; doubled selvedge ends lie beside their neighbour, half at each side."""
    working = list(islice(cycle(draft.threading), warp.working_ends))
    first = warp.doubled_ends // 2
    last = warp.doubled_ends - first
    doubled = [shaft for shaft in working[:first] for _ in range(2)]
    rest = working[first : len(working) - last]
    tail = working[len(working) - last :] if last else []
    return [*doubled, *rest, *(shaft for shaft in tail for _ in range(2))]


def _numbered(values: Iterable[str]) -> list[tuple[str, str]]:
    return [(f"{index}", value) for index, value in enumerate(values, start=1)]


def _several(rows: Sequence[tuple[int, ...]]) -> list[tuple[str, str]]:
    return _numbered(",".join(map(str, row)) if row else "0" for row in rows)


def _threads(count: int, default: int, per_cm: float) -> list[tuple[str, str]]:
    rows = [("Threads", f"{count}"), ("Color", f"{default}")]
    if per_cm:
        rows += [("Units", "Centimeters"), ("Spacing", f"{1 / per_cm:.14g}")]
    return rows


def _sections(file: WeavingFile) -> list[tuple[str, list[tuple[str, str]]]]:
    """Sections that carry something, in reading order."""
    ends = max(len(file.threading), len(file.warp_colours))
    picks = max(len(file.treadling), len(file.lift_plan), len(file.weft_colours))
    ground, weft = (
        colours[0] if colours else 1 for colours in (file.warp_colours, file.weft_colours)
    )
    warp_rows = [row for row in _numbered(map(str, file.warp_colours)) if row[1] != f"{ground}"]
    weft_rows = [row for row in _numbered(map(str, file.weft_colours)) if row[1] != f"{weft}"]
    weaving = [
        ("Shafts", f"{file.shafts}"),
        ("Treadles", f"{file.treadles}"),
        ("Rising Shed", "true" if file.rising else "false"),
    ]
    colours = [",".join(str(part) for part in bytes.fromhex(code[1:])) for code in file.colours]
    found: list[tuple[str, list[tuple[str, str]]]] = [
        ("TEXT", [("Title", file.title)] if file.title else []),
        ("WEAVING", weaving if file.shafts else []),
        ("WARP", _threads(ends, ground, file.ends_per_cm) if ends else []),
        ("WEFT", _threads(picks, weft, file.picks_per_cm) if picks else []),
        (
            "COLOR PALETTE",
            [("Entries", f"{len(colours)}"), ("Form", "RGB"), ("Range", "0,255")]
            if colours
            else [],
        ),
        ("COLOR TABLE", _numbered(colours)),
        ("THREADING", _several(file.threading)),
        ("TIEUP", _several(file.tie_up)),
        ("TREADLING", _several(file.treadling)),
        ("LIFTPLAN", _several(file.lift_plan)),
        ("WARP COLORS", warp_rows),
        ("WEFT COLORS", weft_rows),
        (NAMES_SECTION, [row for row in _numbered(file.names) if row[1]]),
    ]
    return [section for section in found if section[1]]


def wif_bytes(file: WeavingFile | Plan) -> bytes:
    """Write a weaving information file, version 1.1.

    Parameters
    ----------
    file : WeavingFile or Plan
        Of a plan, its first cloth.

    Returns
    -------
    bytes
        Text with the sections that carry something; the same plan gives the same bytes.
        ASCII, but for names and titles that are not: those are in UTF-8.
    """
    if isinstance(file, Plan):
        file = weaving_file_of(file)
    sections = _sections(file)
    taken = {name for name, _ in sections}
    sections += [(name, list(rows)) for name, rows in file.others if name.upper() not in taken]
    contents = [(name, "true") for name, _ in sections]
    lines: list[str] = []
    for name, rows in [("WIF", list(_ABOUT)), ("CONTENTS", contents), *sections]:
        lines += [f"[{name}]", *(f"{key}={value}" for key, value in rows), ""]
    return "\r\n".join(lines).encode()
