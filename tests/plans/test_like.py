"""A cloth with the stripes of another plan: which colour became which, and its limits."""

from dataclasses import replace

import pytest

from palette.plans.brief import Brief
from palette.plans.like import cloth_like
from palette.plans.making import plan_cloth
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette


@pytest.fixture
def other(hedge: Palette) -> Palette:
    names = ("ochre", "ink", "clay", "ash")
    labs = ((60.0, 15.0, 60.0), (15.0, 0.0, -5.0), (50.0, 20.0, 30.0), (80.0, 0.0, 2.0))
    codes = ("#bb8814", "#22262e", "#a5684a", "#c8c6c3")
    return Palette(
        swatches=tuple(
            replace(swatch, name=name, lab=lab, hex=code)
            for swatch, name, lab, code in zip(hedge.swatches, names, labs, codes, strict=True)
        )
    )


def test_each_old_colour_is_told_with_the_one_in_its_place(hedge: Palette, other: Palette) -> None:
    old = plan_cloth(Brief.of({"order": "light-dark"}), hedge)
    made = cloth_like(Brief.of({"length": "90cm"}), other, old)
    assert [(before.name, after.name) for before, after in made.colours] == [
        ("chalk", "ash"),
        ("straw", "ink"),
        ("moss", "ochre"),
        ("rust", "clay"),
    ]
    assert made.cloth.colours == ("ash", "ink", "ochre", "clay")
    assert made.not_woven == ()


def test_the_same_colours_stay_and_need_no_table(hedge: Palette) -> None:
    old = plan_cloth(Brief.of({}), hedge)
    made = cloth_like(Brief.of({"length": "90cm"}), hedge, old)
    assert made.colours == ()
    assert made.cloth.colours == old.colours


def test_a_name_alone_is_not_the_same_colour(hedge: Palette, other: Palette) -> None:
    old = plan_cloth(Brief.of({}), hedge)
    first = replace(other.swatches[0], name="moss")
    namesake = Palette(swatches=(first, *hedge.swatches[1:]))
    made = cloth_like(Brief.of({}), namesake, old)
    assert {a.hex: b.hex for a, b in made.colours}["#5d733a"] == first.hex
    assert first.hex in {stripe.hex for stripe in made.cloth.stripes}


def test_colours_without_a_stripe_are_named(hedge: Palette, other: Palette) -> None:
    two = Palette(swatches=tuple(replace(s, share=0.5) for s in hedge.swatches[:2]))
    made = cloth_like(Brief.of({}), other, plan_cloth(Brief.of({}), two))
    assert made.not_woven == ("clay", "ash")


def test_repeats_and_limits_of_the_brief_act(hedge: Palette) -> None:
    old = plan_cloth(Brief.of({"order": "light-dark", "length": "60cm"}), hedge)
    asked = {"repeats": 3, "length": "180cm", "shuttles": 2, "carry": "2cm"}
    cloth = cloth_like(Brief.of(asked), hedge, old).cloth
    assert [s.colour for s in cloth.stripes] == [s.colour for s in old.stripes] * 3
    assert (cloth.shuttles, cloth.carry_picks) == (2, 16)


def test_a_found_repeat_keeps_its_width(hedge: Palette) -> None:
    wefts = [Weft.of(swatch) for swatch in hedge.swatches]
    pieces = [Piece(weft, picks) for weft, picks in zip(wefts, (8, 4, 12, 4), strict=True)]
    old = replace(
        plan_cloth(Brief.of({}), hedge),
        stripes=number_picks([*pieces, *pieces[:3]]),
        repeat_stripes=4,
    )
    cloth = cloth_like(Brief.of({"length": "100cm"}), hedge, old).cloth
    assert [s.picks for s in cloth.stripes[4:8]] == [8, 4, 12, 4]
    assert "is woven at its own width, 31 times" in cloth.warnings[0]
