import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.stripes.edges import Edge
from palette.stripes.planning import plan_stripes
from palette.stripes.rescaling import rescale
from palette.stripes.soft import Soft
from palette.swatches.palette import Palette
from tests.strategies import palettes


@given(
    palettes(),
    st.sampled_from(["photo", "mirrored", "scattered", "hit-and-miss"]),
    st.integers(800, 4000),
    st.integers(0, 4),
)
def test_every_width_is_in_proportion(
    palette: Palette, order: str, length: int, least: int
) -> None:
    plan = plan_stripes(
        palette, length_mm=1800, picks_per_cm=8, order=order, edges=(Edge(picks=20),)
    )
    scaled = rescale(plan, length_mm=length, least=least)
    assert abs(scaled.true_finished_length_mm - length) <= 10 / 8 * 0.9 + 1e-6
    assert [(s.colour, s.role) for s in scaled.stripes] == [
        (s.colour, s.role) for s in plan.stripes
    ]
    assert scaled.stripes[0].picks == plan.stripes[0].picks == 20
    factor = (scaled.total_picks - 40) / (plan.total_picks - 40)
    raised = any(s.picks * factor < max(2, least) for s in plan.stripes)
    for before, after in zip(plan.stripes, scaled.stripes, strict=True):
        if before.role == "stripe":
            assert after.picks >= least
            assert raised or abs(after.picks - before.picks * factor) < 4 + 1e-6


@given(palettes(), st.integers(800, 4000), st.integers(1, 3))
def test_a_mirrored_cloth_stays_mirrored(palette: Palette, length: int, step: int) -> None:
    plan = plan_stripes(palette, length_mm=1800, picks_per_cm=8, order="mirrored", step=step)
    keys = [(s.colour, s.picks) for s in rescale(plan, length_mm=length).stripes]
    assert keys == keys[::-1]


def test_the_same_length_changes_nothing(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8, order="nearest", soft=Soft(picks=30))
    assert rescale(plan).stripes == plan.stripes


def test_another_density_keeps_the_look(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8)
    finer = rescale(plan, picks_per_cm=16, step=4)
    assert finer.total_picks == 3200
    assert [s.picks for s in finer.stripes] == [2 * s.picks for s in plan.stripes]
    assert finer.picks_per_cm == 16


def test_too_short_names_the_shortest(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8, order="hit-and-miss")
    count = len(plan.stripes)
    with pytest.raises(
        WeavingError,
        match=rf"stripe plan: its {count} stripes need at least {2 * count} picks, hems and "
        r"borders included; got 18\. Make the cloth at least [\d.]+ cm long, or drop stripes\.",
    ) as refused:
        rescale(plan, length_mm=20)
    length = float(refused.value.remedy.split("at least ")[1].split(" cm")[0]) * 10
    assert len(rescale(plan, length_mm=length).stripes) == count
