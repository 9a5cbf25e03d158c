"""Blends of dyed fleece for a colour."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.blend import Blend, BlendPart
from palette.dyeing.blend_remarks import way_to_go
from palette.dyeing.blend_search import Fleeces, best_of_size, most_useful
from palette.dyeing.blending import blend_constant, plan_blend, whole_steps
from palette.errors import InputError, TableError
from palette.perception.difference import ciede2000
from palette.swatches.match_difference import ranking_difference
from palette.swatches.shelf import Shelf, ShelfYarn

FLEECES = {
    "white": (90.0, 0.0, 8.0),
    "black": (16.0, 0.0, 0.0),
    "lemon": (82.0, -4.0, 75.0),
    "rust": (45.0, 38.0, 42.0),
    "blue": (38.0, 2.0, -38.0),
    "green": (48.0, -35.0, 25.0),
}


def shelf(kind: str = "fleece", mass_g: float | None = None, **labs) -> Shelf:
    fleeces = tuple(
        ShelfYarn(name=name, lab=lab, hex="#000000", kind=kind, fibre="wool", mass_g=mass_g)
        for name, lab in (labs or FLEECES).items()
    )
    return Shelf(file="fleece.csv", yarns=fleeces)


def predicted(names: list[str], shares: list[float]) -> np.ndarray:
    """Colour of a blend of the fleeces above."""
    model = Fleeces(list(FLEECES.values()), constant=0.15)
    order = [list(FLEECES).index(name) for name in names]
    return model.colours(np.array([order]), np.array([shares]))[0]


@pytest.mark.parametrize(
    ("names", "shares"),
    [
        (["white", "black"], [0.97, 0.03]),
        (["lemon", "blue"], [0.6, 0.4]),
        (["white", "rust", "green"], [0.5, 0.2, 0.3]),
        (["black", "rust", "blue"], [0.1, 0.5, 0.4]),
    ],
)
def test_a_blend_is_found_again(names: list[str], shares: list[float]) -> None:
    target = predicted(names, shares)
    plan = plan_blend(tuple(target.tolist()), shelf())
    assert min(blend.difference for blend in plan.by_parts) < 0.05
    exact = plan.by_parts[len(names) - 1]
    assert {part.name: part.share for part in exact.parts} == {
        name: pytest.approx(share, abs=0.005) for name, share in zip(names, shares, strict=True)
    }
    assert plan.warnings == ()


def test_a_fleece_alone_has_its_own_colour() -> None:
    plan = plan_blend(FLEECES["rust"], shelf())
    assert [(part.name, part.share) for part in plan.best.parts] == [("rust", 1.0)]
    assert plan.best.difference == pytest.approx(0, abs=1e-6)
    assert plan.best.lab == pytest.approx(FLEECES["rust"])


def test_carding_darkens_more_than_light_averages() -> None:
    # Fibre blend against yarn average of reflectances 0.80 and 0.05: 0.133 against 0.425.
    mixed = predicted(["white", "black"], [0.5, 0.5])
    assert mixed[0] < (FLEECES["white"][0] + FLEECES["black"][0]) / 2 - 5


def test_the_search_misses_nothing_that_a_fine_grid_finds() -> None:
    random = np.random.default_rng(3)
    model = Fleeces(list(FLEECES.values()), constant=0.15)
    steps = np.array(
        [(i, j, 50 - i - j) for i in range(1, 49) for j in range(1, 50 - i)], dtype=float
    )
    for target in random.uniform([30, -20, -20], [75, 25, 45], (4, 3)):
        best = best_of_size(model, target, 3)[0]
        grid = min(
            float(
                ranking_difference(
                    model.colours(np.tile(some, (len(steps), 1)), steps / 50), target
                ).min()
            )
            for some in itertools.combinations(range(len(FLEECES)), 3)
        )
        assert best.difference <= grid + 1e-6


@settings(max_examples=10, deadline=None)
@given(
    st.tuples(st.integers(25, 80), st.integers(-25, 30), st.integers(-25, 50)),
    st.integers(1, 4),
    st.integers(4, 400),
)
def test_grams_sum_to_the_batch_and_shares_to_one(target, most_parts: int, batch: int) -> None:
    plan = plan_blend(tuple(map(float, target)), shelf(), most_parts=most_parts, batch_g=batch)
    for blend in (plan.best, *plan.by_parts):
        masses = [part.mass_g for part in blend.parts]
        assert math.fsum(masses) == pytest.approx(batch)
        assert blend.batch_g == pytest.approx(batch)
        assert all(mass >= 1 and mass == round(mass) for mass in masses)
        assert math.fsum(part.share for part in blend.parts) == pytest.approx(1)
        assert len(blend.parts) <= most_parts
        names = [part.name for part in blend.parts]
        expected = predicted(names, [part.share for part in blend.parts])
        assert blend.lab == pytest.approx(expected, abs=1e-6)
        assert blend.difference == pytest.approx(float(ciede2000(expected, np.array(target))))


def test_rounding_takes_the_weighing_that_comes_nearest() -> None:
    target = tuple(predicted(["lemon", "blue"], [0.63, 0.37]).tolist())
    pair = plan_blend(target, shelf(), most_parts=2, batch_g=10).by_parts[1]
    ways = {
        n: float(ciede2000(predicted(["lemon", "blue"], [n / 10, 1 - n / 10]), np.array(target)))
        for n in range(1, 10)
    }
    assert pair.difference == pytest.approx(min(ways.values()))


def test_finer_scales_come_nearer() -> None:
    target = tuple(predicted(["white", "black"], [0.985, 0.015]).tolist())
    whole = plan_blend(target, shelf(), most_parts=2, batch_g=20).by_parts[1]
    tenth = plan_blend(target, shelf(), most_parts=2, batch_g=20, step_g=0.1).by_parts[1]
    assert tenth.difference < whole.difference
    assert tenth.parts[1].mass_g == pytest.approx(0.3)


def test_no_more_is_taken_than_there_is() -> None:
    target = tuple(predicted(["lemon", "blue"], [0.7, 0.3]).tolist())
    plan = plan_blend(target, shelf(mass_g=60.0), most_parts=3, batch_g=100)
    for blend in plan.by_parts:
        assert all(part.mass_g <= 60.0 for part in blend.parts)
    message = (
        "shelf: must hold 200 g of fleece that comes to one blend; got 60 g. Ask for a smaller"
    )
    with pytest.raises(InputError, match=message):
        plan_blend((50.0, 0.0, 0.0), shelf(mass_g=10.0), batch_g=200)


def test_fewer_parts_are_taken_where_more_would_not_show() -> None:
    target = tuple(predicted(["lemon", "blue"], [0.6, 0.4]).tolist())
    plan = plan_blend(target, shelf(), most_parts=4)
    assert len(plan.best.parts) == 2


def test_a_colour_out_of_reach_says_what_is_missing() -> None:
    plan = plan_blend((60.0, 65.0, -5.0), shelf())
    assert plan.best.difference > 5
    assert "Nothing that can be carded from this shelf comes within CIEDE2000 5" in plan.warnings[0]
    assert "A fleece is missing that is" in plan.warnings[0]


def test_a_vivid_colour_out_of_reach_is_not_answered_with_grey() -> None:
    # By CIEDE2000 alone a greenish grey is 15 from this magenta, and rust 37.
    best = plan_blend((56.3, 88.1, -18.8), shelf(), most_parts=3).best
    assert best.lab[1] > 10  # a dull pink


def test_every_colour_is_called_a_guide_with_its_error() -> None:
    plan = plan_blend((50.0, 0.0, 10.0), shelf())
    assert plan.typical_error == pytest.approx(1.7)
    assert plan.guide == (
        "A guide: such predictions are typically off by CIEDE2000 1.7. "
        "First card a few grams, wash and dry them, and look."
    )
    photographed = plan_blend((50.0, 0.0, 10.0), shelf(), target_from_photo=True)
    assert photographed.typical_error == pytest.approx(math.hypot(1.7, 4.0))


def test_yarn_rows_are_used_when_there_is_no_fleece_and_that_is_said() -> None:
    plan = plan_blend((50.0, 0.0, 10.0), shelf(kind="yarn"))
    assert plan.warnings[0].startswith("No row of kind fleece on the shelf")
    both = Shelf(
        file="s.csv",
        yarns=(
            *shelf(white=FLEECES["white"]).yarns,
            *shelf(kind="yarn", rust=FLEECES["rust"]).yarns,
        ),
    )
    assert [part.name for part in plan_blend(FLEECES["rust"], both).best.parts] == ["white"]


def test_unlike_fibres_are_pointed_out() -> None:
    yarns = (
        ShelfYarn(name="white", lab=FLEECES["white"], hex="#000000", kind="fleece", fibre="cotton"),
        ShelfYarn(name="black", lab=FLEECES["black"], hex="#000000", kind="fleece", fibre="wool"),
    )
    target = tuple(predicted(["white", "black"], [0.8, 0.2]).tolist())
    plan = plan_blend(target, Shelf(file="s.csv", yarns=yarns))
    assert "unlike fibre (cotton, wool)" in plan.warnings[-1]
    assert blend_constant(("bamboo", "viscose")) == 0.109


@pytest.mark.parametrize(
    ("fibres", "constant"),
    [
        (("acrylic", "soft acrylic"), 0.11),
        (("acrylic", "wool"), 0.15),
        (("viscose", "acrylic"), 0.15),
        ((), 0.15),
    ],
)
def test_the_constant_is_that_of_the_fibre_where_all_is_of_one(fibres, constant) -> None:
    assert blend_constant(fibres) == constant


def test_an_unknown_fibre_is_named() -> None:
    yarns = (
        ShelfYarn(name="white", lab=FLEECES["white"], hex="#000000", kind="fleece", fibre="zork"),
        ShelfYarn(name="black", lab=FLEECES["black"], hex="#000000", kind="fleece", fibre="wool"),
    )
    target = tuple(predicted(["white", "black"], [0.8, 0.2]).tolist())
    plan = plan_blend(target, Shelf(file="s.csv", yarns=yarns))
    assert plan.warnings[-1].startswith("Of unknown fibre: zork; the law is for parts of one")


def test_a_large_shelf_still_finds_a_near_blend() -> None:
    random = np.random.default_rng(5)
    labs = random.uniform([15, -40, -40], [90, 40, 60], (120, 3))
    model = Fleeces(labs, constant=0.15)
    pool = most_useful(model, [50.0, 5.0, 20.0])
    assert len(pool) == 24
    assert best_of_size(model, [50.0, 5.0, 20.0], 3, among=pool)[0].difference < 0.2


@given(st.lists(st.floats(0.01, 1), min_size=1, max_size=4), st.integers(1, 300))
def test_every_rounding_keeps_the_total_and_every_part(weights: list[float], steps: int) -> None:
    shares = tuple(weight / math.fsum(weights) for weight in weights)
    ways = whole_steps(shares, steps)
    assert all(sum(way) == steps and min(way) >= 1 for way in ways)
    if min(shares) * steps >= 1:
        assert ways
        assert all(
            abs(n - share * steps) <= 1 + 1e-6
            for way in ways
            for n, share in zip(way, shares, strict=True)
        )


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"most_parts": 0}, "parts: must be from 1 to 4; got 0"),
        ({"most_parts": 5}, "parts: must be from 1 to 4; got 5"),
        ({"batch_g": 0.0}, "batch: must be more than 0 g, and finite; got 0"),
        ({"batch_g": float("nan")}, "batch: must be more than 0 g, and finite; got nan"),
        ({"batch_g": 12.5}, "batch: must be a multiple of 1 g, which the scales can weigh; got 12"),
        ({"step_g": 0.0}, "step: must be more than 0 g, and finite; got 0"),
    ],
)
def test_what_cannot_be_carded_is_refused(asked: dict, message: str) -> None:
    with pytest.raises(InputError, match=message):
        plan_blend((50.0, 0.0, 10.0), shelf(), **asked)


def test_other_refusals() -> None:
    with pytest.raises(InputError, match="target: must be three finite CIELAB numbers; got"):
        plan_blend((50.0, float("nan"), 10.0), shelf())
    with pytest.raises(InputError, match="shelf: must have something with more than 0 g left"):
        plan_blend((50.0, 0.0, 10.0), shelf(mass_g=0.0))
    with pytest.raises(InputError, match="part 'rust': share must be more than 0 and at most 1"):
        BlendPart(name="rust", hex="#000000", share=0.0)
    half = BlendPart(name="rust", hex="#000000", share=0.5)
    with pytest.raises(InputError, match=r"blend: shares must sum to 1; got 0\.5"):
        Blend(parts=(half,), lab=(1, 2, 3), hex="#000000", difference=0.0)
    assert Blend(parts=(half, half), lab=(1, 2, 3), hex="#000000", difference=0.0).batch_g is None


@pytest.mark.parametrize(
    ("to", "words"),
    [
        ((70.0, 10.0, 10.0), "lighter"),
        ((50.0, 30.0, 30.0), "brighter"),
        ((35.0, 2.0, 2.0), "darker and greyer"),
        ((50.0, -10.0, 10.0), "greener"),
        ((50.5, 10.0, 10.0), "a little different"),
    ],
)
def test_what_is_missing_in_words(to: tuple[float, float, float], words: str) -> None:
    assert way_to_go((50.0, 10.0, 10.0), to) == words


def test_more_fleeces_than_can_be_tried_are_refused() -> None:
    fleeces = tuple(
        ShelfYarn(name=f"{number}", lab=(50.0, 0.0, 0.0), hex="#777777", kind="fleece")
        for number in range(301)
    )
    said = r"shade\.csv: must hold at most 300 fleeces to blend from; got 301"
    with pytest.raises(TableError, match=said):
        plan_blend((50.0, 0.0, 0.0), Shelf(file="shade.csv", yarns=fleeces))
