"""Whether the yarn of a plan lasts, asked half way through one of its cloths."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from palette.errors import InputError
from palette.measures import parse_length, parse_share
from palette.plans.options import OPTIONS
from palette.plans.plan import Plan
from palette.plans.skeins import skeins_of
from palette.plans.wishes import picks_in
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.check import Check
from palette.yarn.lasting import check_yarn
from palette.yarn.wefts import Weaving, weft_per_pick_mm

__all__ = ["check_plan", "weaving_of", "woven_and_rest"]


def weaving_of(plan: Plan) -> Weaving:
    """Give how the weft of a plan is thrown, from what it was made from."""
    asked = dict(plan.asked)

    def value(key: str) -> str:
        return str(asked.get(key, OPTIONS[key].default))

    carry, shuttles = asked.get("carry"), asked.get("shuttles")
    per_cm = plan.cloths[0].picks_per_cm
    return Weaving(
        pick_mm=weft_per_pick_mm(plan.warp, parse_share(value("weft-take-up"))),
        tail_mm=parse_length(value("tail"), zero=True).mm,
        carry_picks=None
        if carry is None
        else picks_in(parse_length(str(carry), zero=True).mm, per_cm),
        shuttles=None if shuttles is None else int(str(shuttles)),
    )


def _cloth(plan: Plan, number: int) -> StripePlan:
    if not 1 <= number <= len(plan.cloths):
        rule = f"must be from 1 to {len(plan.cloths)}, the cloths on this warp"
        raise InputError("--cloth", rule, got=f"{number}")
    return plan.cloths[number - 1]


def check_plan(
    plan: Plan,
    *,
    cloth: int = 1,
    woven_mm: float,
    left_g: Mapping[str, float],
    had_g: Mapping[str, float] | None = None,
    picks_per_cm: float | None = None,
) -> Check:
    """Check whether every colour lasts to the end of the warp; see `check_yarn`.

    Parameters
    ----------
    plan : Plan
    cloth : int
        Number of the cloth on the loom, from 1.
    woven_mm : float
        Woven of it so far, tension slackened.
    left_g, had_g : mapping of str to float
        Grams of each colour now, and at the start; a colour that `had_g` does not name began
        with the whole skeins of the plan, where it has them.
    picks_per_cm : float, optional
        Measured on the loom.

    Raises
    ------
    InputError
        There is no such cloth, or a figure is out of range.
    """
    return check_yarn(
        _cloth(plan, cloth),
        plan.yarns,
        weaving=weaving_of(plan),
        woven_mm=woven_mm,
        left_g=left_g,
        picks_per_cm=picks_per_cm,
        had_g=had_g,
        skeins_g=_whole_skeins(plan),
        done=plan.cloths[: cloth - 1],
        later=plan.cloths[cloth:],
        units=plan.units,
    )


def _whole_skeins(plan: Plan) -> dict[str, float]:
    """Grams of each weft in the whole skeins of a plan; none where it names no size."""
    pairs = zip(plan.yarns, skeins_of(plan), strict=False)
    return {yarn.colour: skeins.mass_g for yarn, skeins in pairs if yarn.use == "weft"}


def woven_and_rest(plan: Plan, check: Check, *, cloth: int = 1) -> StripePlan:
    """Give the cloth as it will really be: what is woven, then the rest of the check.

    The picks woven are numbered as they stand in the plan's stripes; their density is the
    one measured.
    """
    planned = _cloth(plan, cloth)
    woven: list[Stripe] = []
    for stripe in planned.stripes:
        picks = min(stripe.picks, check.picks_woven - stripe.first_pick + 1)
        if picks >= 1:
            woven.append(replace(stripe, picks=picks))
    return replace(
        planned, stripes=(*woven, *check.rest), picks_per_cm=check.picks_per_cm, warnings=()
    )
