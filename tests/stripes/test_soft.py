from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.stripes.soft import Soft, longest_absence, passage, soften
from palette.stripes.weft import Piece, Weft

MOSS = Weft("moss", "#5d733a", (45.5, -18.4, 28.8))
SKY = Weft("sky", "#b9cdd6", (81.0, -4.5, -6.7))
HALVES = st.integers(1, 400)


@given(HALVES)
def test_passage_gives_both_colours_the_same_turns_and_reads_alike_from_both_ends(
    half: int,
) -> None:
    runs = passage(half)
    assert sum(turns for colour, turns in runs if colour) == half
    assert sum(turns for _, turns in runs) == 2 * half
    assert (runs[0][0], runs[-1][0]) == (1, 0)
    assert tuple((1 - colour, turns) for colour, turns in runs[::-1]) == runs


@given(HALVES)
def test_ratio_runs_smoothly(half: int) -> None:
    """The second colour never lags or leads a straight line of its part by a whole turn."""
    turns = [colour for colour, count in passage(half) for _ in range(count)]
    hidden = next(h for h in range(half + 1) if (h + 1) ** 2 >= 2 * (half + h))
    ramp, had = half + hidden, 0
    for place, turn in enumerate(turns, start=hidden + 1):
        had += turn
        assert abs(had - place**2 / (4 * ramp)) <= 0.5


@given(st.integers(2, 400))
def test_waits_shorten_towards_the_middle(half: int) -> None:
    waits = [turns for colour, turns in passage(half) if not colour]
    middle = waits[: len(waits) // 2]
    assert max(waits) == longest_absence(half)
    assert max(waits) == max(middle or waits)
    assert all(b - a <= 1 for a, b in pairwise(waits))


PIECES = st.lists(st.integers(1, 60), min_size=2, max_size=7)


@given(PIECES, st.integers(1, 80), st.integers(1, 4), st.integers(1, 5))
def test_shuttles_come_home_and_colours_keep_their_picks(
    steps: list[int], picks: int, step: int, narrowest: int
) -> None:
    steps = [max(n, narrowest) for n in steps]
    pieces = [Piece((MOSS, SKY)[i % 2], n * step) for i, n in enumerate(steps)]
    laid, _ = soften(pieces, Soft(picks=picks), step=step, narrowest=narrowest)
    assert all(piece.picks % step == 0 for piece in laid)
    for weft in (MOSS, SKY):
        assert sum(p.picks for p in laid if p.weft == weft) == sum(
            p.picks for p in pieces if p.weft == weft
        )
    solid = [piece for piece in laid if piece.role == "stripe"]
    assert len(solid) == len(pieces)
    for before, after in zip(pieces, solid, strict=True):
        assert after.weft == before.weft
        assert after.picks >= max(narrowest * step, before.picks / 3)
    assert all(a.weft != b.weft for a, b in pairwise(laid))


def test_passage_is_as_long_as_it_was_asked() -> None:
    laid, notes = soften([Piece(MOSS, 100), Piece(SKY, 100)], Soft(picks=48), step=2, narrowest=1)
    assert sum(piece.picks for piece in laid if piece.role == "blend") == 48
    assert notes == ()


def test_yarn_between_takes_from_both() -> None:
    soft = Soft(picks=20, way="between")
    laid, _ = soften([Piece(MOSS, 100), Piece(SKY, 100)], soft, step=2, narrowest=1)
    assert [piece.picks for piece in laid] == [90, 20, 90]
    assert laid[1].weft.name == "between moss and sky"
    assert laid[1].weft.lab == pytest.approx((63.25, -11.45, 11.05))
    back, _ = soften([Piece(SKY, 100), Piece(MOSS, 100)], soft, step=2, narrowest=1)
    assert back[1].weft == laid[1].weft


def test_what_is_shortened_or_left_hard_is_said() -> None:
    pieces = [Piece(MOSS, 100), Piece(SKY, 2), Piece(MOSS, 30), Piece(SKY, 100)]
    laid, notes = soften(pieces, Soft(picks=40), step=2, narrowest=1)
    assert [piece.role for piece in laid[:3]] == ["stripe"] * 3
    assert notes == (
        "soft changes: 1 of 3 are shorter than 40 picks, the shortest 20, because the stripes "
        "beside them are too narrow.",
        "soft changes: 2 of 3 stay hard, because a stripe beside them has no picks to give.",
    )


def test_soft_changes_are_checked() -> None:
    with pytest.raises(InputError, match="soft change: must be at least 1 pick long; got 0"):
        Soft(picks=0)
    with pytest.raises(InputError, match="soft change: must be made by one of alternate, between"):
        Soft(picks=4, way="gradual")  # type: ignore[arg-type]
