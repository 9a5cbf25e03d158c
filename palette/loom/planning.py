"""From a finished width and woven lengths to a warp that can be wound."""

from __future__ import annotations

import math
from dataclasses import replace

from palette.errors import InputError
from palette.loom.defaults import (
    DRAW_IN,
    FRINGE_MM,
    GAP_MM,
    LOOM_WASTE_MM,
    SAMPLING_MM,
    SELVEDGE_ENDS,
    SHRINKAGE_WIDTH,
    SLEY_REPEAT,
    TAKE_UP,
)
from palette.loom.warp import Warp
from palette.whole import whole_number

__all__ = ["plan_warp", "warp_length_mm", "with_cloths"]

_DUST = 6  # decimals beyond which a fraction of an end is rounding of the machine


def _check_share(name: str, value: float) -> None:
    if not 0 <= value < 1:
        raise InputError(name, "must be from 0 to under 1", got=f"{value}")


def _check_length(name: str, value: float, *, zero: bool = True) -> None:
    if not (0 <= value < math.inf and (zero or value > 0)):
        rule = "must be 0 or more, and finite" if zero else "must be more than 0, and finite"
        raise InputError(name, rule, got=f"{value} mm")


def warp_length_mm(
    cloth_lengths_mm: tuple[float, ...],
    *,
    take_up: float = TAKE_UP.value,
    fringe_mm: float = FRINGE_MM.value,
    gap_mm: float = GAP_MM.value,
    sampling_mm: float = SAMPLING_MM.value,
    loom_waste_mm: float = LOOM_WASTE_MM.value,
) -> float:
    """Length of warp to wind for all cloths on it.

    What is woven is divided by (1 - take-up); fringes at both ends of each cloth, the gaps
    between cloths and the loom waste are added as they are.

    Parameters
    ----------
    cloth_lengths_mm : tuple of float
        Woven length of each cloth, tension slackened.
    take_up : float
        Share of the warp's own length lost to interlacing, in [0, 1).
    fringe_mm, gap_mm, sampling_mm, loom_waste_mm : float
        Fringe at each end of each cloth; gap between neighbouring cloths; woven for sampling;
        warp that cannot be woven.

    Returns
    -------
    float
        Millimetres.

    Raises
    ------
    InputError
        Where a value is out of range.

    Examples
    --------
    >>> round(warp_length_mm((2000.0,), take_up=0.08, fringe_mm=150, loom_waste_mm=750), 1)
    3223.9
    """
    if not cloth_lengths_mm:
        raise InputError("warp", "must have at least one cloth on it", got="none")
    for number, length in enumerate(cloth_lengths_mm, start=1):
        _check_length(f"woven length of cloth {number}", length, zero=False)
    _check_share("take-up", take_up)
    extras = {"fringe": fringe_mm, "gap": gap_mm, "sampling": sampling_mm}
    for name, value in {**extras, "loom waste": loom_waste_mm}.items():
        _check_length(name, value)
    cloths = len(cloth_lengths_mm)
    woven = math.fsum(cloth_lengths_mm) + sampling_mm
    return woven / (1 - take_up) + 2 * cloths * fringe_mm + (cloths - 1) * gap_mm + loom_waste_mm


def _ends(width_in_reed_mm: float, ends_per_cm: float, sley_repeat: int, doubled: int) -> int:
    """Count the ends that fill the width, rounded up to whole sley repeats."""
    if not 0 < ends_per_cm < math.inf:
        raise InputError("sett", "must be more than 0, and finite", got=f"{ends_per_cm} per cm")
    sley_repeat = whole_number("sley repeat", sley_repeat, least=1)
    exact = width_in_reed_mm / 10 * ends_per_cm
    ends = math.ceil(round(exact / sley_repeat, _DUST)) * sley_repeat
    if not 0 <= doubled <= ends:
        rule = f"must be from 0 to {ends // 2} of the {ends} ends"
        raise InputError("selvedge ends at each side", rule, got=f"{doubled // 2}")
    return ends


def plan_warp(
    *,
    finished_width_mm: float,
    ends_per_cm: float,
    cloth_lengths_mm: tuple[float, ...],
    shrinkage_width: float = SHRINKAGE_WIDTH.value,
    draw_in: float = DRAW_IN.value,
    take_up: float = TAKE_UP.value,
    fringe_mm: float = FRINGE_MM.value,
    gap_mm: float = GAP_MM.value,
    sampling_mm: float = SAMPLING_MM.value,
    loom_waste_mm: float = LOOM_WASTE_MM.value,
    sley_repeat: int = int(SLEY_REPEAT.value),
    selvedge_ends: int = int(SELVEDGE_ENDS.value),
    as_filled: bool = False,
) -> Warp:
    """Plan the warp: its ends, its width in the reed and its length.

    Shrinkage and draw-in are measured on the larger size, so both divide: the woven width is
    finished / (1 - shrinkage), the width in the reed is woven / (1 - draw-in).

    Parameters
    ----------
    finished_width_mm : float
        Width after washing.
    ends_per_cm : float
        Sett in the reed.
    cloth_lengths_mm : tuple of float
        Woven length of each cloth, tension slackened.
    shrinkage_width, draw_in, take_up : float
        Shares in [0, 1): of the woven width, of the width in the reed, of the warp yarn's own
        length.
    fringe_mm : float
        At each end of each cloth.
    gap_mm : float
        Between neighbouring cloths.
    sampling_mm : float
        Woven for sampling before the first cloth.
    loom_waste_mm : float
        Warp that cannot be woven.
    sley_repeat : int
        Ends in one repeat of the sley order; the ends are rounded up to fill it.
    selvedge_ends : int
        Ends at each selvedge that are doubled, two in one heddle; each adds one end.
    as_filled : bool
        Whether the widths are those that the whole number of ends gives: True where a reed is
        chosen, so that ends / sett is the width in the reed. False: those that were asked.

    Returns
    -------
    Warp

    Raises
    ------
    InputError
        Where a value is out of range.

    Notes
    -----
    The order of the steps is that of Taylor, *Cotton Weaving and Designing*, and Brooks,
    *Cotton Manufacturing*.

    Examples
    --------
    >>> warp = plan_warp(
    ...     finished_width_mm=250, ends_per_cm=20 / 2.54, cloth_lengths_mm=(2000.0,),
    ...     shrinkage_width=0.1, draw_in=0.06, take_up=0.08, fringe_mm=150, loom_waste_mm=750,
    ... )
    >>> warp.ends, round(warp.width_in_reed_mm, 2), round(warp.length_mm, 1)
    (234, 295.51, 3223.9)
    """
    _check_length("finished width", finished_width_mm, zero=False)
    _check_share("shrinkage in width", shrinkage_width)
    _check_share("draw-in", draw_in)
    woven_width_mm = finished_width_mm / (1 - shrinkage_width)
    width_in_reed_mm = woven_width_mm / (1 - draw_in)
    doubled = 2 * whole_number("selvedge ends at each side", selvedge_ends)
    ends = _ends(width_in_reed_mm, ends_per_cm, sley_repeat, doubled)
    if as_filled:
        width_in_reed_mm = ends / ends_per_cm * 10
        woven_width_mm = width_in_reed_mm * (1 - draw_in)
        finished_width_mm = woven_width_mm * (1 - shrinkage_width)
    along = {
        "take_up": take_up,
        "fringe_mm": fringe_mm,
        "gap_mm": gap_mm,
        "sampling_mm": sampling_mm,
        "loom_waste_mm": loom_waste_mm,
    }
    return Warp(
        ends=ends + doubled,
        ends_per_cm=ends_per_cm,
        width_in_reed_mm=width_in_reed_mm,
        woven_width_mm=woven_width_mm,
        finished_width_mm=finished_width_mm,
        length_mm=warp_length_mm(cloth_lengths_mm, **along),
        cloth_lengths_mm=cloth_lengths_mm,
        draw_in=draw_in,
        shrinkage_width=shrinkage_width,
        doubled_ends=doubled,
        **along,
    )


def with_cloths(warp: Warp, cloth_lengths_mm: tuple[float, ...]) -> Warp:
    """Lengthen or shorten a warp for other cloths, everything else as it was.

    Parameters
    ----------
    warp : Warp
    cloth_lengths_mm : tuple of float
        Woven length of each cloth.

    Returns
    -------
    Warp

    Examples
    --------
    >>> warp = plan_warp(finished_width_mm=250, ends_per_cm=8, cloth_lengths_mm=(2000.0,))
    >>> round(with_cloths(warp, (2920.0,)).length_mm - warp.length_mm, 6)
    1000.0
    """
    length = warp_length_mm(
        cloth_lengths_mm,
        take_up=warp.take_up,
        fringe_mm=warp.fringe_mm,
        gap_mm=warp.gap_mm,
        sampling_mm=warp.sampling_mm,
        loom_waste_mm=warp.loom_waste_mm,
    )
    return replace(warp, cloth_lengths_mm=cloth_lengths_mm, length_mm=length)
