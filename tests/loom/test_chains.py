"""Striped warps and the chains to wind."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.chains import Chain, WarpStripe, chains, ends_by_colour, fill_warp
from palette.loom.planning import plan_warp

COLOURS = st.sampled_from(["moss", "rust", "straw"])
STRIPES = st.lists(
    st.builds(WarpStripe, colour=COLOURS, hex=st.just("#777777"), ends=st.integers(1, 40)),
    min_size=1,
    max_size=8,
)


@given(pattern=STRIPES, ends=st.integers(1, 700), mirrored=st.booleans())
def test_the_warp_is_filled(pattern, ends, mirrored):
    filled = fill_warp(pattern, ends, mirrored=mirrored)
    assert sum(stripe.ends for stripe in filled) == ends
    assert all(a.colour != b.colour for a, b in itertools.pairwise(filled))
    totals = {part.colour: part.ends for part in ends_by_colour(filled)}
    assert sum(totals.values()) == ends


@given(repeats=st.integers(1, 5), ends=st.sampled_from([6, 10, 17]))
def test_whole_repeats_are_left_as_they_are(repeats, ends):
    pattern = [WarpStripe(colour=c, hex="#777777", ends=ends) for c in ("moss", "rust")]
    filled = fill_warp(pattern, 2 * ends * repeats)
    assert [stripe.ends for stripe in filled] == [ends] * 2 * repeats


@given(pattern=STRIPES, most=st.integers(2, 120))
def test_chains_hold_every_end_once(pattern, most):
    total = sum(stripe.ends for stripe in pattern)
    warp = plan_warp(
        finished_width_mm=total,
        ends_per_cm=10,
        cloth_lengths_mm=(1000.0,),
        shrinkage_width=0,
        draw_in=0,
        sley_repeat=1,
    )
    wound = chains(pattern, warp, ends_per_chain=most)
    assert sum(chain.ends for chain in wound) == total
    assert all(chain.ends <= most and chain.length_mm == warp.length_mm for chain in wound)
    assert sum(chain.yarn_m for chain in wound) == pytest.approx(warp.yarn_length_m)


def test_a_colour_with_many_ends_has_several_chains_alike():
    warp = plan_warp(
        finished_width_mm=250,
        ends_per_cm=10,
        cloth_lengths_mm=(1000.0,),
        shrinkage_width=0,
        draw_in=0,
    )
    wound = chains((WarpStripe(colour="moss", hex="#5d733a", ends=250),), warp)
    assert [chain.ends for chain in wound] == [82, 84, 84]
    assert wound[0] == Chain(colour="moss", hex="#5d733a", ends=82, length_mm=warp.length_mm)


def test_refusals():
    moss = WarpStripe(colour="moss", hex="#5d733a", ends=10)
    warp = plan_warp(finished_width_mm=250, ends_per_cm=10, cloth_lengths_mm=(1000.0,))
    with pytest.raises(InputError, match="warp stripe moss: must have at least 1 end; got 0"):
        WarpStripe(colour="moss", hex="#5d733a", ends=0)
    with pytest.raises(InputError, match="warp stripes: must be at least one; got none"):
        fill_warp((), 20)
    with pytest.raises(InputError, match="ends: must be at least 1; got 0"):
        fill_warp((moss,), 0)
    with pytest.raises(InputError, match=r"warp stripes: must come to the warp's \d+ ends; got 10"):
        chains((moss,), warp)
    with pytest.raises(InputError, match="ends in a chain: must be at least 2; got 1"):
        chains((WarpStripe(colour="m", hex="#5d733a", ends=warp.ends),), warp, ends_per_chain=1)
