"""A closer beat."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.planning import plan_warp
from palette.yarn.count import parse_count
from palette.yarn.drift import beat_drift
from palette.yarn.planning import yarn_amounts

COUNT = parse_count("NeC 8/2")


def amounts_of(plan, allowance=0.1):
    warp = plan_warp(finished_width_mm=500, ends_per_cm=8, cloth_lengths_mm=(plan.woven_length_mm,))
    return yarn_amounts((plan,), warp, weft=COUNT, warp_yarn=COUNT, allowance=allowance)


def test_one_pick_more_to_the_centimetre(plan_of):
    """Own: from 8 to 9 picks per cm every pick's weft grows by an eighth, tails stay."""
    plan = plan_of(("moss", 800), ("rust", 400))
    amounts = amounts_of(plan)
    moss, rust = beat_drift((plan,), amounts, more_per_cm=1.0)
    assert (moss.colour, rust.colour) == ("moss", "rust")
    assert moss.extra_picks == pytest.approx(100)
    assert moss.extra_mass_g == pytest.approx(100 * amounts[0].g_per_pick)
    assert moss.extra_length_m == pytest.approx(moss.extra_mass_g / COUNT.tex * 1000)
    assert not moss.lasts  # an eighth is more than the tenth that is spare
    assert moss.picks_per_cm_at_most == pytest.approx(8.8, abs=0.01)


@given(picks=st.integers(50, 3000), allowance=st.floats(0.01, 0.5), density=st.floats(2, 20))
def test_the_most_that_lasts_uses_all_there_is(plan_of, picks, allowance, density):
    plan = plan_of(("moss", picks), picks_per_cm=density)
    amounts = amounts_of(plan, allowance)
    most = beat_drift((plan,), amounts, more_per_cm=1.0)[0].picks_per_cm_at_most
    drift = beat_drift((plan,), amounts, more_per_cm=most - density)[0]
    assert drift.extra_mass_g == pytest.approx(drift.spare_mass_g)
    assert drift.lasts
    closer = plan_of(("moss", 1), picks_per_cm=most)
    assert closer.picks_per_cm > density


def test_several_cloths_drift_together(plan_of):
    cloths = (plan_of(("moss", 80)), plan_of(("moss", 40), picks_per_cm=4.0))
    warp = plan_warp(
        finished_width_mm=500,
        ends_per_cm=8,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in cloths),
    )
    amounts = yarn_amounts(cloths, warp, weft=COUNT, warp_yarn=COUNT)
    assert beat_drift(cloths, amounts, more_per_cm=1.0)[0].extra_picks == pytest.approx(10 + 10)


@pytest.mark.parametrize("more", [0, -1, float("nan"), float("inf")])
def test_refusals(plan_of, more):
    plan = plan_of(("moss", 80))
    with pytest.raises(InputError, match="beat drift: must be more than 0, and finite; got"):
        beat_drift((plan,), amounts_of(plan), more_per_cm=more)
