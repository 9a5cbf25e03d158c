"""Pictures of a planned cloth as it will look, packed as PNG."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from palette.cloth.across_room import across_room
from palette.cloth.prediction import WovenStripe, woven_stripes
from palette.cloth.shown_face import Face
from palette.cloth.wanted import Covers
from palette.loom.treadling import whole_draft
from palette.measures import parse_share
from palette.perception.spaces import lab_to_linear_srgb, linear_srgb_to_lab
from palette.plans.face import face_of, tex_of, warp_lab_of
from palette.plans.plan import Plan
from palette.sheets.pictures import pixels_png
from palette.stripes.plan import StripePlan

if TYPE_CHECKING:
    from palette.cloth.beside import Panel
    from palette.cloth.own_samples import OwnYarn
    from palette.cloth.weft_yarns import WeftYarn

__all__ = ["ClothLook", "beside_png", "close_up_png", "look_of", "mean_warp_lab", "room_png"]

_GAP_PX = 24
_CLOSE_UP_DPI = 300
_BESIDE_DPI = 150
_LABEL_PX = 18
_PAPER = 255
_MOST_PX = 8_000_000  # of a cloth across the room, which takes 2 GB to work out


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothLook:
    """What one cloth of a plan will look like.

    Attributes
    ----------
    face : Face
        How much of it is warp, weft and gap.
    stripes : tuple of WovenStripe
        Cloth colour of every weft, in the order in which they enter.
    covers : Covers
        How closely it is set, for advice on another sett.
    """

    face: Face
    stripes: tuple[WovenStripe, ...]
    covers: Covers


def mean_warp_lab(plan: Plan) -> tuple[float, float, float]:
    """Give the colour of the warp; of a striped one the mean of its ends in linear light."""
    light = lab_to_linear_srgb(np.atleast_2d(warp_lab_of(plan))).mean(axis=0)
    lightness, a, b = linear_srgb_to_lab(light).tolist()
    return lightness, a, b


def look_of(plan: Plan, cloth: StripePlan, *, own: OwnYarn | None = None) -> ClothLook:
    """Work out the face of a cloth and the woven colour of every weft.

    Parameters
    ----------
    plan : Plan
    cloth : StripePlan
        One of the plan's.
    own : OwnYarn, optional
        The model shifted to the weaver's own samples.

    Returns
    -------
    ClothLook
        Across a striped warp its mean colour in linear light stands for all of it.
    """
    face = face_of(plan, cloth)
    woven = woven_stripes(cloth, mean_warp_lab(plan), face.warp_share, own=own)
    covers = Covers.planned(
        plan.warp,
        cloth,
        warp_tex=tex_of(plan, "warp"),
        weft_tex=tex_of(plan, "weft"),
        draft=plan.draft,
    )
    seen = {stripe.colour: stripe for stripe in woven}
    return ClothLook(face=face, stripes=tuple(seen.values()), covers=covers)


def room_png(
    plan: Plan,
    *,
    own: OwnYarn | None = None,
    yarns: Mapping[str, WeftYarn] | None = None,
    fringe: bool = True,
    pixels_per_cm: float = 8.0,
    first: int = 0,
    last: int | None = None,
) -> bytes:
    """Draw the cloths from across the room, side by side, each stripe in its woven colour.

    Parameters
    ----------
    plan : Plan
    own : OwnYarn, optional
    yarns : mapping of str to WeftYarn, optional
        Wefts that are not of one colour, by name.
    fringe : bool
        Whether the fringes are drawn.
    pixels_per_cm : float
        Fewer where the cloths are so large that the picture would be.
    first, last : int
        Which cloths, as in a slice.

    Returns
    -------
    bytes
        PNG, first pick at the bottom.
    """
    warp_lab = warp_lab_of(plan)
    cloths = plan.cloths[first:last]
    pixels_per_cm = min(pixels_per_cm, _finest(plan, cloths))
    pieces = [
        across_room(
            cloth,
            plan.warp,
            warp_lab,
            face_of(plan, cloth).warp_share,
            pixels_per_cm=pixels_per_cm,
            own=own,
            yarns=yarns,
            weft_take_up=_take_up(plan),
            fringe=fringe and plan.warp.fringe_mm > 0,
            seed=number,
        )
        for number, cloth in enumerate(cloths)
    ]
    return pixels_png(_side_by_side(pieces), dpi=pixels_per_cm * 2.54)


def _finest(plan: Plan, cloths: Sequence[StripePlan]) -> float:
    """Most pixels to the centimetre at which a picture of these cloths keeps to its size."""
    long_mm = math.fsum(cloth.true_finished_length_mm + 2 * plan.warp.fringe_mm for cloth in cloths)
    return math.sqrt(_MOST_PX / (long_mm / 10 * plan.warp.finished_width_mm / 10))


def _side_by_side(pieces: list[NDArray[np.uint8]]) -> NDArray[np.uint8]:
    if len(pieces) == 1:
        return pieces[0]
    height = max(piece.shape[0] for piece in pieces)
    width = sum(piece.shape[1] for piece in pieces) + _GAP_PX * (len(pieces) - 1)
    whole = np.full((height, width, 3), _PAPER, np.uint8)
    left = 0
    for piece in pieces:
        whole[height - piece.shape[0] :, left : left + piece.shape[1]] = piece
        left += piece.shape[1] + _GAP_PX
    return whole


def _take_up(plan: Plan) -> float:
    """Take-up of the weft that the plan was made with."""
    return parse_share(str(dict(plan.asked).get("weft-take-up", "0%")))


def close_up_png(
    plan: Plan, cloth: StripePlan, *, yarns: Mapping[str, WeftYarn] | None = None
) -> bytes:
    """Draw a piece of a cloth with its threads; it prints at true size at 300 dots per inch."""
    from palette.cloth.close_up import close_up

    pixels = close_up(
        cloth,
        plan.warp,
        warp_lab_of(plan),
        warp_tex=tex_of(plan, "warp"),
        weft_tex=tex_of(plan, "weft"),
        draft=whole_draft(plan.draft, cloth),
        yarns=yarns,
        weft_take_up=_take_up(plan),
    )
    return pixels_png(pixels, dpi=_CLOSE_UP_DPI)


def beside_png(plan: Plan, cloth: StripePlan, *, own: OwnYarn | None = None) -> bytes:
    """Draw white, natural, black and each palette colour as weft on the same warp, with names."""
    from palette.cloth.beside import usual_wefts, wefts_beside

    pixels, panels = wefts_beside(
        usual_wefts(cloth.palette),
        plan.warp,
        mean_warp_lab(plan),
        face_of(plan, cloth).warp_share,
        picks_per_cm=cloth.picks_per_cm,
        shrinkage_length=cloth.shrinkage_length,
        warp_tex=tex_of(plan, "warp"),
        weft_tex=tex_of(plan, "weft"),
        draft=plan.draft,
        own=own,
        dpi=_BESIDE_DPI,
    )
    return pixels_png(_labelled(pixels, panels), dpi=_BESIDE_DPI)


def _labelled(pixels: NDArray[np.uint8], panels: tuple[Panel, ...]) -> NDArray[np.uint8]:
    """Write the name of each weft into a band of the wall below its panel."""
    from PIL import Image, ImageDraw, ImageFont

    rows = sorted({panel.top for panel in panels})
    band = _LABEL_PX * 2
    wall = tuple(map(int, pixels[0, 0]))
    whole = Image.new("RGB", (pixels.shape[1], pixels.shape[0] + band * len(rows)), wall)
    draw, font = ImageDraw.Draw(whole), ImageFont.load_default(_LABEL_PX)
    for number, top in enumerate(rows):
        end = rows[number + 1] if number + 1 < len(rows) else pixels.shape[0]
        whole.paste(Image.fromarray(pixels[top:end]), (0, top + band * number))
        if number == 0 and top:
            whole.paste(Image.fromarray(pixels[:top]), (0, 0))
    for panel in panels:
        down = panel.top + panel.height + band * rows.index(panel.top) + _LABEL_PX // 4
        draw.text((panel.left, down), panel.woven.colour, fill="black", font=font)
    return np.asarray(whole)
