import math

import pytest

from palette.plans.brief import Brief
from palette.plans.making import make_plan
from palette.plans.skeins import dye_skeins_of, skein_of, skein_words, skeins_of
from palette.swatches.palette import Palette
from palette.yarn.count import parse_count


def test_a_plan_without_a_size_has_no_skeins(hedge: Palette) -> None:
    plan = make_plan(Brief.of({}), hedge)
    assert skein_of(plan) is None
    assert skeins_of(plan) == skein_words(plan) == dye_skeins_of(plan) == ()


def test_every_yarn_is_rounded_up_to_whole_skeins(hedge: Palette) -> None:
    plan = make_plan(Brief.of({"skein": "50g"}), hedge)
    for yarn, skeins, words in zip(plan.yarns, skeins_of(plan), skein_words(plan), strict=True):
        assert skeins.number == math.ceil(yarn.mass_g / 50)
        assert words == f"{skeins.number} ({50 * skeins.number} g)"
    assert dye_skeins_of(plan) == (("weft", 50.0), ("warp", 50.0))


def test_a_skein_of_a_length_weighs_more_in_a_thicker_yarn(hedge: Palette) -> None:
    brief = Brief.of({"skein": "250m", "weft": "Nm 2/8", "warp": "Nm 2/20"})
    assert dict(dye_skeins_of(make_plan(brief, hedge))) == {
        "weft": pytest.approx(parse_count("Nm 2/8").mass_g(250)),
        "warp": pytest.approx(parse_count("Nm 2/20").mass_g(250)),
    }


def test_nobody_dyes_yarn_on_its_cone(hedge: Palette) -> None:
    plan = make_plan(Brief.of({"skein": "540g, tare 40g"}), hedge)
    assert skeins_of(plan)[0].mass_g == 500
    assert dye_skeins_of(plan) == ()


def test_figures_are_in_the_units_of_the_plan(hedge: Palette) -> None:
    plan = make_plan(Brief.of({"skein": "4 oz", "units": "imperial"}), hedge)
    assert skein_words(plan)[0].endswith(" oz)")
