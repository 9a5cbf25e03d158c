"""What one colour does in a cloth."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.loom.planning import plan_warp
from palette.stripes.handling import starts_of
from palette.yarn.wefts import Weaving, weft_per_pick_mm, weft_uses

RUNS = st.lists(
    st.tuples(st.sampled_from(["moss", "rust", "straw"]), st.integers(1, 30)),
    min_size=1,
    max_size=20,
)


def test_the_width_in_the_reed_is_the_length_of_a_pick():
    """Taylor p.245 and Brooks; draw-in is not added again."""
    warp = plan_warp(finished_width_mm=500, ends_per_cm=8, cloth_lengths_mm=(1000.0,), draw_in=0.1)
    assert weft_per_pick_mm(warp, 0) == warp.width_in_reed_mm
    assert weft_per_pick_mm(warp, 0.05) == pytest.approx(warp.width_in_reed_mm / 0.95)
    with pytest.raises(InputError, match=r"weft take-up: must be from 0 to under 1; got -0\.1"):
        weft_per_pick_mm(warp, -0.1)


@given(runs=RUNS, carry=st.integers(0, 20))
def test_picks_starts_and_carries_add_up(plan_of, runs, carry):
    plan = plan_of(*runs)
    uses = weft_uses(plan, Weaving(pick_mm=300, tail_mm=50, carry_picks=carry))
    assert sum(use.picks for use in uses.values()) == plan.total_picks
    for colour, use in uses.items():
        assert use.starts == starts_of(plan, colour, carry)
        assert use.tail_m == pytest.approx(use.starts * 0.1)
        assert use.length_m == use.pick_m + use.tail_m + use.carried_m
    assert list(uses) == list(plan.colours)


@given(runs=RUNS)
def test_carrying_further_never_takes_more_starts(plan_of, runs):
    plan = plan_of(*runs)
    near, far = (weft_uses(plan, Weaving(pick_mm=300, carry_picks=carry)) for carry in (2, 12))
    assert all(far[colour].starts <= near[colour].starts for colour in near)


def test_refusals():
    with pytest.raises(
        InputError, match="weft per pick: must be more than 0, and finite; got 0 mm"
    ):
        Weaving(pick_mm=0)
    with pytest.raises(InputError, match="tail: must be 0 or more, and finite; got inf mm"):
        Weaving(pick_mm=300, tail_mm=float("inf"))
