"""What every order promises, over palettes and limits of all kinds."""

import itertools
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.stripes.limits import arranged
from palette.stripes.lines import LINES
from palette.stripes.material import Run, totals
from palette.stripes.orders import ORDERS, order_named
from palette.stripes.request import Request
from palette.swatches.palette import Palette
from tests.strategies import palettes

EXACT = [name for name, order in ORDERS.items() if not order.binds and order.repeats == 1]


@st.composite
def requests(draw: st.DrawFn, order: str = "", repeats: int = 1) -> Request:
    """Draw requests that may or may not be woven."""
    step = draw(st.integers(1, 6))
    return Request(
        palette=draw(palettes()),
        picks=step * draw(st.integers(1, 600)),
        step=step,
        least=draw(st.integers(0, 20)),
        order=order or draw(st.sampled_from(list(ORDERS))),
        inner=draw(st.sampled_from(list(LINES))),
        seed=draw(st.integers(0, 1000)),
        repeats=draw(st.integers(1, repeats)),
    )


def woven(request: Request) -> tuple[Run, ...]:
    """Arrange, or pass the example over where it cannot be woven."""
    try:
        return arranged(request)
    except WeavingError:
        assume(False)
        raise


def widths(runs: tuple[Run, ...], colour: int) -> list[int]:
    return [run.steps for run in runs if run.colour == colour]


@given(requests(repeats=5))
def test_sum_is_exact_every_colour_is_there_and_no_stripe_is_too_small(request: Request) -> None:
    runs = woven(request)
    assert sum(run.steps for run in runs) == request.total
    assert {run.colour for run in runs} == set(range(len(request.names)))
    assert min(run.steps for run in runs) * request.step >= request.least
    assert all(a.colour != b.colour for a, b in itertools.pairwise(runs))


@given(st.sampled_from(EXACT).flatmap(requests))
def test_each_colour_is_within_one_step_of_its_share_unless_it_cannot_be(
    request: Request,
) -> None:
    came = totals(woven(request), len(request.names))
    asked = [request.share(i) * request.total for i in range(len(came))]
    if min(asked) >= request.narrowest:
        assert all(abs(a - b) < 1 + 1e-6 for a, b in zip(came, asked, strict=True))
    assert came == request.material().steps()


@given(requests(repeats=4))
def test_the_same_request_gives_the_same_stripes(request: Request) -> None:
    assert woven(request) == arranged(request)


@given(requests("mirrored"))
def test_mirrored_is_a_palindrome_and_moves_no_colour_two_steps(request: Request) -> None:
    runs = woven(request)
    assert runs == runs[::-1]
    asked = [request.share(i) * request.total for i in range(len(request.names))]
    if min(asked) >= 2 * request.narrowest:
        came = totals(runs, len(asked))
        assert all(abs(a - b) < 2 + 1e-6 for a, b in zip(came, asked, strict=True))


@given(requests("counterchange"))
def test_counterchange_answers_with_two_colours_exchanged(request: Request) -> None:
    runs = woven(request)
    assume(len(request.names) > 1)
    answers = [
        (a.colour, b.colour) for a, b in zip(runs, runs[::-1], strict=True) if a.colour != b.colour
    ]
    swapped = {frozenset(colours) for colours in answers}
    assert len(swapped) == 1
    one, other = swapped.pop()
    apart = [abs(a.steps - b.steps) for a, b in zip(runs, runs[::-1], strict=True)]
    assert sum(apart) <= 2  # an odd step at the middle, seen from both sides
    came = totals(runs, len(request.names))
    assert abs(came[one] - came[other]) <= 1


@given(requests("counterchange"), st.data())
def test_the_colours_that_change_places_can_be_named(request: Request, data: st.DataObject) -> None:
    assume(len(request.names) > 1)
    swap = tuple(data.draw(st.permutations(request.names)))[:2]
    runs = woven(replace(request, swap=swap))
    middle = {request.names[run.colour] for run in (runs[0], runs[-1])}
    came = totals(runs, len(request.names))
    first, second = (request.names.index(name) for name in swap)
    assert abs(came[first] - came[second]) <= 1
    assert len(middle) == 1 or middle == set(swap)


@given(requests("graded"))
def test_graded_widens_evenly(request: Request) -> None:
    runs = woven(request)
    for colour in range(len(request.names)):
        series = widths(runs, colour)
        unit = sum(series) / sum(range(1, len(series) + 1))
        assert series == sorted(series)
        assert all(abs(w - unit * n) < 1 + 1e-6 for n, w in enumerate(series, start=1))


@given(requests("fibonacci"))
def test_fibonacci_widths_grow_or_shrink_in_the_series(request: Request) -> None:
    runs, series = woven(request), (1, 1, 2, 3, 5, 8)
    for place, colour in enumerate(LINES[request.inner](request.material())):
        came = widths(runs, colour)[:: -1 if place % 2 else 1]
        unit = sum(came) / sum(series[: len(came)])
        assert came == sorted(came)
        assert all(
            abs(w - unit * n) < 1 + 1e-6 or w == request.narrowest
            for n, w in zip(series, came, strict=False)
        )


@given(requests("scattered"))
def test_scattered_gaps_differ_by_at_most_one(request: Request) -> None:
    runs = woven(request)
    ground = request.material().ground
    gaps = widths(runs, ground)
    assert max(gaps) - min(gaps) <= 1
    assert len(request.names) == 1 or [run.colour == ground for run in runs] == [
        place % 2 == 0 for place in range(len(runs))
    ]
    for colour in set(range(len(request.names))) - {ground}:
        accents = widths(runs, colour)
        assert max(accents) - min(accents) <= 1


@given(requests("hit-and-miss"))
def test_hit_and_miss_never_throws_a_colour_twice_running(request: Request) -> None:
    runs = woven(request)
    assert all(a.colour != b.colour for a, b in itertools.pairwise(runs))
    assert totals(runs, len(request.names)) == request.material().steps()


def test_another_seed_is_another_cloth(hedge: Palette) -> None:
    cloths = {
        arranged(Request(palette=hedge, picks=1600, order="hit-and-miss", seed=seed))
        for seed in range(20)
    }
    assert len(cloths) == 20


@pytest.mark.parametrize("name", ORDERS)
def test_every_order_says_what_it_does_in_a_line(name: str) -> None:
    order = order_named(name)
    assert order.name == name
    assert re.fullmatch(r"[a-z][^.]{10,80}", order.line)


def test_unknown_order_is_refused_with_the_list() -> None:
    with pytest.raises(InputError, match=r"order: must be one of photo, light-dark.*'random'"):
        order_named("random")


@pytest.mark.parametrize(("typed", "meant"), [("miror", "mirrored"), ("Nearst", "nearest")])
def test_a_slip_in_the_name_of_an_order_is_answered(typed: str, meant: str) -> None:
    with pytest.raises(InputError, match=rf"got '{typed}'\. Did you mean {meant}\?"):
        order_named(typed)


@settings(max_examples=20)
@given(palettes(max_size=1), st.sampled_from(list(ORDERS)))
def test_one_colour_is_one_stripe(palette: Palette, order: str) -> None:
    assert arranged(Request(palette=palette, picks=101, step=1, order=order)) == (Run(0, 101),)
