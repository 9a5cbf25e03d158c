"""The dye day of a plan: what is asked in words, and what is dyed at all."""

from __future__ import annotations

from collections.abc import Mapping

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_day import DyeDay
from palette.dyeing.planning import plan_dye_day
from palette.plans.plan import Plan

__all__ = ["dye_day_of"]


def dye_day_of(plan: Plan, wishes: Mapping[str, object]) -> DyeDay:
    """Plan the dye day of a plan.

    Parameters
    ----------
    plan : Plan
        Its fibre is used where `wishes` names none.
    wishes : mapping
        Fields of `DyeAsked` that are set otherwise than by default.

    Raises
    ------
    InputError
        A value out of range, or a colour that the plan does not have.
    WeavingError
        A skein that fits no pot.
    """
    fibre = str(dict(plan.asked).get("fibre", "cotton"))
    return plan_dye_day(plan.yarns, asked=DyeAsked(**{"fibre": fibre, **wishes}))  # type: ignore[arg-type]
