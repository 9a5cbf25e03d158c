from pathlib import Path

import pytest

from palette.plans.brief import Brief
from palette.plans.cloths import cloth_briefs
from palette.plans.idle import idle_beside_choices, idle_notes
from palette.plans.options import OPTIONS, options_of


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"hem-colour": "moss"}, "hem-colour (there is no hem)"),
        ({"border-colour": "moss"}, "border-colour (there is no border)"),
        ({"soft-way": "between"}, "soft-way (there is no soft change)"),
        ({"swap": ["moss", "rust"]}, "swap (only for the order counterchange)"),
        ({"order": "hue", "direction": "left-right"}, "direction (only for the order photo)"),
        (
            {"inner": "hue"},
            "inner (only for the orders mirrored, repeated, counterchange, graded, fibonacci, "
            "scattered)",
        ),
        ({"palette": "a.json", "light": "A", "colours": 5}, "colours, light (the palette comes"),
        ({"photo": ["a.json"], "keep": ["moss"]}, "keep (the palette comes from a file)"),
        ({"stripes": "s.csv", "photo": ["a.jpg"], "length": "1m"}, "length (the stripes come from"),
        ({"stripes": "s.csv", "colours": 4}, "colours (the colours come from a table)"),
        ({"like": "one", "order": "hue", "seed": 4}, "order (the stripes are those of another"),
    ],
)
def test_what_has_nothing_to_act_on_is_named_with_its_reason(asked: dict, said: str) -> None:
    (note,) = idle_notes(Brief.of(asked))
    assert note.startswith(f"Not used: {said}")


@pytest.mark.parametrize(
    "asked",
    [
        {},
        {"hem": "3cm", "hem-colour": "moss", "border": "1cm", "border-colour": "moss"},
        {"soft": "2cm", "soft-way": "between"},
        {"order": "counterchange", "swap": ["moss", "rust"], "inner": "hue"},
        {"order": "mirrored", "direction": "left-right"},
        {"order": "hue", "ground": "moss"},
        {"photo": ["hedge.jpg"], "light": "A", "colours": 5, "keep": ["moss"]},
        {"stripes": "s.csv", "picks": "9/cm", "shuttles": 2},
        {"like": "one", "length": "1m", "repeats": 3},
        {key: option.default for key, option in OPTIONS.items() if key != "colours"},
    ],
)
def test_what_works_is_not_named(asked: dict) -> None:
    assert idle_notes(Brief.of(asked)) == ()


def test_a_drawdown_brings_its_stripes_and_its_palette() -> None:
    brief = Brief.of({"order": "hue", "picks": "9/cm", "light": "A"})
    assert idle_notes(brief, source=Path("towel.wif")) == (
        "Not used: light (the palette comes from a file).",
        "Not used: order (the stripes come from a drawdown).",
    )


def test_what_one_cloth_of_several_uses_is_used() -> None:
    brief = Brief.of(
        {"swap": ["moss", "rust"], "inner": "hue", "cloth": [{"order": "counterchange"}, {}]}
    )
    assert idle_notes(brief, cloth_briefs(brief)) == ()
    other = Brief.of({"swap": ["moss", "rust"], "cloth": [{"order": "mirrored"}, {}]})
    (note,) = idle_notes(other, cloth_briefs(other))
    assert note == "Not used: swap (only for the order counterchange)."


def test_beside_many_arrangements_their_own_order_is_not_asked_for() -> None:
    brief = Brief.of({"order": "hue", "soft": "2cm", "length": "1m", "hem-colour": "moss"})
    assert idle_beside_choices(brief, Path("hedge.jpg")) == (
        "Not used: order, soft (the arrangements differ in it).",
        "Not used: hem-colour (there is no hem).",
    )


def test_every_key_of_a_photograph_is_idle_beside_a_palette_file() -> None:
    other = {"colours": 5, "shadows": "fold"}
    for option in options_of("palette"):
        value = other.get(option.key, ("x",) if option.kind is tuple else "x")
        (note,) = idle_notes(Brief.of({option.key: value}), source=Path("a.json"))
        assert note == f"Not used: {option.key} (the palette comes from a file)."
