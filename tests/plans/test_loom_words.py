"""The dressing of the loom in words."""

import dataclasses

from palette.plans.brief import Brief
from palette.plans.loom_words import (
    heddle_words,
    hem_words,
    plan_sley,
    reed_named,
    reed_width_words,
    reed_words,
    selvedge_words,
    treadling_words,
    weave_words,
)
from palette.plans.making import make_plan
from palette.swatches.palette import Palette

TOWEL = {"length": "60cm", "width": "45cm", "sett": "8/cm", "picks": "8/cm", "fringe": "0cm"}


def test_the_reed_stands_as_it_was_typed(hedge: Palette) -> None:
    plan = make_plan(Brief.of({**TOWEL, "reed": ["10/in", "12/in"]}), hedge)
    assert reed_named(plan, plan.sley) == "10/in"
    assert reed_words(plan) == "10/in, 2 to a dent"
    assert reed_width_words(plan) == "53.3 cm, 210 dents"
    unnamed = dataclasses.replace(plan, asked=())
    assert reed_words(unnamed) == "3.94/cm, 2 to a dent"


def test_without_a_reed_there_are_no_words_for_it(hedge: Palette) -> None:
    plan = make_plan(Brief.of(TOWEL), hedge)
    assert plan_sley(plan) is None
    assert reed_words(plan) == ""
    assert reed_width_words(plan) == "53.2 cm"


def test_a_plan_without_a_sley_takes_the_best_reed_of_its_brief(hedge: Palette) -> None:
    plan = make_plan(Brief.of({**TOWEL, "reed": ["5/in", "10/in"]}), hedge)
    assert plan_sley(dataclasses.replace(plan, sley=None)).dents_per_cm == plan.sley.dents_per_cm


def test_hems_are_named_with_their_treadles(hedge: Palette) -> None:
    """3 cm finished are 26 picks at 8 to the centimetre, 10 % shrinkage."""
    plan = make_plan(Brief.of({**TOWEL, "weave": "2/2 twill", "hem": "3cm"}), hedge)
    (cloth,) = plan.cloths
    words = "hem 5 6 to pick 26; 1 2 3 4, repeat, to pick 508; hem 5 6 to pick 534"
    assert treadling_words(plan, cloth) == words
    assert weave_words(plan) == "1 2 3 4, repeat; hems on 5 and 6"
    assert hem_words(plan, cloth, 1) == hem_words(plan, cloth, 534) == "treadles 5 and 6"
    assert hem_words(plan, cloth, 27) == ""
    assert selvedge_words(plan) == "1 floating end more each side"
    assert heddle_words(plan) == "1: 107, 2: 107, 3: 106, 4: 106"


def test_plain_weave_has_no_treadles_apart(hedge: Palette) -> None:
    plan = make_plan(Brief.of({**TOWEL, "hem": "3cm"}), hedge)
    assert treadling_words(plan, plan.cloths[0]) == "1 2, repeat"
    assert weave_words(plan) == "1 2, repeat"
    assert hem_words(plan, plan.cloths[0], 1) == ""
    assert selvedge_words(plan) == ""
