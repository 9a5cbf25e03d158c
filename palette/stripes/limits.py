"""What limits do to a plan: kept in the arrangement, and what each colour was moved."""

from __future__ import annotations

from collections.abc import Callable

from palette.errors import WeavingError
from palette.measures import format_share
from palette.stripes.ground import GROUND_REASON, on_ground
from palette.stripes.material import Run, join_runs, totals
from palette.stripes.repeating import repeated
from palette.stripes.request import Request

__all__ = ["arranged", "moved"]

_NOISE = 1e-6


def arranged(request: Request) -> tuple[Run, ...]:
    """Arrange the colours, and refuse an arrangement that breaks a limit.

    Raises
    ------
    WeavingError
        A limit cannot be kept.
    """
    if request.total < request.copies:
        rule = f"must have at least one step of {request.step} picks for each repeat"
        raise WeavingError("stripes", rule, got=f"{request.picks} picks")
    material = request.material()
    if request.on_ground:
        way = request.way
        runs = on_ground(way.arrange, material, request.copies, mirrors=way.mirrors)
    else:
        runs = join_runs(repeated(request.way.arrange, material, request.copies))
    for run in runs:
        if run.steps < request.narrowest:
            rule = f"must be at least {request.narrowest * request.step} picks"
            raise WeavingError(request.names[run.colour], rule, got=f"{run.steps * request.step}")
    for i, steps in enumerate(totals(runs, material.count)):
        if not 1 <= steps <= request.caps[i]:
            rule = f"must be from 1 step to {request.caps[i] * request.step} picks"
            raise WeavingError(request.names[i], rule, got=f"{steps * request.step} picks")
    return runs


def moved(
    request: Request, picks_of: Callable[[str], int], *, between: bool = False
) -> tuple[str, ...]:
    """List each colour that is more than one step from its share, with figures and reason.

    Parameters
    ----------
    request : Request
        What was asked.
    picks_of : callable
        Picks that a colour came to in the stripes.
    between : bool
        Whether yarns between the colours take some of their picks.

    Returns
    -------
    tuple of str
    """
    steps = request.material().steps()
    lines = []
    for i, name in enumerate(request.names):
        asked, came = request.share(i) * request.picks, picks_of(name)
        if abs(came - asked) > request.step + _NOISE:
            reasons = [_limit(request, i, steps[i] * request.step, asked)]
            if abs(came - steps[i] * request.step) > request.step + _NOISE or not reasons[0]:
                reasons += _bindings(request, between=between)
            lines.append(
                f"{name}: {came} picks, where its share of {format_share(request.share(i))} "
                f"asks for {asked:.1f}: {' and '.join(filter(None, reasons))}."
            )
    return tuple(lines)


def _limit(request: Request, index: int, held: int, asked: float) -> str:
    """Say which limit alone moves a colour: its yarn in hand, the smallest stripe, or another's."""
    name = request.names[index]
    if abs(held - asked) <= request.step + _NOISE:
        return ""
    if name in request.most and asked > request.most[name]:
        return f"there is yarn for {request.most[name]} picks"
    if held > asked and held == request.narrowest * request.step:
        return f"the smallest stripe is {held} picks"
    return "limits moved other colours"


def _bindings(request: Request, *, between: bool) -> list[str]:
    """Say what about the arrangement moves colours from their shares."""
    return [
        *[f"all {request.copies} repeats are alike"] * (request.copies > 1),
        *[request.way.binds] * bool(request.way.binds),
        *[GROUND_REASON] * request.on_ground,
        *["yarns between the colours take the rest"] * between,
    ]
