"""A length filled with a repeat: whole ones, and a rest that is seen to."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.stripes.motif import axes_of
from palette.stripes.repeat_filling import filled


@pytest.mark.parametrize(
    ("room", "how", "last"),
    [
        (24, "2 times", (2, 6)),
        (28, "2 times, then its first stripe", (0, 4)),
        (30, "2 times, then its first 2 stripes", (1, 2)),
        (33, "3 times, its last stripe narrower at the end", (2, 3)),
        (12, "once", (2, 6)),
    ],
)
def test_a_repeat_begins_whole_and_ends_with_a_part(
    room: int, how: str, last: tuple[int, int]
) -> None:
    filling = filled((4, 2, 6), room, 2)
    assert filling.runs[0] == (0, 4)
    assert filling.runs[-1] == last
    assert filling.how == how


def test_a_rest_too_small_for_a_stripe_goes_to_both_ends() -> None:
    filling = filled((8, 2, 6), 16 + 3, 2)
    assert filling.runs == ((0, 10), (1, 2), (2, 7))
    assert filling.how == "once"


@given(st.lists(st.integers(1, 30), min_size=2, max_size=8), st.integers(0, 500), st.integers(1, 3))
def test_every_step_is_woven_and_repeats_are_whole(
    steps: list[int], more: int, narrowest: int
) -> None:
    room = sum(steps) + more
    runs, _ = filled(steps, room, narrowest)
    assert sum(width for _, width in runs) == room
    assert [place for place, _ in runs] == [k % len(steps) for k in range(len(runs))]
    assert all(width == steps[place] for place, width in runs[1:-1])


@given(st.lists(st.integers(1, 30), min_size=2, max_size=6), st.integers(0, 500), st.integers(1, 3))
def test_a_repeat_that_mirrors_ends_alike(half: list[int], more: int, narrowest: int) -> None:
    steps = [*half, *half[-2:0:-1]]
    room = sum(steps) + more
    axes = axes_of(steps)
    assert {0, len(half) - 1} <= set(axes)
    runs, _ = filled(steps, room, narrowest, axes)
    assert sum(width for _, width in runs) == room
    places = [place for place, _ in runs]
    assert [steps[place] for place in places] == [steps[place] for place in places[::-1]]
    widths = [width for _, width in runs]
    assert widths[1:-1] == widths[1:-1][::-1]
    assert 0 <= widths[-1] - widths[0] <= 1
