import itertools

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.stripes.ground import symmetric_split
from palette.stripes.limits import arranged
from palette.stripes.orders import ORDERS
from palette.stripes.planning import plan_stripes
from palette.stripes.request import Request
from palette.swatches.palette import Palette
from tests.strategies import palettes


@given(st.integers(0, 500), st.integers(1, 60))
def test_split_is_even_and_reads_alike_from_both_ends_where_it_can(total: int, count: int) -> None:
    parts = symmetric_split(total, count)
    assert (len(parts), sum(parts)) == (count, total)
    assert max(parts) - min(parts) <= 1
    assert parts == parts[::-1] or (total % 2 and count % 2 == 0)


@given(
    palettes(),
    st.integers(20, 800),
    st.sampled_from([name for name, order in ORDERS.items() if not order.has_ground]),
    st.integers(0, 6),
    st.integers(1, 3),
    st.data(),
)
def test_ground_stands_between_all_the_others(
    palette: Palette, steps: int, order: str, least: int, repeats: int, data: st.DataObject
) -> None:
    ground = data.draw(st.sampled_from(palette.swatches)).name
    request = Request(
        palette=palette,
        picks=2 * steps,
        order=order,
        ground=ground,
        least=least,
        repeats=repeats,
    )
    try:
        runs = arranged(request)
    except WeavingError:
        assume(False)
    colour = request.names.index(ground)
    assert [run.colour == colour for run in runs] == [i % 2 == 0 for i in range(len(runs))]
    gaps = [run.steps for run in runs if run.colour == colour]
    inner = gaps if request.copies == 1 else gaps[1:-1]
    assert not inner or max(inner) - min(inner) <= 1
    assert all(a.colour != b.colour for a, b in itertools.pairwise(runs))


def test_ground_that_cannot_reach_says_what_would_help(hedge: Palette) -> None:
    with pytest.raises(WeavingError, match="make the cloth at least"):
        plan_stripes(hedge, length_mm=60, picks_per_cm=8, least=6, ground="white")


def test_ground_with_too_little_yarn_says_how_much_more(hedge: Palette) -> None:
    with pytest.raises(WeavingError, match="have yarn for 16 picks of moss instead of 10"):
        plan_stripes(hedge, length_mm=900, picks_per_cm=8, ground="moss", most={"moss": 10})


def test_ground_must_not_change_places(hedge: Palette) -> None:
    request = Request(
        palette=hedge, picks=800, order="counterchange", ground="moss", swap=("moss", "fern")
    )
    with pytest.raises(WeavingError, match="ground: must not be one of the two colours that"):
        arranged(request)
