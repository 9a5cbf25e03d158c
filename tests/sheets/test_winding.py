"""Whole turns round a card, in proportion."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import InputError
from palette.sheets.winding import plan_winding
from palette.swatches.palette import Palette, Swatch
from tests.strategies import palettes


def palette_of(*shares: float) -> Palette:
    return Palette(
        swatches=tuple(
            Swatch(name=f"colour {n}", lab=(50.0, 0.0, 0.0), hex=f"#{n:06x}", share=share)
            for n, share in enumerate(shares)
        )
    )


def test_largest_remainder_against_a_worked_apportionment() -> None:
    """Hamilton's method on the United States census of 1790, House of 120 seats.

    Populations and the seats that the method gives: M. L. Balinski and H. P. Young, Fair
    Representation, 2nd ed. (2001), table of the 1791 apportionment. A turn stands for a seat.
    """
    populations = {
        "Connecticut": (236_841, 8),
        "Delaware": (55_540, 2),
        "Georgia": (70_835, 2),
        "Kentucky": (68_705, 2),
        "Maryland": (278_514, 9),
        "Massachusetts": (475_327, 16),
        "New Hampshire": (141_822, 5),
        "New Jersey": (179_570, 6),
        "New York": (331_589, 11),
        "North Carolina": (353_523, 12),
        "Pennsylvania": (432_879, 14),
        "Rhode Island": (68_446, 2),
        "South Carolina": (206_236, 7),
        "Vermont": (85_533, 3),
        "Virginia": (630_560, 21),
    }
    total = sum(people for people, _ in populations.values())
    palette = palette_of(*(people / total for people, _ in populations.values()))
    winding = plan_winding(palette, card_width_mm=120, wraps_per_cm=10)
    assert [yarn.turns for yarn in winding.yarns] == [seats for _, seats in populations.values()]


@settings(max_examples=60, deadline=None)
@given(palettes(), st.floats(80, 300), st.floats(2, 20))
def test_turns_sum_and_stay_within_one_of_their_share(palette, width, wraps) -> None:
    winding = plan_winding(palette, card_width_mm=width, wraps_per_cm=wraps, least=0)
    assert winding.turns == int(width / 10 * wraps + 1e-9)
    for yarn in winding.yarns:
        assert abs(yarn.turns - yarn.share * width / 10 * wraps) <= 1 + 1e-6
    assert winding.width_mm <= width + 1e-6


@settings(max_examples=60, deadline=None)
@given(palettes(), st.data())
def test_yarns_of_different_thickness_fill_the_card_without_overflowing(palette, data) -> None:
    wraps = {s.name: data.draw(st.floats(4, 20)) for s in palette.swatches}
    winding = plan_winding(palette, card_width_mm=120, wraps_per_cm=wraps)
    thickest = 10 / min(wraps.values())
    assert 120 - len(palette.swatches) * thickest <= winding.width_mm <= 120 + 1e-6
    assert all(yarn.turns >= 1 for yarn in winding.yarns)


def test_an_accent_is_seen_and_it_is_said() -> None:
    winding = plan_winding(palette_of(0.7, 0.299, 0.001), card_width_mm=50, wraps_per_cm=10)
    assert [yarn.turns for yarn in winding.yarns] == [34, 15, 1]
    assert winding.notes == ("colour 2 gets 1 turn, not the 0 of its share, so that it is seen.",)


def test_turns_are_numbered_as_they_are_wound() -> None:
    winding = plan_winding(palette_of(0.5, 0.3, 0.2), card_width_mm=100, wraps_per_cm=10)
    assert [(y.first_turn, y.last_turn) for y in winding.yarns] == [(1, 50), (51, 80), (81, 100)]


def test_refusals() -> None:
    palette = palette_of(0.5, 0.5)
    with pytest.raises(InputError, match="card width: must be more than 0; got nan mm"):
        plan_winding(palette, card_width_mm=float("nan"), wraps_per_cm=10)
    with pytest.raises(InputError, match="wraps of colour 0: must be more than 0 per cm; got 0"):
        plan_winding(palette, card_width_mm=50, wraps_per_cm=0)
    with pytest.raises(InputError, match="wraps of colour 1: must be given"):
        plan_winding(palette, card_width_mm=50, wraps_per_cm={"colour 0": 9})
    with pytest.raises(
        InputError, match="card width: must hold 3 of each colour: 60 mm; got 50 mm"
    ):
        plan_winding(palette, card_width_mm=50, wraps_per_cm=1, least=3)
