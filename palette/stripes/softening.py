"""The body of a plan with its soft changes, and what they and the shuttles ask of the weaver."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from palette.errors import WeavingError
from palette.stripes.handling import check_limits, handling_of, usual_carry_picks
from palette.stripes.material import Run
from palette.stripes.plan import StripePlan
from palette.stripes.request import Request
from palette.stripes.soft import Soft, soften
from palette.stripes.weft import Piece, Weft

__all__ = ["check_handling", "softened", "with_handling_notes"]

SOFT_SHUTTLES = 2  # alternate picks of two colours


def check_handling(soft: Soft | None, shuttles: int | None, carry_picks: int | None) -> None:
    """Refuse limits out of range, and alternating picks with one shuttle."""
    check_limits(carry_picks, shuttles)
    if soft is None or soft.way != "alternate" or shuttles is None or shuttles >= SOFT_SHUTTLES:
        return
    raise WeavingError(
        "soft changes",
        f"must have {SOFT_SHUTTLES} shuttles in play",
        got=f"{shuttles}",
        remedy=f"Allow {SOFT_SHUTTLES - shuttles} shuttle more, or weave a yarn between.",
    )


def softened(
    request: Request, runs: Iterable[Run], soft: Soft | None
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """Give the runs their yarns and soft changes; pieces in weaving order, and notes."""
    wefts = [Weft.of(swatch) for swatch in request.swatches]
    pieces = tuple(Piece(wefts[run.colour], run.steps * request.step) for run in runs)
    if soft is None:
        return pieces, ()
    return soften(pieces, soft, step=request.step, narrowest=request.narrowest)


def _longest_wait(plan: StripePlan) -> int:
    """Give the picks over which one colour of a soft change waits for the other, at most."""
    waits = [
        middle.picks
        for before, middle, after in zip(
            plan.stripes, plan.stripes[1:], plan.stripes[2:], strict=False
        )
        if middle.role == "blend" and before.colour == after.colour
    ]
    return max(waits, default=0)


def with_handling_notes(plan: StripePlan) -> StripePlan:
    """Settle how far wefts are carried, and say where shuttles or carrying make for more cuts."""
    notes = []
    wait = _longest_wait(plan)
    usual = usual_carry_picks(plan.picks_per_cm)
    if plan.carry_picks is None and wait > usual:
        plan = replace(plan, carry_picks=wait)
        notes.append(
            f"soft changes: wefts are carried past up to {wait} picks, more than the usual {usual}."
        )
    elif plan.carry_picks is not None and wait > plan.carry_picks:
        notes.append(
            f"soft changes: a weft waits for up to {wait} picks, more than the {plan.carry_picks} "
            "that it may be carried; it is cut there."
        )
    if plan.shuttles is not None:
        few = handling_of(plan)
        free = handling_of(replace(plan, shuttles=None))
        notes += [
            f"{colour}: started {count} times instead of {free.starts_of(colour)}, because at "
            f"most {plan.shuttles} shuttle{'s are' if plan.shuttles > 1 else ' is'} in play."
            for colour, count in few.starts
            if count > free.starts_of(colour)
        ]
    return replace(plan, warnings=(*plan.warnings, *notes))
