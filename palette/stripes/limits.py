"""What limits do to a plan: what each colour was moved, and what would have to give."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from palette.errors import WeavingError
from palette.measures import format_length, format_share
from palette.stripes.ground import GROUND_REASON, on_ground
from palette.stripes.lengths import shortest_finished_mm
from palette.stripes.material import Run, join_runs, totals
from palette.stripes.repeating import repeated
from palette.stripes.request import Request
from palette.swatches.palette import Palette

__all__ = ["arranged", "moved", "refusal"]

_LONGEST_SEARCHED = 64  # times the cloth asked for
_NOISE = 1e-6


def arranged(request: Request) -> tuple[Run, ...]:
    """Arrange the colours, and refuse an arrangement that breaks a limit.

    Raises
    ------
    WeavingError
        A limit cannot be kept.
    """
    material = request.material()
    if request.on_ground:
        runs = on_ground(request.way.arrange, material, request.copies)
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


def _can(request: Request) -> bool:
    try:
        arranged(request)
    except WeavingError:
        return False
    return True


def _first(values: Iterable[int], make: Callable[[int], Request]) -> int | None:
    """First value with which the stripes can be woven."""
    return next((value for value in values if _can(make(value))), None)


def _nearest_total(request: Request, *, longer: bool) -> int | None:
    """Find the total in steps nearest to the one asked for with which the stripes can be woven.

    Doubling steps away from it until one fits, then halving between the last two.
    """

    def fits(total: int) -> bool:
        return _can(replace(request, picks=total * request.step))

    bad, size = request.total, 1
    while True:
        good = bad + size if longer else max(bad - size, 1)
        if fits(good):
            break
        if good == 1 or good > max(request.total, 64) * _LONGEST_SEARCHED:
            return None
        bad, size = good, 2 * size
    while abs(good - bad) > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if fits(middle) else (good, middle)
    return good


def _fewer(request: Request, count: int) -> Request:
    """Give the same request with only the colours of the largest shares."""
    kept = sorted(request.swatches, key=lambda swatch: -swatch.share)[:count]
    whole = sum(swatch.share for swatch in kept)
    names = {swatch.name for swatch in kept}
    palette = Palette(swatches=tuple(replace(s, share=s.share / whole) for s in kept))
    return replace(
        request,
        palette=palette,
        ground=request.ground if request.ground in names else "",
        swap=request.swap if set(request.swap) <= names else (),
        most={name: picks for name, picks in request.most.items() if name in names},
    )


def _remedies(request: Request, picks_per_cm: float, shrinkage: float, edges: int) -> Iterator[str]:
    """Say, limit by limit, how far it has to be loosened on its own; each was tried."""
    for longer, word in ((True, "at least"), (False, "at most")):
        total = _nearest_total(request, longer=longer)
        if total is not None:
            picks = total * request.step
            length = shortest_finished_mm(picks + edges, picks_per_cm, shrinkage)
            long = format_length(length, request.units)
            yield f"make the cloth {word} {long} long ({picks} picks)"
            break
    if request.narrowest > 1:
        least = _first(
            (n * request.step for n in range(request.narrowest - 1, 0, -1)),
            lambda n: replace(request, least=n),
        )
        if least is not None:
            yield f"lower the smallest stripe to {least} picks"
    count = _first(range(len(request.names) - 1, 0, -1), lambda n: _fewer(request, n))
    if count is not None:
        yield f"weave at most {count} colour{'s' * (count > 1)}"
    if request.step > 1:
        step = _first(range(request.step - 1, 0, -1), lambda n: _stepped(request, n))
        if step is not None:
            yield f"lower the step to {step}"
    if request.copies > 1:
        copies = _first(range(request.copies - 1, 0, -1), lambda n: _copied(request, n))
        if copies is not None:
            yield f"weave {copies} repeat{'s' * (copies > 1)}"
    yield from _more_yarn(request)


def _stepped(request: Request, step: int) -> Request:
    return replace(request, step=step, picks=request.picks // step * step)


def _copied(request: Request, copies: int) -> Request:
    order = request.inner if request.order == "repeated" and copies == 1 else request.order
    return replace(request, repeats=copies, order=order)


def _more_yarn(request: Request) -> Iterator[str]:
    """Colours of which more yarn in hand would be enough, one by one."""
    for name, picks in request.most.items():
        rest = {other: p for other, p in request.most.items() if other != name}
        if _can(replace(request, most=rest)):
            low, high = picks, request.picks
            while high - low > request.step:
                middle = (low + high) // 2
                fits = _can(replace(request, most={**rest, name: middle}))
                low, high = (low, middle) if fits else (middle, high)
            yield f"have yarn for {high} picks of {name} instead of {picks}"


def refusal(
    request: Request, cause: WeavingError, picks_per_cm: float, shrinkage: float, edges: int = 0
) -> WeavingError:
    """Build the error for stripes that cannot be woven, naming the nearest that can.

    Parameters
    ----------
    request : Request
        What was asked.
    cause : WeavingError
        What the arrangement broke.
    picks_per_cm, shrinkage : float
        Give picks as a finished length.
    edges : int
        Picks of hems and borders, which a finished length also holds.

    Returns
    -------
    WeavingError
    """
    remedies = list(_remedies(request, picks_per_cm, shrinkage, edges))
    colours = len(request.names)
    limits = [f"stripes of at least {request.narrowest * request.step} picks"]
    limits += [f"{request.copies} repeats"] * (request.copies > 1)
    limits += [f"at most {picks} picks of {name}" for name, picks in request.most.items()]
    thing = f"{colours} colour{'s' * (colours > 1)} in the order {request.order}"
    rule = f"must fit {' and '.join(limits)} into the cloth"
    remedy = (
        f"To weave it, {', or '.join(remedies)}." if remedies else f"{cause.rule.capitalize()}."
    )
    return WeavingError(thing, rule, got=f"{request.picks} picks", remedy=remedy)


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
