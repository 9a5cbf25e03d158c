"""Several wefts on one warp beside each other: the same draft, and cloths that look unrelated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.cloth.across_room import as_pixels, cloth_face
from palette.cloth.close_up import CloseUp, close_up
from palette.cloth.hanging import WALL
from palette.cloth.own_samples import OwnYarn
from palette.cloth.plain_yarns import BLACK, NATURAL, WHITE
from palette.cloth.prediction import WovenStripe, predict
from palette.errors import InputError
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.warp import Warp
from palette.measures import MM_PER_INCH
from palette.perception.spaces import lab_to_hex
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch

__all__ = ["Panel", "usual_wefts", "wefts_beside"]

Lab = tuple[float, float, float]

_DPI = 150
_GUTTER_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One weft of the picture.

    Attributes
    ----------
    woven : WovenStripe
        Its name, its cloth colour and what to know of it.
    left, top, width, height : int
        Where it is, in pixels; close up above, from across the room below.
    """

    woven: WovenStripe
    left: int
    top: int
    width: int
    height: int


def usual_wefts(palette: Palette) -> tuple[tuple[str, Lab], ...]:
    """Give white, natural and black, then each colour of the palette."""
    plain = (("white", WHITE), ("natural", NATURAL), ("black", BLACK))
    taken = {swatch.name for swatch in palette.swatches}
    return tuple(
        [(f"{name} yarn" if name in taken else name, lab) for name, lab in plain]
        + [(swatch.name, swatch.lab) for swatch in palette.swatches]
    )


def wefts_beside(
    wefts: Sequence[tuple[str, Lab]],
    warp: Warp,
    warp_lab: Lab,
    warp_share: float = 0.5,
    *,
    picks_per_cm: float,
    shrinkage_length: float = 0.0,
    warp_tex: float,
    weft_tex: float,
    draft: Draft = PLAIN_WEAVE,
    own: OwnYarn | None = None,
    panel_mm: float = 28.0,
    in_a_row: int = 4,
    dpi: int = _DPI,
    seed: int = 0,
) -> tuple[NDArray[np.uint8], tuple[Panel, ...]]:
    """Draw each weft on the same warp: close up, and below it from across the room.

    Parameters
    ----------
    wefts : sequence of (str, (L, a, b))
        Names and CIELAB D65 of the wefts, from `usual_wefts`.
    warp : Warp
    warp_lab : tuple of 3 float
    warp_share : float
    picks_per_cm, shrinkage_length : float
        As in the plan.
    warp_tex, weft_tex : float
    draft : Draft
    own : OwnYarn, optional
    panel_mm : float
        Width of a panel, and of each of its two halves.
    in_a_row : int
    dpi, seed : int

    Returns
    -------
    pixels : ndarray of uint8 of shape (h, w, 3)
    panels : tuple of Panel
        In the order of `wefts`, for labels.
    """
    if not wefts:
        raise InputError("wefts", "must be at least one", got="none")
    if not in_a_row >= 1:
        raise InputError("wefts in a row", "must be at least 1", got=f"{in_a_row}")
    dots = dpi / MM_PER_INCH
    size, gutter = round(panel_mm * dots), round(_GUTTER_MM * dots)
    columns = min(in_a_row, len(wefts))
    lines = -(-len(wefts) // columns)
    height = gutter + lines * (2 * size + gutter)
    width = gutter + columns * (size + gutter)
    picture = np.tile(as_pixels(np.array(WALL)), (height, width, 1))
    panels = []
    for number, (name, lab) in enumerate(wefts):
        line, column = divmod(number, columns)
        top, left = gutter + line * (2 * size + gutter), gutter + column * (size + gutter)
        cloth = _one_weft(name, lab, picks_per_cm, shrinkage_length, panel_mm)
        view = CloseUp(width_mm=panel_mm, height_mm=panel_mm, dpi=dpi, seed=seed + number)
        near = close_up(
            cloth, warp, warp_lab, warp_tex=warp_tex, weft_tex=weft_tex, draft=draft, view=view
        )
        _paste(picture, near, top, left, size)
        far = as_pixels(cloth_face(cloth, warp, warp_lab, warp_share, pixels_per_cm=2, own=own))
        picture[top + size : top + 2 * size, left : left + size] = far[0, 0]
        woven = predict(name, lab, warp_lab, warp_share, own=own)
        panels.append(Panel(woven=woven, left=left, top=top, width=size, height=2 * size))
    return picture, tuple(panels)


def _paste(
    picture: NDArray[np.uint8], part: NDArray[np.uint8], top: int, left: int, size: int
) -> None:
    """Lay a part down; a cloth smaller than its panel leaves the wall beside it."""
    rows, columns = min(size, part.shape[0]), min(size, part.shape[1])
    picture[top : top + rows, left : left + columns] = part[:rows, :columns]


def _one_weft(
    name: str, lab: Lab, picks_per_cm: float, shrinkage_length: float, length_mm: float
) -> StripePlan:
    code = lab_to_hex(lab)[0]
    picks = int(1.1 * length_mm / 10 * picks_per_cm / (1 - shrinkage_length)) + 2
    stripe = Stripe(colour=name, hex=code, lab=lab, picks=picks, first_pick=1)
    swatch = Swatch(name=name, lab=lab, hex=code, share=1.0)
    return StripePlan(
        palette=Palette(swatches=(swatch,)),
        stripes=(stripe,),
        picks_per_cm=picks_per_cm,
        finished_length_mm=length_mm,
        shrinkage_length=shrinkage_length,
    )
