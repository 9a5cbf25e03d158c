"""Many arrangements of one palette, and the plan of the one that is picked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from palette.plans.making import carry_picks_of, plan_from_stripes
from palette.plans.plan import Plan
from palette.plans.wishes import edges_of
from palette.stripes.choices import Choice, choices, pick
from palette.swatches.palette import Palette

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["arrangements_of", "plan_of_choice"]


def arrangements_of(brief: Brief, palette: Palette) -> tuple[Choice, ...]:
    """Arrange a palette in many ways, with the limits of a brief.

    Raises
    ------
    InputError, WeavingError
        A value out of range, or a palette that cannot be woven in this length.
    """
    return choices(
        palette,
        length_mm=brief.length.mm,
        picks_per_cm=brief.picks.per_cm,
        shrinkage_length=brief.shrinkage_along,
        step=brief.step,
        least=brief.least,
        direction=brief.direction,
        edges=edges_of(brief, palette),
        shuttles=brief.shuttles,
        carry_picks=carry_picks_of(brief),
        seed=brief.seed,
    )


def plan_of_choice(brief: Brief, made: tuple[Choice, ...], number: int) -> Plan:
    """Make the whole plan of the arrangement with this number; InputError if there is none."""
    cloth = replace(pick(made, number), name=brief.name or "")
    return plan_from_stripes(brief, (cloth,))
