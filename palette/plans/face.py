"""The face of a planned cloth: how much of it shows warp, and of which colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from palette.cloth.shown_face import Face, planned_face
from palette.perception.spaces import hex_to_lab
from palette.plans.plan import Plan
from palette.stripes.plan import StripePlan

if TYPE_CHECKING:
    from typing import Literal

__all__ = ["face_of", "tex_of", "warp_lab_of"]


def tex_of(plan: Plan, use: Literal["weft", "warp"]) -> float:
    """Give the fineness of the first yarn of this use, tex."""
    return next(yarn.tex for yarn in plan.yarns if yarn.use == use)


def face_of(plan: Plan, cloth: StripePlan) -> Face:
    """Give the face of one of the plan's cloths, by its draft and the fineness of its yarns."""
    return planned_face(
        plan.warp,
        cloth,
        warp_tex=tex_of(plan, "warp"),
        weft_tex=tex_of(plan, "weft"),
        draft=plan.draft,
    )


def warp_lab_of(plan: Plan) -> NDArray[np.float64]:
    """Give the CIELAB of the warp, shape (3,), or of every end of a striped one, (ends, 3)."""
    if not plan.warp_stripes:
        return np.array(plan.warp_lab)
    labs = [hex_to_lab(stripe.hex) for stripe in plan.warp_stripes]
    return np.repeat(np.array(labs), [stripe.ends for stripe in plan.warp_stripes], axis=0)
