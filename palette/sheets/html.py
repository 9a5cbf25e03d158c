"""The page at the loom: one file that counts picks and keeps the place, offline."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from palette.measures import (
    MM_PER_CM,
    MM_PER_INCH,
    Units,
    format_density,
    format_length,
    format_mass,
    format_yarn_length,
)
from palette.plans.plan import Plan
from palette.plans.skeins import skein_words
from palette.sheets.amounts_page import GUIDE, warp_lines, warp_order
from palette.sheets.between import after_cloth, before_cloth, sampling_words
from palette.sheets.contrast import legible
from palette.sheets.legend import LegendEntry, cloth_title, legend, number_of, stripe_key
from palette.sheets.marks import StripeMarks, role_words, stripe_marks
from palette.sheets.overview import key_figures, plan_lede

__all__ = ["plan_digest", "sheet_html"]

_HERE = Path(__file__).parent


def plan_digest(plan: Plan) -> str:
    """Sixteen characters that are the same for the same stripes, and for no others.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    str
        Hexadecimal; the loom page keeps its place under it.
    """
    picks = [[[s.colour, s.hex, s.picks] for s in cloth.stripes] for cloth in plan.cloths]
    text = json.dumps([plan.name, picks], ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def sheet_html(
    plan: Plan,
    *,
    photo_jpeg: bytes | None = None,
    cloth_pngs: Sequence[bytes] = (),
) -> bytes:
    """Write the page at the loom: one self-contained file that asks nothing of the network.

    Parameters
    ----------
    plan : Plan
    photo_jpeg : bytes, optional
        The photograph as a small JPEG, upright; put into the file as it is.
    cloth_pngs : sequence of bytes
        Each cloth as it may look woven; empty for none.

    Returns
    -------
    bytes
        HTML in UTF-8; the same plan gives the same bytes.
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    environment = Environment(
        loader=FileSystemLoader(_HERE), autoescape=True, undefined=StrictUndefined
    )
    entries = legend(plan)
    script = (_HERE / "loom_page.js.jinja").read_text(encoding="utf-8")
    style = (_HERE / "loom_page.css.jinja").read_text(encoding="utf-8") + _colour_rules(entries)
    template = environment.get_template("sheet.html.jinja")
    return template.render(
        policy=_policy(script, style),
        script=Markup(script),
        style=Markup(style),
        data=Markup(_data(plan, entries)),
        name=plan.name,
        lede=plan_lede(plan),
        figures=key_figures(plan),
        warnings=plan.warnings,
        cloths=[_cloth(plan, entries, index) for index in range(len(plan.cloths))],
        colours=_colours(plan, entries),
        shares=_shares(plan, entries),
        yarns=_yarns(plan, entries),
        sampling=sampling_words(plan),
        warp=warp_lines(plan),
        warp_order=warp_order(plan),
        guide=GUIDE,
        photo=_embedded(photo_jpeg),
        pictures=[
            (cloth_title(plan, index), _embedded(data)) for index, data in enumerate(cloth_pngs)
        ],
    ).encode()


def _embedded(data: bytes | None) -> str:
    return base64.b64encode(data).decode() if data else ""


def _policy(script: str, style: str) -> str:
    """Allow the page its own script, style and pictures, and nothing else."""

    def digest(text: str) -> str:
        return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"

    return (
        f"default-src 'none'; script-src {digest(script)}; style-src {digest(style)}; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def _colour_rules(entries: tuple[LegendEntry, ...]) -> str:
    """One class for each colour, with the ink that reads on it."""
    rules = (
        f".c{entry.number} {{ background: {entry.hex}; color: {legible(entry.hex)}; }}"
        for entry in entries
    )
    return "\n".join(rules) + "\n"


def _data(plan: Plan, entries: tuple[LegendEntry, ...]) -> str:
    """Plan for the script; JSON in which no character can end the element."""
    unit, mm = ("in", MM_PER_INCH) if plan.units is Units.IMPERIAL else ("cm", MM_PER_CM)
    data = {
        "digest": plan_digest(plan),
        "name": plan.name,
        "unit": unit,
        "colours": [{"number": entry.number, "name": entry.name} for entry in entries],
        "cloths": [_counted(plan, index, entries, mm) for index in range(len(plan.cloths))],
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for character in "<>&\u2028\u2029":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return text


def _counted(
    plan: Plan, index: int, entries: tuple[LegendEntry, ...], mm_per_unit: float
) -> dict[str, Any]:
    cloth = plan.cloths[index]
    numbers = number_of(entries)
    marks = stripe_marks(cloth)
    pairs = [(stripe.colour, mark) for stripe, mark in zip(cloth.stripes, marks, strict=True)]
    return {
        "total": cloth.total_picks,
        "perPick": MM_PER_CM / cloth.picks_per_cm / mm_per_unit,
        "lasts": [stripe.last_pick for stripe in cloth.stripes],
        "colours": [numbers[stripe_key(stripe)] - 1 for stripe in cloth.stripes],
        "roles": [_in_brackets(role_words(plan, cloth, stripe)) for stripe in cloth.stripes],
        "ends": [_ending(name, mark) for name, mark in pairs],
        "begins": [_beginning(name, mark) for name, mark in pairs],
        "title": cloth_title(plan, index),
        "before": before_cloth(plan, index),
        "after": after_cloth(plan, index),
    }


def _in_brackets(words: str) -> str:
    return f" ({words})" if words else ""


def _beginning(name: str, mark: StripeMarks) -> str:
    """Sentence for the moment before a stripe."""
    words = {
        "start": f"Start {name} with a new tail.",
        "take up": f"Take up {name}, carried at the selvedge.",
        "go on": f"Go on with {name}.",
    }
    return words[mark.before]


def _ending(name: str, mark: StripeMarks) -> str:
    """Sentence for the moment after a stripe."""
    if mark.after == "cut":
        return f"Cut {name}, not needed again." if mark.last else f"Cut {name}."
    if mark.after == "carry":
        return f"Carry {name} up past {mark.carry_picks} picks."
    return ""


def _cloth(plan: Plan, entries: tuple[LegendEntry, ...], index: int) -> dict[str, Any]:
    cloth = plan.cloths[index]
    numbers = number_of(entries)
    rows = [
        {
            "number": numbers[stripe_key(stripe)],
            "colour": stripe.colour,
            "hex": stripe.hex,
            "role": _in_brackets(role_words(plan, cloth, stripe)),
            "picks": stripe.picks,
            "before": stripe.first_pick - 1,
            "last": stripe.last_pick,
            "woven": format_length(stripe.last_pick * MM_PER_CM / cloth.picks_per_cm, plan.units),
            "before_words": mark.before_words,
            "after_words": mark.after_words,
        }
        for stripe, mark in zip(cloth.stripes, stripe_marks(cloth), strict=True)
    ]
    return {
        "title": cloth_title(plan, index),
        "total": cloth.total_picks,
        "beat": format_density(cloth.picks_per_cm, plan.units),
        "woven": format_length(cloth.woven_length_mm, plan.units),
        "finished": format_length(cloth.true_finished_length_mm, plan.units),
        "rows": rows,
        "before": before_cloth(plan, index),
        "after": after_cloth(plan, index),
    }


def _colours(plan: Plan, entries: tuple[LegendEntry, ...]) -> list[dict[str, Any]]:
    total = sum(cloth.total_picks for cloth in plan.cloths)
    rows = []
    for entry in entries:
        wanted = [share for share in entry.wanted if share is not None]
        rows.append(
            {
                "number": entry.number,
                "name": entry.name,
                "hex": entry.hex,
                "in_srgb": entry.in_srgb,
                "asked": f"{100 * sum(wanted) / len(plan.cloths):.1f} %" if wanted else "",
                "woven": f"{100 * sum(entry.picks) / total:.1f} %",
                "picks": sum(entry.picks),
            }
        )
    return rows


def _shares(plan: Plan, entries: tuple[LegendEntry, ...]) -> list[dict[str, Any]]:
    total = sum(cloth.total_picks for cloth in plan.cloths)
    parts: list[dict[str, Any]] = []
    before = 0
    for entry in entries:
        picks = sum(entry.picks)
        if picks:
            parts.append(
                {
                    "before": f"{before / total:.6f}",
                    "share": f"{picks / total:.6f}",
                    "hex": entry.hex,
                }
            )
        before += picks
    return parts


def _yarns(plan: Plan, entries: tuple[LegendEntry, ...]) -> list[dict[str, Any]]:
    numbers = number_of(entries)
    skeins = skein_words(plan) or ("",) * len(plan.yarns)
    return [
        {
            "number": numbers.get((yarn.colour, yarn.hex), 0),
            "colour": yarn.colour,
            "use": yarn.use,
            "length": format_yarn_length(yarn.length_m, plan.units),
            "mass": format_mass(yarn.mass_g, plan.units),
            "skeins": whole,
            "count": yarn.count,
        }
        for yarn, whole in zip(plan.yarns, skeins, strict=True)
    ]
