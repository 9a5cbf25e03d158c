"""Woven colours as the command ``cloth`` prints them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.cloth.own_samples import OwnYarn
    from palette.cloth.wanted import WeftToDye
    from palette.cloth.weft_yarns import WeftYarn
    from palette.plans.plan import Plan
    from palette.sheets.cloth_pictures import ClothLook

__all__ = ["dull_line", "look_json", "look_table", "wanted_text", "weft_yarns"]


def look_table(look: ClothLook) -> str:
    """Set out the woven colour of every weft, with what is lost and the typical error."""
    from palette.cloth.woven_words import part_lost_words

    rows = [
        (
            stripe.colour,
            " ".join(f"{value:6.1f}" for value in stripe.yarn_lab),
            " ".join(f"{value:6.1f}" for value in stripe.cloth_lab),
            stripe.cloth_hex,
            part_lost_words(stripe),
            f"{stripe.typical_error:.1f}",
        )
        for stripe in look.stripes
    ]
    heads = ("weft", "yarn, CIELAB", "cloth, CIELAB", "cloth", "brightness lost", "typical error")
    face = look.face
    shown = (
        f"Of the face {100 * face.warp_share:.0f} % is warp ({face.kind}); "
        f"{100 * face.gap:.0f} % is gap."
    )
    return f"{shown}\n\n{table(heads, rows, hexes=[each.cloth_hex for each in look.stripes])}"


def dull_line(looks: Sequence[ClothLook]) -> str:
    """Name the wefts that come out much duller, lighter or darker than their yarn; "" if none."""
    stripes = [each for look in looks for each in look.stripes]
    ways = {
        "duller": [each for each in stripes if each.dull],
        "lighter": [each for each in stripes if each.shifted and each.lightness_change > 0],
        "darker": [each for each in stripes if each.shifted and each.lightness_change < 0],
    }
    said = [
        f"much {way} than the yarn: {', '.join(dict.fromkeys(each.colour for each in found))}"
        for way, found in ways.items()
        if found
    ]
    if not said:
        return ""
    words = "; ".join(said)
    remedy = "--wanted COLOUR says which weft to dye instead."
    return f"Across this warp these come out {words}. {remedy}"


def _weft_to_dye(plan: Plan, look: ClothLook, wanted: str, own: OwnYarn | None) -> WeftToDye:
    from palette.cloth.wanted import weft_to_dye
    from palette.perception.colour_text import parse_colour
    from palette.sheets.cloth_pictures import mean_warp_lab

    lab = parse_colour(wanted, thing="--wanted")
    return weft_to_dye(lab, mean_warp_lab(plan), look.face.warp_share, covers=look.covers, own=own)


def wanted_text(plan: Plan, look: ClothLook, wanted: str, own: OwnYarn | None) -> str:
    """Say which weft to dye for a wanted cloth colour."""
    return _weft_to_dye(plan, look, wanted, own).advice


def look_json(
    plan: Plan, looks: Sequence[ClothLook], wanted: str | None, own: OwnYarn | None
) -> str:
    """Give the woven colours of every cloth as JSON."""
    content: dict[str, object] = {
        "cloths": [
            {
                "warp_share": look.face.warp_share,
                "face": look.face.kind,
                "gap": look.face.gap,
                "colours": [
                    {
                        "colour": stripe.colour,
                        "yarn_lab": stripe.yarn_lab,
                        "cloth_lab": stripe.cloth_lab,
                        "cloth_hex": stripe.cloth_hex,
                        "in_srgb": stripe.in_srgb,
                        "chroma_lost": stripe.chroma_lost,
                        "part_lost": stripe.part_lost,
                        "lightness_change": stripe.lightness_change,
                        "typical_error": stripe.typical_error,
                        "note": stripe.note,
                    }
                    for stripe in look.stripes
                ],
            }
            for look in looks
        ]
    }
    if wanted is not None:
        answer = _weft_to_dye(plan, looks[0], wanted, own)
        content["wanted"] = {
            "wanted_lab": answer.wanted_lab,
            "weft_lab": answer.weft_lab,
            "weft_hex": answer.weft_hex,
            "cloth_lab": answer.cloth_lab,
            "difference": answer.difference,
            "typical_error": answer.typical_error,
            "advice": answer.advice,
            "changes": [asdict(change) for change in answer.changes],
        }
    return json.dumps(content, indent=2, ensure_ascii=False)


def weft_yarns(plan: Plan, words: Sequence[str]) -> dict[str, WeftYarn]:
    """Read the wefts of several colours, by name; raises InputError."""
    from palette.cloth.yarn_text import parse_weft_yarn
    from palette.errors import InputError

    known = {colour for cloth in plan.cloths for colour in cloth.colours}
    yarns = {}
    for word in words:
        name, mark, text = word.partition("=")
        if not mark or name.strip() not in known:
            rule = f"must begin with a colour of the plan ({', '.join(sorted(known))})"
            raise InputError("--weft-yarn", rule, got=repr(word))
        yarns[name.strip()] = parse_weft_yarn(text, thing="--weft-yarn")
    return yarns
