import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.stripes.limits import arranged
from palette.stripes.material import Run
from palette.stripes.repeating import partial_head, partial_tail, repeat_runs
from palette.stripes.request import Request
from palette.swatches.palette import Palette

UNITS = st.lists(st.integers(1, 9), min_size=2, max_size=6).map(
    lambda steps: tuple(Run(i, n) for i, n in enumerate(steps))
)


def threads(runs: tuple[Run, ...]) -> list[int]:
    return [run.colour for run in runs for _ in range(run.steps)]


@given(UNITS, st.integers(1, 200))
def test_part_of_a_repeat_is_centred(unit: tuple[Run, ...], total: int) -> None:
    one = threads(unit)
    cloth = threads(repeat_runs(unit, total, 1))
    left = total % len(one)
    whole = one * (total // len(one))
    assert cloth == one[len(one) - left // 2 :] * (left > 1) + whole + one[: left - left // 2]


@given(UNITS, st.integers(1, 200), st.integers(1, 6))
def test_no_cut_stripe_is_too_small(unit: tuple[Run, ...], total: int, narrowest: int) -> None:
    length = sum(run.steps for run in unit)
    runs = repeat_runs(unit, total + length, narrowest)
    assert sum(run.steps for run in runs) == total + length
    slimmest = min(*(run.steps for run in unit), narrowest)
    assert min(run.steps for run in runs) >= slimmest


@given(UNITS, st.integers(0, 60))
def test_head_and_tail_make_the_whole(unit: tuple[Run, ...], steps: int) -> None:
    one = threads(unit)
    assert threads(partial_head(unit, steps)) == one[:steps]
    assert threads(partial_tail(unit, steps)) == one[max(0, len(one) - steps) :]


def test_repeats_are_alike_but_for_the_ends(hedge: Palette) -> None:
    for picks in range(1500, 1560, 2):
        runs = arranged(Request(palette=hedge, picks=picks, order="repeated", repeats=5))
        unit = runs[8:16]
        assert len(runs) == 40
        assert list(runs[8:32]) == [*unit] * 3
        left = picks // 2 - 5 * sum(run.steps for run in unit)
        assert runs[0].steps == unit[0].steps + left // 2
        assert runs[-1].steps == unit[-1].steps + left - left // 2


def test_any_order_can_be_repeated(hedge: Palette) -> None:
    runs = arranged(Request(palette=hedge, picks=1600, order="mirrored", repeats=4))
    assert runs == runs[::-1]
    assert sum(run.steps for run in runs) == 800


def test_too_many_repeats_are_refused(hedge: Palette) -> None:
    request = Request(palette=hedge, picks=160, order="repeated", repeats=20)
    with pytest.raises(WeavingError, match="must come to at least 8 together; got 4"):
        arranged(request)
