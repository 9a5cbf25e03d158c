"""What would have to give for stripes that cannot be woven: each remedy was tried."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from palette.errors import WeavingError
from palette.measures import format_length
from palette.stripes.lengths import shortest_finished_mm
from palette.stripes.limits import arranged
from palette.stripes.material import totals
from palette.stripes.request import Request
from palette.swatches.palette import Palette

__all__ = ["refusal"]

_LONGEST_SEARCHED = 64  # times the cloth asked for
_LARGEST_STEP = 32  # of those offered instead


def _can(request: Request) -> bool:
    try:
        arranged(request)
    except WeavingError:
        return False
    return True


def _first(values: Iterable[int], make: Callable[[int], Request]) -> int | None:
    """First value with which the stripes can be woven."""
    return next((value for value in values if _can(make(value))), None)


def _most_that_fits(below: int, make: Callable[[int], Request]) -> int | None:
    """Largest value under one that does not fit, found by halving; the one returned was tried."""
    if below <= 1 or not _can(make(1)):
        return None
    good, bad = 1, below
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if _can(make(middle)) else (good, middle)
    return good


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
        if (good == 1 and not longer) or good > max(request.total, 64) * _LONGEST_SEARCHED:
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


def _other_lengths(
    request: Request, picks_per_cm: float, shrinkage: float, edges: int
) -> Iterator[str]:
    """Offer the cloth that is longer, or where none is, the one that is shorter."""
    for longer, word in ((True, "at least"), (False, "at most")):
        steps = _nearest_total(request, longer=longer)
        if steps is not None:
            picks = steps * request.step + edges
            length = shortest_finished_mm(picks, picks_per_cm, shrinkage)
            long = format_length(length, request.units)
            yield f"make the cloth {word} {long} long ({picks} picks)"
            return


def _other_limits(request: Request) -> Iterator[str]:
    """Offer a smaller least, fewer colours, a smaller step, or fewer repeats, one by one."""
    least = _most_that_fits(request.narrowest, lambda n: replace(request, least=n * request.step))
    count = _first(range(len(request.names) - 1, 0, -1), lambda n: _fewer(request, n))
    step = _first(
        range(min(request.step - 1, _LARGEST_STEP), 0, -1), lambda n: _stepped(request, n)
    )
    copies = _most_that_fits(request.copies, lambda n: _copied(request, n))
    if least is not None:
        yield f"lower the smallest stripe to {least * request.step} picks"
    if count is not None:
        yield f"weave at most {count} colour{'s' * (count > 1)}"
    if step is not None:
        yield f"lower the step to {step}"
    if copies is not None:
        yield f"weave {copies} repeat{'s' * (copies > 1)}"


def _stepped(request: Request, step: int) -> Request:
    return replace(request, step=step, picks=request.picks // step * step)


def _copied(request: Request, copies: int) -> Request:
    order = request.inner if request.order == "repeated" and copies == 1 else request.order
    return replace(request, repeats=copies, order=order)


def _without_edges(request: Request, total: int, edges: int) -> Iterator[str]:
    if edges and _can(replace(request, picks=total)):
        yield "leave out the hems and borders"


def _more_yarn(request: Request) -> Iterator[str]:
    """Offer more yarn of one colour, one by one; or where that is not enough, of several."""
    enough = False
    for name, picks in request.most.items():
        rest = {other: p for other, p in request.most.items() if other != name}
        if _can(replace(request, most=rest)):
            low, high = picks, request.picks
            while high - low > request.step:
                middle = (low + high) // 2
                fits = _can(replace(request, most={**rest, name: middle}))
                low, high = (low, middle) if fits else (middle, high)
            yield f"have yarn for {high} picks of {name} instead of {picks}"
            enough = True
    if request.most and not enough and _can(replace(request, most={})):
        free = replace(request, most={})
        came = totals(arranged(free), len(free.names))
        needed = {name: n * request.step for name, n in zip(free.names, came, strict=True)}
        short = [
            f"{needed[name]} picks of {name} instead of {picks}"
            for name, picks in request.most.items()
            if needed[name] > picks
        ]
        yield f"have yarn for {' and '.join(short)}"


def refusal(
    request: Request,
    cause: WeavingError,
    picks_per_cm: float,
    shrinkage: float,
    total: int,
    edges: int = 0,
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
    total, edges : int
        Picks of the cloth, and how many of them hems and borders take.

    Returns
    -------
    WeavingError
    """
    remedies = [
        *_other_lengths(request, picks_per_cm, shrinkage, edges),
        *_other_limits(request),
        *_without_edges(request, total, edges),
        *_more_yarn(request),
    ]
    colours = len(request.names)
    limits = [f"stripes of at least {request.narrowest * request.step} picks"]
    limits += [f"{request.copies} repeats"] * (request.copies > 1)
    limits += [f"at most {picks} picks of {name}" for name, picks in request.most.items()]
    thing = f"{colours} colour{'s' * (colours > 1)} in the order {request.order}"
    rule = f"must fit {' and '.join(limits)} into the cloth"
    got = f"{total} picks" + (f", of which hems and borders take {edges}" if edges else "")
    remedy = (
        f"To weave it, {', or '.join(remedies)}."
        if remedies
        else f"No one limit is enough to loosen alone: {cause.rule}."
    )
    return WeavingError(thing, rule, got=got, remedy=remedy)
