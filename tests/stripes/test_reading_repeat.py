"""The repeat of a sequence as it was read, a pick off here and there."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.stripes.reading_repeat import find_repeat


@pytest.mark.parametrize(("period", "count"), [(3, 9), (4, 10), (5, 11), (12, 19)])
def test_repeat_and_what_is_left_over(period, count):
    yarns = [k % period for k in range(count)]
    widths = [2.0 + k % period for k in range(count)]
    found = find_repeat(yarns, widths)
    assert (found.stripes, found.whole, found.left_over) == (
        period,
        count // period,
        count % period,
    )
    assert found.agreed == count - period


def test_widths_may_be_a_pick_off():
    yarns = [0, 1, 2, 3] * 2 + [0, 1]
    widths = [9.0, 3, 6, 2, 8, 4, 7, 2, 9, 3]
    assert find_repeat(yarns, widths, pick=1.0).stripes == 4
    assert find_repeat(yarns, widths, pick=0.1) is None


def test_cut_ends_may_be_narrower():
    yarns = [0, 1, 2, 3] * 2 + [0]
    widths = [2.0, 3, 6, 2, 9, 3, 6, 2, 4]
    assert find_repeat(yarns, widths, pick=0.5).stripes == 4


def test_no_repeat_where_widths_differ():
    assert find_repeat([0, 1, 0, 1, 0, 1, 0, 1], [4, 9, 4, 3, 4, 14, 4, 9.0]) is None


def test_more_that_agrees_is_surer():
    unit = [0, 1, 2, 3, 1, 2]
    few, many = (find_repeat((unit * 4)[:count], [4.0] * count) for count in (9, 24))
    assert few.confidence < many.confidence
    assert many.sureness == "sure"
    alternating = find_repeat([0, 1, 0, 1, 0], [4.0] * 5)
    assert alternating.sureness != "sure"


@given(st.integers(3, 9), st.integers(0, 8), st.integers(2, 4))
def test_the_shortest_repeat_is_taken(period, rest, times):
    count = period * times + min(rest, period - 1)
    yarns = [k % period for k in range(count)]
    found = find_repeat(yarns, [3.0] * count)
    assert found.stripes == period
    assert found.stripes * found.whole + found.left_over == count
