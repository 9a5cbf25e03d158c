"""An old cloth as a plan: the size and the picks that were measured, once it is washed."""

import pytest

from palette.plans.brief import Brief
from palette.plans.old_cloth import plan_of_reading
from palette.stripes.reading_repeat import ReadRepeat
from palette.stripes.reading_values import ClothReading, ReadStripe
from palette.swatches.palette import Palette


@pytest.fixture
def reading(hedge: Palette) -> ClothReading:
    stripes = tuple(
        ReadStripe(
            colour=swatch.name, hex=swatch.hex, lab=swatch.lab, share=0.25, width_mm=30, picks=27
        )
        for swatch in hedge.swatches
    )
    return ClothReading(
        palette=hedge,
        stripes=stripes,
        upright=False,
        skew_degrees=0.0,
        length_mm=120,
        width_mm=224,
        picks_per_cm=9,
        repeat=ReadRepeat(stripes=2, whole=2, left_over=0, share=0.5),
    )


def test_the_finished_size_is_the_measured_one(reading: ClothReading) -> None:
    plan = plan_of_reading(reading, Brief.of({"picks": "9/cm"}))
    (cloth,) = plan.cloths
    assert cloth.true_finished_length_mm == pytest.approx(120)
    assert plan.warp.finished_width_mm == pytest.approx(224, abs=2)
    assert cloth.total_picks == 108


def test_the_beat_on_the_loom_gives_the_measured_one_after_washing(reading: ClothReading) -> None:
    plan = plan_of_reading(reading, Brief.of({"shrinkage": "10%"}))
    assert plan.cloths[0].picks_per_cm == pytest.approx(8.1)
    assert dict(plan.asked)["picks"] == "8.1/cm"
    assert plan.warnings[0] == (
        "Size and picks are those of the washed cloth: beat 8.1/cm on the loom for its 9/cm, at "
        "10.0 % shrinkage."
    )


def test_without_shrinkage_nothing_is_added(reading: ClothReading) -> None:
    plan = plan_of_reading(reading, Brief.of({"shrinkage": "0%"}))
    assert plan.cloths[0].picks_per_cm == 9
    assert plan.cloths[0].warnings == ()


def test_the_found_repeat_goes_into_the_plan(reading: ClothReading) -> None:
    assert plan_of_reading(reading, Brief.of({})).cloths[0].repeat_stripes == 2
