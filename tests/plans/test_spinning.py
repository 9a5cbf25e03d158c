import math

import pytest

from palette.errors import UnitError
from palette.plans.brief import Brief
from palette.plans.making import make_plan
from palette.plans.spinning import bobbins_of, spinning_rows
from palette.swatches.palette import Palette


def test_nothing_is_spun_where_no_bobbin_is_named(hedge: Palette) -> None:
    plan = make_plan(Brief.of({}), hedge)
    assert bobbins_of(plan) == ()
    assert spinning_rows(plan) == []


@pytest.mark.parametrize("count", ["Nm 2/8", "NeC 20 + 10", "400 m/100 g", "Nm 3/12"])
def test_the_singles_weigh_what_the_yarn_weighs(hedge: Palette, count: str) -> None:
    plan = make_plan(Brief.of({"bobbin": "40g", "weft": count}), hedge)
    for yarn, spun in bobbins_of(plan):
        assert math.fsum(spun.singles_g) == pytest.approx(yarn.mass_g)
        assert all(
            (number - 1) * 40 < mass <= number * 40
            for mass, number in zip(spun.singles_g, spun.bobbins, strict=True)
        )


def test_plying_takes_up_what_the_count_says(hedge: Palette) -> None:
    """Own: 95 m of yarn for 100 m of singles."""
    plan = make_plan(Brief.of({"bobbin": "40g", "weft": "Nm 2/8, contraction 5%"}), hedge)
    yarn, spun = bobbins_of(plan)[0]
    assert spun.singles_m[0] == pytest.approx(yarn.length_m / 0.95)


def test_like_singles_stand_in_one_row_and_unlike_ones_in_two(hedge: Palette) -> None:
    like = make_plan(Brief.of({"bobbin": "1000g", "weft": "Nm 2/8"}), hedge)
    assert {(row[2], row[5]) for row in spinning_rows(like)} == {("2", "2 × 1")}
    unlike = make_plan(Brief.of({"bobbin": "1000g", "weft": "NeC 20 + 10"}), hedge)
    first, second, *_ = spinning_rows(unlike)
    assert (first[0], first[2]) == (second[0], second[2])
    assert first[4] != second[4]


def test_a_bobbin_is_a_mass() -> None:
    with pytest.raises(UnitError, match="bobbin: must carry a unit; got '50'"):
        Brief.of({"bobbin": "50"})
    with pytest.raises(UnitError, match="bobbin: "):
        Brief.of({"bobbin": "50m"})
