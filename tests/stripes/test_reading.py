"""Reading the stripes of a photographed cloth."""

import numpy as np
import pytest

from palette.errors import PhotoError, UnitError, WeavingError
from palette.photo.photo import Photo
from palette.stripes.reading import read_cloth
from palette.stripes.reading_plan import plan_from_reading
from palette.stripes.recolouring import recolour
from palette.stripes.rescaling import rescale
from tests.stripes.rendered_cloth import Setting, render, verdict

SMALL = {"size": (1100, 900), "stripes": (10, 24)}
SETTINGS = {
    "as it comes": Setting(**SMALL),
    "ground and fringe": Setting(**SMALL, margin=0.08, fringe=True),
    "upright stripes": Setting(**SMALL, upright=False),
    "twill, warp showing": Setting(**SMALL, weave="twill", warp_share=0.3),
    "near in lightness": Setting(**SMALL, colours="near lightness"),
    "mild perspective": Setting(**SMALL, margin=0.09, perspective=0.02),
    "noise and blur": Setting(**SMALL, noise=5, blur_px=1.5, jpeg=72),
}


@pytest.mark.parametrize("kind", SETTINGS)
def test_sequence_and_widths(kind):
    # The bar of 19 in 20 over many renderings is held by the bench; here, three of each kind.
    readings = [verdict(render(seed, SETTINGS[kind])) for seed in (11, 12, 13)]
    assert sum(good for good, _ in readings) >= 2, readings


@pytest.fixture(scope="module")
def cloth():
    return render(21, Setting(size=(1000, 800), stripes=(12, 14), margin=0.08, light_left=0.5))


@pytest.fixture(scope="module")
def reading(cloth):
    return read_cloth(cloth.photo(), picks_per_cm=8, length_mm=sum(cloth.picks) / 8 * 10)


def test_shares_sum_and_palette_holds_every_colour(reading):
    assert sum(stripe.share for stripe in reading.stripes) == pytest.approx(1)
    assert {stripe.colour for stripe in reading.stripes} == {
        swatch.name for swatch in reading.palette.swatches
    }


def test_skew_and_light_are_told(cloth, reading):
    assert reading.skew_degrees == pytest.approx(cloth.skew_degrees, abs=0.5)
    assert 0.4 < reading.light_range <= 1.0


def test_picks_follow_from_length_and_density(cloth, reading):
    assert [stripe.picks for stripe in reading.stripes] == pytest.approx(list(cloth.picks), abs=1)
    assert not reading.picks_counted


def test_picks_are_counted_in_the_threads_where_there_is_no_scale():
    cloth = render(22, Setting(size=(1000, 800), stripes=(10, 12), picks=(3, 9), margin=0.08))
    reading = read_cloth(cloth.photo())
    assert reading.picks_counted
    assert reading.length_mm is None
    assert reading.total_picks == pytest.approx(sum(cloth.picks), rel=0.05)


def test_width_gives_the_scale(cloth):
    by_width = read_cloth(cloth.photo(), width_mm=300.0)
    # cloth of the renderer: half width over half length, both less the margin
    true = 300.0 * (1 - 2 * 0.08) / (1000 / 800 - 2 * 0.08)
    assert by_width.length_mm == pytest.approx(true, rel=0.03)


def test_a_length_and_a_width_that_do_not_go_together_are_told(cloth):
    width_mm = 300.0
    length_mm = read_cloth(cloth.photo(), width_mm=width_mm).length_mm
    rule = "the length was taken as it was given"
    agreed = read_cloth(cloth.photo(), width_mm=width_mm, length_mm=1.03 * length_mm)
    assert not any(rule in note for note in agreed.warnings)
    odd = read_cloth(cloth.photo(), width_mm=width_mm, length_mm=2 * length_mm)
    told = f"by its width the cloth would be {length_mm / 10:.1f} cm long in the picture"
    assert [told in note for note in odd.warnings if rule in note] == [True]
    assert odd.length_mm == pytest.approx(2 * length_mm)


def test_same_picture_same_reading(cloth):
    assert read_cloth(cloth.photo()) == read_cloth(cloth.photo())


def test_plan_of_the_cloth_can_be_rescaled_and_recoloured(cloth, reading):
    plan = plan_from_reading(reading)
    assert [stripe.picks for stripe in plan.stripes] == [s.picks for s in reading.stripes]
    longer = rescale(plan, length_mm=plan.finished_length_mm * 3)
    assert longer.total_picks == pytest.approx(3 * plan.total_picks, abs=2)
    assert len(longer.stripes) == len(plan.stripes)
    again = recolour(plan, reading.palette, by="lightness")
    assert [stripe.colour for stripe in again.stripes] == [s.colour for s in plan.stripes]


def test_plan_without_any_scale_is_refused():
    cloth = render(22, Setting(size=(1000, 800), stripes=(10, 12), picks=(3, 9), margin=0.08))
    with pytest.raises(ValueError, match="--picks: must be given, because the picture alone"):
        plan_from_reading(read_cloth(cloth.photo()))


def test_plain_cloth_has_no_stripes():
    grey = np.random.default_rng(1).normal(120, 3, (300, 400, 3)).clip(0, 255).astype(np.uint8)
    with pytest.raises(WeavingError, match=r"plain\.png: must show stripes; got one colour"):
        read_cloth(Photo(name="plain.png", pixels=grey))


def test_tiny_picture_is_refused():
    with pytest.raises(PhotoError, match="must be at least 60 pixels wide and high; got 50 x 40"):
        read_cloth(Photo(name="tiny.png", pixels=np.zeros((40, 50, 3), dtype=np.uint8)))


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_scale_must_be_positive(value):
    photo = Photo(name="any.png", pixels=np.zeros((80, 80, 3), dtype=np.uint8))
    with pytest.raises(UnitError, match="--picks: must be more than 0"):
        read_cloth(photo, picks_per_cm=value)


def test_end_stripes_cut_by_the_picture_are_named():
    cloth = render(23, Setting(size=(900, 700), stripes=(10, 12)))
    reading = read_cloth(cloth.photo())
    assert {1, len(reading.stripes)} <= set(reading.unsure)
    for stripe in (reading.stripes[0], reading.stripes[-1]):
        assert stripe.doubt == "runs out of the picture, and counts as far as it shows"
