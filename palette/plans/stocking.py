"""A plan against the yarn shelf: what is used, what is short, and what the shelf allows."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from palette.plans.making import reckoner_of
from palette.plans.plan import Plan
from palette.swatches.shelf import Shelf
from palette.yarn.stock import StockLine, stock_lines
from palette.yarn.stock_plans import StockPlan, longest_plan, nearest_plan

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["Fit", "held_on_shelf", "lines_of", "plan_within_shelf"]

Fit = Literal["nearest", "longest"]
_AS_IT_LIES = "The yarn is taken as it lies on the shelf, so it is not rounded up to whole skeins."


def held_on_shelf(plan: Plan, shelf: Shelf) -> dict[str, float]:
    """Give the grams of each yarn of a plan that lie on the shelf, matched by name.

    A yarn of that name without grams counts as any amount, and so does a warp that the shelf
    does not name: it is bought for the plan. A weft that is not there counts as none.
    """
    held = {yarn.colour: 0.0 if yarn.use == "weft" else math.inf for yarn in plan.yarns}
    found: dict[str, float] = {}
    for row in shelf.yarns:
        if row.name in held:
            mass = math.inf if row.mass_g is None else row.mass_g
            found[row.name] = found.get(row.name, 0.0) + mass
    return held | found


def lines_of(plan: Plan, shelf: Shelf) -> tuple[StockLine, ...]:
    """Set what a plan needs beside what is on the shelf."""
    return stock_lines(plan.yarns, held_on_shelf(plan, shelf))


def plan_within_shelf(plan: Plan, brief: Brief, shelf: Shelf, fit: Fit = "nearest") -> Plan:
    """Make the plan nearest to the wish, or the longest cloth, that the shelf allows.

    Parameters
    ----------
    plan : Plan
        The wish; its first cloth is the one that gives way.
    brief : Brief
        What the plan was made from.
    shelf : Shelf
    fit : {"nearest", "longest"}

    Raises
    ------
    WeavingError
        The shelf does not allow a single stripe.
    """
    ways: dict[Fit, Callable[..., StockPlan]] = {"nearest": nearest_plan, "longest": longest_plan}
    fitted = ways[fit](
        plan.cloths,
        plan.warp,
        reckon=reckoner_of(brief, plan.warp_stripes),
        held_g=held_on_shelf(plan, shelf),
        units=plan.units,
    )
    asked = tuple((key, value) for key, value in plan.asked if key != "skein")
    notes = () if asked == plan.asked else (_AS_IT_LIES,)
    return replace(
        plan,
        cloths=fitted.cloths,
        warp=fitted.warp,
        yarns=fitted.amounts,
        asked=asked,
        warnings=(*plan.warnings, *fitted.warnings, *notes),
    )
