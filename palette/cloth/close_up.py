"""A cloth close up, at print size: threads that interlace by the draft."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.across_room import as_pixels, ends_lab
from palette.cloth.interlacing import Scene, draw
from palette.cloth.weft_shades import WeftShades, weft_shades
from palette.cloth.weft_yarns import WeftYarn
from palette.errors import InputError
from palette.loom.cover import yarn_diameter_mm
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.structure import drawdown
from palette.loom.warp import Warp
from palette.measures import MM_PER_INCH
from palette.perception.spaces import lab_to_linear_srgb
from palette.stripes.plan import StripePlan

__all__ = ["PRINT_DPI", "CloseUp", "close_up"]

Array = NDArray[np.float64]

PRINT_DPI = 300
BLOOM = 1.5
"""Washed yarn opens: threads are drawn half as thick again as Peirce's (common practice)."""

_FINER = 2  # points per pixel, each way
_MOST_POINTS = 60_000_000
_FULL = 0.97  # a thread as drawn takes at most this part of its spacing


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseUp:
    """What is shown, and how large.

    Attributes
    ----------
    width_mm, height_mm : float
        Of finished cloth, printed 1:1.
    first_pick : int
        Pick at the lower edge.
    first_end : int
        End at the right edge.
    dpi : int
        Dots per inch of the print.
    seed : int
        Of the threads' irregularity.
    """

    width_mm: float = 60.0
    height_mm: float = 60.0
    first_pick: int = 1
    first_end: int = 1
    dpi: int = PRINT_DPI
    seed: int = 0

    def __post_init__(self) -> None:
        """Refuse a size that cannot be drawn."""
        for name in ("width_mm", "height_mm", "first_pick", "first_end", "dpi"):
            if not getattr(self, name) > 0:
                got = f"{getattr(self, name)}"
                raise InputError(f"close-up {name}", "must be more than 0", got=got)
        height, width = self.shape
        if not 1 <= height * width * _FINER**2 <= _MOST_POINTS:
            rule = "must fit on a sheet of paper"
            raise InputError("close-up", rule, got=f"{self.width_mm} x {self.height_mm} mm")

    @property
    def shape(self) -> tuple[int, int]:
        """Height and width in pixels."""
        dots = self.dpi / MM_PER_INCH
        return round(self.height_mm * dots), round(self.width_mm * dots)


def close_up(
    cloth: StripePlan,
    warp: Warp,
    warp_lab: ArrayLike,
    *,
    warp_tex: float,
    weft_tex: float,
    draft: Draft = PLAIN_WEAVE,
    yarns: Mapping[str, WeftYarn] | None = None,
    weft_take_up: float = 0.0,
    view: CloseUp | None = None,
) -> NDArray[np.uint8]:
    """Draw a piece of the finished cloth with its threads, for a print at true size.

    Parameters
    ----------
    cloth : StripePlan
    warp : Warp
    warp_lab : array_like of shape (3,) or (ends, 3)
        CIELAB D65 of the warp yarn, or of every end; end 1 is at the right edge.
    warp_tex, weft_tex : float
        Yarn thickness, by Peirce's diameter, opened by washing.
    draft : Draft
    yarns : mapping of str to WeftYarn, optional
        Wefts that are variegated or marled, by colour name.
    weft_take_up : float
    view : CloseUp, optional
        The piece shown; the first 6 x 6 cm where it is not given. It is made smaller where
        the cloth is.

    Returns
    -------
    ndarray of uint8 of shape (h, w, 3)
        sRGB, pick 1 at the bottom; every pixel is the mean light of its four points.
    """
    piece = _within(view or CloseUp(), cloth, warp)
    height, width = piece.shape
    end_mm = warp.finished_width_mm / warp.ends
    pick_mm = cloth.true_finished_length_mm / cloth.total_picks
    step = MM_PER_INCH / piece.dpi / _FINER
    # Points are counted from the right and from the bottom, as ends and picks are.
    x = _places(width * _FINER, step / end_mm, piece.first_end)
    y = _places(height * _FINER, step / pick_mm, piece.first_pick)
    scene = Scene(
        grid=np.array(drawdown(draft), dtype=np.bool_),
        x=x,
        y=y,
        end_mm=end_mm,
        pick_mm=pick_mm,
        warp_mm=min(_FULL * end_mm, BLOOM * yarn_diameter_mm(warp_tex)),
        weft_mm=min(_FULL * pick_mm, BLOOM * yarn_diameter_mm(weft_tex)),
        warp_light=np.asarray(lab_to_linear_srgb(ends_lab(warp_lab, warp.ends))),
        weft=_weft(cloth, warp, yarns, weft_take_up, x, y),
        seed=piece.seed,
    )
    bands = [_pixels_of(points, width) for points in draw(scene)]
    return as_pixels(np.concatenate(bands))


def _places(points: int, step: float, first: int) -> Array:
    """Places of points in threads, the last one nearest to the edge."""
    return np.asarray((np.arange(points)[::-1] + 0.5) * step + (first - 1), dtype=np.float64)


def _pixels_of(points: NDArray[np.float32], width: int) -> Array:
    """Mean light of the points of each pixel."""
    blocks = points.reshape(-1, _FINER, width, _FINER, 3)
    return np.asarray(blocks.mean(axis=(1, 3)), dtype=np.float64)


def _within(view: CloseUp, cloth: StripePlan, warp: Warp) -> CloseUp:
    """Make the piece shown no larger than what is left of the cloth."""
    end_mm = warp.finished_width_mm / warp.ends
    pick_mm = cloth.true_finished_length_mm / cloth.total_picks
    if not (view.first_end <= warp.ends and view.first_pick <= cloth.total_picks):
        rule = f"must begin within {warp.ends} ends and {cloth.total_picks} picks"
        got = f"end {view.first_end}, pick {view.first_pick}"
        raise InputError("close-up", rule, got=got)
    return replace(
        view,
        width_mm=min(view.width_mm, (warp.ends - view.first_end + 1) * end_mm),
        height_mm=min(view.height_mm, (cloth.total_picks - view.first_pick + 1) * pick_mm),
    )


def _weft(
    cloth: StripePlan,
    warp: Warp,
    yarns: Mapping[str, WeftYarn] | None,
    weft_take_up: float,
    x: Array,
    y: Array,
) -> WeftShades:
    """Shades of the picks under the points, over the columns of points from the left."""
    first, last = int(y.min()), int(y.max())
    half = (x[0] - x[-1]) / (len(x) - 1) / 2 if len(x) > 1 else 0.0
    return weft_shades(
        cloth,
        yarns,
        columns=len(x),
        pick_length_mm=warp.width_in_reed_mm / (1 - weft_take_up),
        first_pick=first + 1,
        picks=last - first + 1,
        left=1 - (x[0] + half) / warp.ends,
        right=1 - (x[-1] - half) / warp.ends,
    )
