import pytest

from palette.stripes.edges import Edge
from palette.stripes.planning import plan_stripes
from palette.stripes.repeat import repeat_of
from palette.swatches.palette import Palette


@pytest.mark.parametrize("repeats", [2, 3, 5, 8])
def test_repeat_is_found_behind_a_hem(hedge: Palette, repeats: int) -> None:
    plan = plan_stripes(
        hedge, length_mm=1800, picks_per_cm=8, repeats=repeats, edges=(Edge(picks=20),)
    )
    found = repeat_of(plan)
    assert found is not None
    assert found.last_stripe - found.first_stripe + 1 == 8
    assert found.picks == 2 * (780 // repeats)
    assert found.times in (repeats, repeats - 1)  # the outer stripes take an odd step


def test_a_cloth_without_a_repeat_has_none(hedge: Palette) -> None:
    for order in ("photo", "mirrored", "graded", "hit-and-miss"):
        assert repeat_of(plan_stripes(hedge, length_mm=1800, picks_per_cm=8, order=order)) is None
