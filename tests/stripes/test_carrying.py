"""What a longer carry would save, and when that is worth a word."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.measures import Units
from palette.stripes.carrying import carry_note, longer_carry
from palette.stripes.handling import handling_of
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette
from tests.strategies import palettes


@pytest.fixture
def ground(pair: Palette) -> StripePlan:
    """Moss as the ground, with a line of sky every 20 picks, and one far away."""
    moss, sky = map(Weft.of, pair.swatches)
    pieces = [Piece(moss, 20), Piece(sky, 12)] * 8 + [Piece(moss, 20)]
    return StripePlan(
        palette=pair, stripes=number_picks(pieces), picks_per_cm=8, finished_length_mm=100
    )


def test_the_note_names_the_carry_and_what_it_saves(ground: StripePlan) -> None:
    assert carry_note(ground) == (
        "Wefts are carried up to 1.0 cm (8 picks), and cut where they are away for longer: "
        "17 starts. --carry 2.5cm saves 15 of them.",
    )
    assert handling_of(ground, carry_picks=20).total_starts == 2
    assert "up to 0.4 in (8 picks)" in carry_note(ground, Units.IMPERIAL)[0]
    assert "--carry 1in saves 15" in carry_note(ground, Units.IMPERIAL)[0]


def test_a_carry_that_was_asked_for_is_left_alone(ground: StripePlan) -> None:
    assert carry_note(replace(ground, carry_picks=8)) == ()


def test_nothing_is_said_where_little_is_saved(pair: Palette) -> None:
    assert carry_note(plan_stripes(pair, length_mm=1800, picks_per_cm=8)) == ()


def test_the_limit_on_shuttles_is_kept(ground: StripePlan) -> None:
    assert longer_carry(replace(ground, shuttles=1)) is None


@given(palettes(), st.sampled_from(["scattered", "hit-and-miss", "mirrored"]))
def test_what_is_promised_comes_true(palette: Palette, order: str) -> None:
    plan = plan_stripes(palette, length_mm=900, picks_per_cm=8, order=order)
    found = longer_carry(plan)
    if found is not None:
        carry, saved = found
        usual = handling_of(plan)
        assert usual.carry_picks < carry <= 20
        fewer = handling_of(plan, carry_picks=carry).total_starts
        assert usual.total_starts - fewer == saved >= 3
