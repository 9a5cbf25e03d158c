import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from palette.errors import InputError, WeavingError
from palette.stripes.apportion import apportion, exact_parts, largest_remainder

DATA = Path(__file__).parents[1] / "data"
SHARES = st.lists(st.integers(0, 1000), min_size=1, max_size=10).filter(any)


def table(name: str) -> list[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_bill_of_1792_by_hamiltons_method() -> None:
    # Balinski and Young, Fair Representation, 1982, chapter 3; figures from memory
    rows = table("us_apportionment_1791.csv")
    populations = [int(row["population"]) for row in rows]
    assert sum(populations) == 3_615_920
    assert apportion(populations, 120) == tuple(int(row["seats"]) for row in rows)


@pytest.mark.parametrize(
    ("house", "quotas", "seats"),
    [(299, (7.646, 9.640, 18.640), (8, 9, 18)), (300, (7.671, 9.672, 18.702), (7, 10, 19))],
)
def test_paradox_of_alabama(house: int, quotas: tuple[float, ...], seats: tuple[int, ...]) -> None:
    # Balinski and Young, Fair Representation, 1982, chapter 5; figures from memory
    rows = table("us_census_1880.csv")
    people = {row["state"]: int(row["population"]) for row in rows}
    total = sum(people.values())
    assert total == 49_371_340
    quota = {state: count * house / total for state, count in people.items() if state != "Nevada"}
    won = dict(zip(quota, largest_remainder(list(quota.values()), house - 1), strict=True))
    three = ("Alabama", "Texas", "Illinois")
    assert tuple(round(quota[state], 3) for state in three) == quotas
    assert tuple(won[state] for state in three) == seats


def test_ties_go_to_the_earlier_part() -> None:
    assert largest_remainder((0.5, 0.5, 0.5, 0.5), 2) == (1, 1, 0, 0)
    assert apportion((1, 1, 1), 100) == (34, 33, 33)


@given(SHARES, st.integers(0, 10_000))
def test_sum_is_exact_and_no_part_moves_a_whole_unit(shares: list[int], units: int) -> None:
    parts = apportion(shares, units)
    assert sum(parts) == units
    for part, share in zip(parts, shares, strict=True):
        assert abs(part - share / sum(shares) * units) < 1 + 1e-6


@st.composite
def limited(draw: st.DrawFn) -> tuple[list[int], int, list[int], list[int]]:
    """Shares, units, and limits that leave room for them."""
    shares = draw(SHARES)
    least = [draw(st.integers(0, 6)) for _ in shares]
    most = [low + draw(st.integers(0, 30)) for low in least]
    return shares, draw(st.integers(sum(least), sum(most))), least, most


@given(limited())
def test_limits_are_kept_and_the_others_stay_in_proportion(
    case: tuple[list[int], int, list[int], list[int]],
) -> None:
    shares, units, least, most = case
    exact = exact_parts(shares, units, least=least, most=most)
    parts = apportion(shares, units, least=least, most=most)
    assert sum(parts) == units
    assert math.fsum(exact) == pytest.approx(units)
    for low, part, high, whole in zip(least, exact, most, parts, strict=True):
        assert low <= whole <= high
        assert abs(whole - part) < 1 + 1e-6
    free = [
        part / share
        for low, part, high, share in zip(least, exact, most, shares, strict=True)
        if share and low + 1e-6 < part < high - 1e-6
    ]
    assert not free or max(free) == pytest.approx(min(free))


@given(limited())
def test_rounding_is_the_best_that_whole_numbers_allow(
    case: tuple[list[int], int, list[int], list[int]],
) -> None:
    """Against scipy's mixed-integer solver: the least sum of distances from the exact parts."""
    shares, units, least, most = case
    assume(len(shares) <= 5)
    exact = np.array(exact_parts(shares, units, least=least, most=most))
    count = len(shares)
    ones, eye = np.ones(count), np.eye(count)
    solved = milp(
        np.concatenate([0 * ones, ones]),  # whole parts, then their distances
        constraints=[
            LinearConstraint(np.concatenate([ones, 0 * ones]), units, units),
            LinearConstraint(np.hstack([eye, -eye]), -np.inf, exact),
            LinearConstraint(np.hstack([eye, eye]), exact, np.inf),
        ],
        bounds=Bounds(
            np.concatenate([least, 0 * ones]), np.concatenate([most, np.full(count, np.inf)])
        ),
        integrality=np.concatenate([ones, 0 * ones]),
    )
    parts = np.array(apportion(shares, units, least=least, most=most))
    assume(solved.success)  # the solver gives up on a few that lie on their limits
    assert np.abs(parts - exact).sum() == pytest.approx(solved.fun, abs=1e-5)


def test_limits_that_cannot_be_kept_are_refused() -> None:
    with pytest.raises(WeavingError, match="parts: must come to at least 8 together; got 7"):
        apportion((1, 1), 7, least=4)
    with pytest.raises(WeavingError, match="parts: must come to at most 6 together; got 7"):
        apportion((1, 1), 7, most=3)
    with pytest.raises(WeavingError, match="part 2: must be at least 4 and at most 3"):
        apportion((1, 1), 7, least=(0, 4), most=(9, 3))
    with pytest.raises(InputError, match=r"parts: must sum to 9; got 3\.0"):
        largest_remainder((1.0, 2.0), 9)


def test_shares_of_nothing_take_only_what_no_other_can() -> None:
    assert apportion((1, 0, 0), 10, most=(6, 3, 9)) == (6, 3, 1)
    assert apportion((1, 0), 10) == (10, 0)
