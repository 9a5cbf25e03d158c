import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.stripes.limits import arranged, moved
from palette.stripes.material import totals
from palette.stripes.orders import ORDERS
from palette.stripes.request import Request
from palette.swatches.palette import Palette
from tests.strategies import palettes


@settings(max_examples=150)
@given(
    palettes(),
    st.sampled_from(list(ORDERS)),
    st.integers(20, 600),
    st.integers(1, 3),
    st.data(),
)
def test_yarn_in_hand_is_never_exceeded(
    palette: Palette, order: str, steps: int, repeats: int, data: st.DataObject
) -> None:
    most = {s.name: data.draw(st.integers(2, 2 * steps)) for s in palette.swatches}
    request = Request(palette=palette, picks=2 * steps, order=order, repeats=repeats, most=most)
    try:
        came = totals(arranged(request), len(request.names))
    except WeavingError:
        return
    assert sum(came) == steps
    for name, count in zip(request.names, came, strict=True):
        assert 2 <= 2 * count <= most[name]


def test_fits_exactly_when_the_yarn_in_hand_is_just_enough(hedge: Palette) -> None:
    most = {"moss": 100, "fern": 100, "bark": 40, "sky": 40, "straw": 40, "plum": 40}
    most |= {"primrose": 20, "white": 20}
    request = Request(palette=hedge, picks=400, most=most)
    came = totals(arranged(request), 8)
    assert {name: 2 * n for name, n in zip(request.names, came, strict=True)} == most
    with pytest.raises(WeavingError, match="parts: must come to at most 200 together; got 201"):
        arranged(Request(palette=hedge, picks=402, most=most))


def test_reasons_name_what_bound_each_colour(hedge: Palette) -> None:
    request = Request(palette=hedge, picks=1600, order="mirrored", most={"moss": 300}, repeats=3)
    runs = arranged(request)
    came = dict(zip(request.names, (2 * n for n in totals(runs, 8)), strict=True))
    notes = moved(request, came.__getitem__)
    assert notes[0] == (
        "moss: 300 picks, where its share of 30.0 % asks for 480.0: there is yarn for 300 picks."
    )
    assert all("limits moved other colours" in note for note in notes[1:])
    free = Request(palette=hedge, picks=1602, order="mirrored", repeats=7)
    came = dict(zip(free.names, (2 * n for n in totals(arranged(free), 8)), strict=True))
    reason = ": all 7 repeats are alike and both halves of a mirrored cloth must match."
    assert all(note.endswith(reason) for note in moved(free, came.__getitem__))
    assert moved(free, came.__getitem__)


def test_fewer_steps_than_repeats_are_refused(pair: Palette) -> None:
    with pytest.raises(WeavingError, match="must have at least one step of 2 picks for each repe"):
        arranged(Request(palette=pair, picks=4, repeats=3))
