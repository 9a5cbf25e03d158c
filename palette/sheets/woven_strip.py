"""The cloth in its woven colours as a plain strip: no wall, no fringe, ready to lay to scale."""

from __future__ import annotations

from palette.cloth.across_room import as_pixels, cloth_face
from palette.plans.face import face_of, warp_lab_of
from palette.plans.plan import Plan
from palette.sheets.pictures import pixels_png

__all__ = ["woven_strip_png", "woven_strip_pngs"]

_MOST_PX = 1600


def woven_strip_png(plan: Plan, *, cloth: int = 0) -> bytes:
    """Draw one cloth as it may look when woven, edge to edge, for the sheets.

    Parameters
    ----------
    plan : Plan
        Its yarns give the thickness of warp and weft.
    cloth : int
        Which cloth, from 0.

    Returns
    -------
    bytes
        PNG of the finished cloth's proportions, the first pick at the bottom; as wide as it
        needs to be to show a striped warp, else narrow.
    """
    weft = plan.cloths[cloth]
    longest_cm = max(weft.true_finished_length_mm, plan.warp.finished_width_mm) / 10
    pixels_per_cm = min(8.0, _MOST_PX / longest_cm)
    light = cloth_face(
        weft,
        plan.warp,
        warp_lab_of(plan),
        face_of(plan, weft).warp_share,
        pixels_per_cm=pixels_per_cm,
    )
    return pixels_png(as_pixels(light), dpi=pixels_per_cm * 2.54)


def woven_strip_pngs(plan: Plan) -> tuple[bytes, ...]:
    """Draw every cloth of a plan as `woven_strip_png` does, in weaving order."""
    return tuple(woven_strip_png(plan, cloth=index) for index in range(len(plan.cloths)))
