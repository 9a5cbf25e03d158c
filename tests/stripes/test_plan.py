from dataclasses import replace

import pytest
from hypothesis import given

from palette.errors import InputError, WeavingError
from palette.stripes.plan import Stripe, StripePlan
from tests.strategies import stripe_plans


@given(stripe_plans())
def test_lengths_and_counts_follow_from_the_stripes(plan: StripePlan) -> None:
    assert plan.total_picks == sum(stripe.picks for stripe in plan.stripes)
    assert sum(map(plan.picks_of, plan.colours)) == plan.total_picks
    assert plan.woven_length_mm == pytest.approx(plan.total_picks / plan.picks_per_cm * 10)
    kept = plan.woven_length_mm * (1 - plan.shrinkage_length)
    assert plan.true_finished_length_mm == pytest.approx(kept)


@given(stripe_plans())
def test_gaps_and_quantities_out_of_range_are_refused(plan: StripePlan) -> None:
    moved = tuple(replace(s, first_pick=s.first_pick + 1) for s in plan.stripes)
    with pytest.raises(InputError, match=r"(?s)stripe 1 .*: must begin at pick 1, where the one"):
        replace(plan, stripes=moved)
    with pytest.raises(WeavingError, match="stripe plan: must hold at least one stripe; got none"):
        replace(plan, stripes=())
    with pytest.raises(InputError, match="picks per cm must be more than 0; got nan"):
        replace(plan, picks_per_cm=float("nan"))
    with pytest.raises(InputError, match=r"shrinkage must be from 0 to under 1; got 1\.0"):
        replace(plan, shrinkage_length=1.0)


def test_a_stripe_has_picks() -> None:
    with pytest.raises(
        InputError, match=r"picks of the stripe at pick 1 \(moss\): must be at least 1"
    ):
        Stripe(colour="moss", hex="#5d733a", lab=(45.0, -15.0, 30.0), picks=0, first_pick=1)
    with pytest.raises(
        InputError, match=r"first pick of the stripe at pick 0 .*: must be at least 1; got 0"
    ):
        Stripe(colour="moss", hex="#5d733a", lab=(45.0, -15.0, 30.0), picks=2, first_pick=0)
