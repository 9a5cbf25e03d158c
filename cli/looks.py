"""Woven colours as the command ``cloth`` prints them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.cloth.own_samples import OwnYarn
    from palette.cloth.wanted import WeftToDye
    from palette.plans.plan import Plan
    from palette.sheets.cloth_pictures import ClothLook

__all__ = ["look_json", "look_table", "wanted_text"]


def look_table(look: ClothLook) -> str:
    """Set out the woven colour of every weft, with what is lost and the typical error."""
    rows = [
        (
            stripe.colour,
            " ".join(f"{value:6.1f}" for value in stripe.yarn_lab),
            " ".join(f"{value:6.1f}" for value in stripe.cloth_lab),
            stripe.cloth_hex,
            f"{stripe.chroma_lost:.0f}",
            f"{stripe.typical_error:.1f}",
        )
        for stripe in look.stripes
    ]
    heads = ("weft", "yarn, CIELAB", "cloth, CIELAB", "cloth", "chroma lost", "typical error")
    face = look.face
    shown = f"Of the face {face.warp_share:.0%} is warp ({face.kind}); {face.gap:.0%} is gap."
    return f"{shown}\n\n{table(heads, rows, hexes=[each.cloth_hex for each in look.stripes])}"


def _weft_to_dye(plan: Plan, look: ClothLook, wanted: str, own: OwnYarn | None) -> WeftToDye:
    from palette.cloth.wanted import weft_to_dye
    from palette.perception.colour_text import parse_colour

    lab = parse_colour(wanted, thing="--wanted")
    return weft_to_dye(lab, plan.warp_lab, look.face.warp_share, own=own)


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
        }
    return json.dumps(content, indent=2, ensure_ascii=False)
