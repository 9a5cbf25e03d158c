"""Stripes that were equal stay equal, and the whole still comes out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.stripes.apportion import apportion
from palette.stripes.equal_widths import equal_widths

MOTIF = (9, 3, 6, 2, 6, 3, 10, 4, 7, 4, 10, 5, 9, 3, 6, 2, 6, 3, 10)


def _by_width(widths: tuple[int, ...], steps: tuple[int, ...]) -> dict[int, set[int]]:
    return {
        width: {s for w, s in zip(widths, steps, strict=True) if w == width} for width in widths
    }


@pytest.mark.parametrize("units", [300, 666, 667, 1000, 1500, 2000])
def test_a_motif_keeps_its_equal_stripes_equal(units: int) -> None:
    steps = equal_widths(MOTIF, units, least=[1] * len(MOTIF))
    assert sum(steps) == units
    assert all(len(found) == 1 for found in _by_width(MOTIF, steps).values())


@given(
    st.lists(st.integers(1, 200), min_size=1, max_size=40), st.integers(1, 4), st.integers(0, 3000)
)
def test_the_sum_is_kept_and_nothing_moves_far(widths: list[int], least: int, more: int) -> None:
    units = least * len(widths) + more
    steps = equal_widths(widths, units, least=[least] * len(widths))
    assert sum(steps) == units
    assert min(steps) >= least
    exact = [width * units / sum(widths) for width in widths]
    if min(exact) >= least:
        assert all(abs(step - part) < 2.000001 for step, part in zip(steps, exact, strict=True))


@given(st.lists(st.integers(1, 10_000), min_size=1, max_size=30, unique=True), st.integers(0, 5000))
def test_where_none_are_equal_it_is_the_largest_remainder(widths: list[int], more: int) -> None:
    units = len(widths) + more
    steps = equal_widths(widths, units, least=[1] * len(widths))
    exact = [width * units / sum(widths) for width in widths]
    largest = apportion(widths, units, least=1)
    assert sum((a - b) ** 2 for a, b in zip(steps, exact, strict=True)) == pytest.approx(
        sum((a - b) ** 2 for a, b in zip(largest, exact, strict=True))
    )


@given(st.lists(st.integers(1, 60), min_size=1, max_size=12), st.integers(0, 2000))
def test_what_reads_the_same_from_both_ends_still_does(half: list[int], more: int) -> None:
    widths = [*half, 7, *reversed(half)]
    steps = equal_widths(widths, len(widths) + more, least=[1] * len(widths))
    assert steps == steps[::-1]


def test_the_rest_goes_to_the_ends_of_stripes_all_alike() -> None:
    assert equal_widths((50,) * 4, 1001, least=[1] * 4) == (251, 250, 250, 250)
    steps = equal_widths((50,) * 9, 1002 + 9, least=[1] * 9)
    assert steps == steps[::-1]
    assert max(steps) - min(steps) == 1


def test_stripes_of_one_kind_stay_alike_where_all_of_a_width_cannot() -> None:
    assert equal_widths((200,) * 4, 402, least=[1] * 4, kinds="abab") == (101, 100, 101, 100)


def test_too_few_steps_are_refused() -> None:
    with pytest.raises(WeavingError, match="parts: must come to at least 6 together; got 5"):
        equal_widths((3, 3), 5, least=[3, 3])
