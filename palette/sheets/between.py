"""What to do on the warp before the first cloth, between the cloths, and after the last."""

from __future__ import annotations

from palette.measures import Units, format_length, format_yarn_length
from palette.plans.plan import Plan
from palette.sheets.legend import cloth_title

__all__ = ["after_cloth", "before_cloth", "sampling_words"]


def before_cloth(plan: Plan, index: int) -> str:
    """Say what comes before the first pick of a cloth; nothing where it is begun at once.

    Sampling is woven first, before the first cloth alone. What lies before a later cloth is said
    after the one before it.

    Parameters
    ----------
    plan : Plan
    index : int
        Of the cloth, from 0.
    """
    if index:
        return ""
    sampling, fringe = plan.warp.sampling_mm, plan.warp.fringe_mm
    words = f"leave {_length(fringe, plan.units)} of warp for the fringe" if fringe else ""
    if sampling:
        first = f"First weave {_length(sampling, plan.units)} for sampling"
        return f"{first}, then {words}." if words else f"{first}."
    return f"{words.capitalize()}." if words else ""


def after_cloth(plan: Plan, index: int) -> str:
    """Say what comes after the last pick of a cloth, up to the first pick of the next one.

    Two picks of another colour show where to cut cloths apart that follow at once (common
    practice).

    Parameters
    ----------
    plan : Plan
    index : int
        Of the cloth, from 0.
    """
    fringe, gap, units = plan.warp.fringe_mm, plan.warp.gap_mm, plan.units
    if index == len(plan.cloths) - 1:
        return f"Leave {_length(fringe, units)} of warp for the fringe." if fringe else ""
    title = cloth_title(plan, index + 1)
    if not fringe and not gap:
        return f"Throw two picks of another colour to cut along, then {title}."
    parts = (
        f", for both fringes and {_length(gap, units)} between them"
        if gap
        else ", for both fringes"
    )
    return (
        f"Leave {_length(2 * fringe + gap, units)} of warp{parts if fringe else ''}, then {title}."
    )


def sampling_words(plan: Plan) -> str:
    """Say how much of the weft is for sampling; nothing where there is none."""
    used = [yarn for yarn in plan.yarns if yarn.sampling_length_m > 0]
    if not used:
        return ""
    units = plan.units
    metres = [(yarn.colour, yarn.sampling_length_m * (1 + yarn.allowance)) for yarn in used]
    each = ", ".join(f"{colour} {format_yarn_length(m, units)}" for colour, m in metres)
    total = format_yarn_length(sum(m for _, m in metres), units)
    woven = _length(plan.warp.sampling_mm, units)
    return f"Of the weft, {total} is for {woven} of sampling in the same shares: {each}."


def _length(mm: float, units: Units) -> str:
    """Write a length without a needless decimal: 20 cm."""
    return format_length(mm, units).replace(".0 ", " ")
