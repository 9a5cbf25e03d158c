import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.stripes.choices import choices, pick
from palette.stripes.planning import plan_stripes
from palette.swatches.palette import Palette
from tests.strategies import palettes


def test_sheet_holds_many_numbered_arrangements(hedge: Palette) -> None:
    sheet = choices(hedge, length_mm=1800, picks_per_cm=8, least=4, seed=7)
    assert [choice.number for choice in sheet] == list(range(1, 17))
    assert len({choice.how for choice in sheet}) == 16
    assert all(len(choice.how) < 80 for choice in sheet)
    assert len({choice.plan.order for choice in sheet}) >= 10
    assert {choice.plan.total_picks for choice in sheet} == {1600}


@settings(max_examples=25, deadline=None)
@given(palettes(), st.integers(0, 50))
def test_no_two_are_alike_and_each_can_be_made_again(palette: Palette, seed: int) -> None:
    common = {"length_mm": 1800, "picks_per_cm": 8, "least": 4}
    sheet = choices(palette, **common, seed=seed)
    assert sheet == choices(palette, **common, seed=seed)
    assert len({tuple((s.colour, s.picks) for s in c.plan.stripes) for c in sheet}) == len(sheet)
    assert len(sheet) >= (12 if len(palette.swatches) > 1 else 1)
    for choice in sheet:
        again = plan_stripes(palette, **common, **{"seed": seed, **dict(choice.settings)})
        assert pick(sheet, choice.number) == choice.plan == again


def test_another_seed_changes_only_what_chance_made(hedge: Palette) -> None:
    one, other = (choices(hedge, length_mm=1800, picks_per_cm=8, seed=seed) for seed in (1, 50))
    for a, b in zip(one, other, strict=True):
        assert (a.plan.stripes == b.plan.stripes) == (a.plan.order != "hit-and-miss")


def test_numbers_and_counts_are_checked(hedge: Palette) -> None:
    sheet = choices(hedge, length_mm=1800, picks_per_cm=8)
    with pytest.raises(InputError, match="pick: must be from 1 to 16; got 17"):
        pick(sheet, 17)
    with pytest.raises(InputError, match="choices: must be at least 12; got 3"):
        choices(hedge, length_mm=1800, picks_per_cm=8, count=3)


def test_a_cloth_that_cannot_be_woven_is_refused(hedge: Palette) -> None:
    with pytest.raises(WeavingError, match="8 colours in the order photo: must fit"):
        choices(hedge, length_mm=10, picks_per_cm=8)
