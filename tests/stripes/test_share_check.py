from hypothesis import given
from hypothesis import strategies as st

from palette.stripes.edges import Edge
from palette.stripes.planning import plan_stripes
from palette.stripes.share_check import share_differences, share_notes
from palette.swatches.palette import Palette
from tests.strategies import palettes, stripe_plans


@given(stripe_plans().filter(lambda plan: {s.role for s in plan.stripes} & {"stripe", "blend"}))
def test_differences_account_for_every_pick_of_the_body(plan) -> None:
    body = sum(s.picks for s in plan.stripes if s.role in ("stripe", "blend"))
    differences = share_differences(plan)
    assert sum(picks for _, picks, _ in differences) == body
    assert abs(sum(asked for _, _, asked in differences) - body) < 1e-6 * body


@given(palettes(), st.integers(500, 3000))
def test_a_plan_as_it_was_made_has_nothing_to_note(palette: Palette, length: int) -> None:
    plan = plan_stripes(palette, length_mm=length, picks_per_cm=8, edges=(Edge(picks=20),))
    if not plan.warnings:
        assert share_notes(plan) == ()


def test_notes_have_figures(pair: Palette) -> None:
    plan = plan_stripes(pair, length_mm=180, picks_per_cm=8, most={"moss": 100})
    assert share_notes(plan) == (
        "Not at their shares: moss 100 picks (120 by its share of 75.0 %), "
        "sky 60 picks (40 by its share of 25.0 %).",
    )
