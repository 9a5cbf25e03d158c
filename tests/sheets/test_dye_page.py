"""The printed dye page: everything a dyer needs, on one page for an ordinary day."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_day import DyeDay
from palette.dyeing.planning import plan_dye_day
from palette.plans.plan import Plan
from palette.sheets.dye_page import draw_dye_day
from palette.sheets.grid import Flow
from palette.sheets.page import Page, Words
from palette.sheets.style import PAPERS
from palette.yarn.amounts import YarnAmount

HEXES = ("#5d733a", "#3c4f2c", "#e8d36b", "#6a4a33", "#4a545c", "#a9b86a") * 2
RECIPE = (("old gold", 0.8), ("navy", 0.3))


def day_of(colours: int, wishes: Mapping[str, Any]) -> DyeDay:
    yarns = tuple(
        YarnAmount(
            colour=f"leaf {index + 1}", hex=HEXES[index], use="weft", count="Nm 2/8", tex=250.0,
            picks=400, starts=5, net_length_m=330.0, length_m=363.0, mass_g=160.0,
        )
        for index in range(colours)
    )  # fmt: skip
    return plan_dye_day(yarns, asked=DyeAsked(**wishes))


def pages_of(plan: Plan, day: DyeDay, paper: str) -> list[Page]:
    flow = Flow(paper=PAPERS[paper], pages=[])
    draw_dye_day(flow, plan, day)
    return flow.pages


def words_on(pages: list[Page]) -> list[str]:
    return [mark.text for page in pages for mark in page.marks if isinstance(mark, Words)]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("fibre", ["wool", "cotton"])
def test_an_ordinary_day_fits_one_page(plan_maker, paper: str, fibre: str) -> None:
    day = day_of(6, {"fibre": fibre})
    pages = pages_of(plan_maker(), day, paper)
    assert len(pages) == 1
    assert max(mark.y for mark in pages[0].marks if isinstance(mark, Words)) < 265


def test_every_dye_of_a_bath_is_there(plan_maker) -> None:
    day = day_of(3, {"fibre": "wool", "recipes": (("leaf 1", RECIPE),)})
    words = words_on(pages_of(plan_maker(), day, "A4"))
    assert {"old gold 0.8 %", "navy 0.3 %", "old gold", "navy"} <= set(words)
    assert "stock of 1 %: 1 g of dye in 100 ml" in words
    assert "2 of 100 g" in words


def test_mixed_yarn_names_the_class_and_vinegar_its_strength(plan_maker) -> None:
    day = day_of(2, {"fibre": "60% wool 40% bamboo", "acid": "vinegar", "vinegar_percent": 8.0})
    words = words_on(pages_of(plan_maker(), day, "A4"))
    assert "vinegar (8 %)" in words
    assert any(text.startswith("reactive dye, with salt") for text in words)
    assert any(text.startswith("acid dye, with vinegar (8 %)") for text in words)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_mordant_baths_stand_among_the_fillings_with_all_their_words(plan_maker, paper) -> None:
    day = day_of(6, {"fibre": "wool", "natural": True, "pots_ml": (12_000.0, 9000.0)})
    words = words_on(pages_of(plan_maker(), day, paper))
    text = " ".join(words)
    assert not any(word.endswith("…") for word in words)
    for bath in day.mordant_baths:
        assert f"M{bath.number}" in words
        assert f"skeins of {', '.join(bath.colours)}" in text
    assert "100 %, suggested" in words
    assert len(day.mordant_baths) > 2


def test_all_cautions_are_printed(plan_maker) -> None:
    day = day_of(2, {"fibre": "cotton"})
    text = " ".join(words_on(pages_of(plan_maker(), day, "A4")))
    assert all(caution.text in text for caution in day.cautions)


def test_many_notes_go_on(plan_maker) -> None:
    day = replace(day_of(12, {"fibre": "wool"}), warnings=tuple(f"Note {i}." for i in range(150)))
    pages = pages_of(plan_maker(), day, "Letter")
    assert len(pages) > 1
    assert {f"Note {i}." for i in range(150)} <= set(words_on(pages))
