"""Skeins into pots."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.packing import pack, rounds_of_pots, share_out
from palette.errors import InputError

SIZES = st.lists(st.sampled_from([25.0, 50.0, 100.0, 120.0, 200.0]), min_size=1, max_size=6)


def fewest_bins(sizes: tuple[float, ...], capacity: float) -> int:
    """Try everything: the reference for small cases."""
    for count in range(1, len(sizes) + 1):
        for places in itertools.product(range(count), repeat=len(sizes)):
            loads = [0.0] * count
            for size, place in zip(sizes, places, strict=True):
                loads[place] += size
            if max(loads) <= capacity:
                return count
    raise AssertionError


@settings(max_examples=40, deadline=None)
@given(SIZES, st.sampled_from([200.0, 260.0, 350.0]))
def test_as_few_bins_as_possible(sizes: list[float], capacity: float) -> None:
    bins = pack(tuple(sizes), capacity)
    assert sorted(i for each in bins for i in each) == list(range(len(sizes)))
    assert all(math.fsum(sizes[i] for i in each) <= capacity for each in bins)
    assert len(bins) == fewest_bins(tuple(sizes), capacity)


def test_better_than_first_fit() -> None:
    # First fit, largest first, puts 4 with 4 and needs three bins; 4 with 3 and 3 needs two.
    assert pack((4.0, 4.0, 3.0, 3.0, 3.0, 3.0), 10.0) == ((0, 2, 3), (1, 4, 5))


@settings(max_examples=40, deadline=None)
@given(SIZES, st.sampled_from([200.0, 260.0, 350.0]))
def test_a_split_lot_keeps_every_skein_and_needs_no_more_baths(sizes, capacity) -> None:
    parts = share_out(tuple(sizes), capacity)
    assert sorted(i for each in parts for i in each) == list(range(len(sizes)))
    assert all(math.fsum(sizes[i] for i in each) <= capacity for each in parts)
    assert len(parts) == len(pack(tuple(sizes), capacity))


@given(st.integers(1, 40), st.integers(1, 8))
def test_like_skeins_are_shared_out_evenly(skeins: int, per_bath: int) -> None:
    parts = share_out((100.0,) * skeins, 100.0 * per_bath)
    counts = [len(each) for each in parts]
    assert len(counts) == math.ceil(skeins / per_bath)
    assert max(counts) - min(counts) <= 1


@settings(deadline=None)
@given(
    st.lists(st.sampled_from([2.0, 5.0, 8.0]), min_size=1, max_size=5),
    st.lists(st.sampled_from([3.0, 6.0, 9.0]), min_size=1, max_size=3),
)
def test_rounds_are_as_few_as_possible(volumes: list[float], pots: list[float]) -> None:
    pots = [*pots, 9.0]
    given_places = rounds_of_pots(tuple(volumes), tuple(pots))
    assert all(volume <= pots[pot] for volume, (_, pot) in zip(volumes, given_places, strict=True))
    assert len(set(given_places)) == len(volumes)
    rounds = max(number for number, _ in given_places)
    for places in itertools.product(range(len(pots)), repeat=len(volumes)):
        if all(volume <= pots[p] for volume, p in zip(volumes, places, strict=True)):
            assert max(places.count(p) for p in range(len(pots))) >= rounds


def test_what_no_pot_holds_is_refused() -> None:
    with pytest.raises(InputError, match="pot: must hold 100 g in one piece; got 90 g"):
        pack((100.0,), 90.0)
    with pytest.raises(InputError, match=r"largest pot: must take 4\.0 l; got 3\.0 l"):
        rounds_of_pots((4000.0,), (3000.0, 1000.0))


def test_a_bath_waits_for_the_ones_before_it() -> None:
    volumes, pots = (2000.0, 8000.0, 3000.0, 1000.0), (9000.0, 9000.0)
    given = rounds_of_pots(volumes, pots, after=((), (0,), (), (2,)))
    assert given[0][0] < given[1][0]
    assert given[2][0] < given[3][0]
    assert len(set(given)) == len(given)
    assert max(number for number, _ in given) == 2
