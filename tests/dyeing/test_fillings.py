"""Which bath goes into which pot, and when."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_day import MordantBath
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from tests.dyeing.day_yarn import yarn


def test_a_lot_stays_in_one_bath_where_a_pot_holds_it() -> None:
    asked = DyeAsked(fibre="wool", pots_ml=(8000.0, 20000.0), depths=(("moss", 1.0), ("rust", 1.0)))
    day = plan_dye_day((yarn("moss", 250.0), yarn("rust", 90.0)), asked=asked)
    assert [(bath.colour, bath.pot_ml, bath.round) for bath in day.baths] == [
        ("moss", 20000.0, 1),
        ("rust", 8000.0, 1),
    ]
    assert day.rounds == 1
    assert day.warnings == ()


def test_acid_baths_of_mixed_yarn_come_in_later_fillings() -> None:
    asked = DyeAsked(fibre="70% wool 30% bamboo", pots_ml=(12_000.0, 6000.0))
    day = plan_dye_day((yarn("moss", 180.0), yarn("rust", 90.0)), asked=asked)
    for lot in day.lots:
        reactive = [bath.round for bath in day.baths_of(lot) if bath.dye_class == "reactive"]
        acid = [bath.round for bath in day.baths_of(lot) if bath.dye_class == "acid"]
        assert reactive
        assert max(reactive) < min(acid)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.floats(1, 900), min_size=1, max_size=5),
    st.sampled_from(["wool", "cotton", "wool and bamboo"]),
)
def test_mordant_baths_have_a_pot_of_their_own_before_the_dye(masses, fibre) -> None:
    yarns = tuple(yarn(f"colour {i}", mass) for i, mass in enumerate(masses))
    asked = DyeAsked(fibre=fibre, natural=True, pots_ml=(20000.0, 9000.0))
    day = plan_dye_day(yarns, asked=asked)
    everything = (*day.mordant_baths, *day.baths)
    assert len({(bath.round, bath.pot_ml) for bath in everything}) == len(everything)
    assert all(bath.volume_ml <= bath.pot_ml * asked.fill * (1 + 1e-9) for bath in everything)
    for bath in day.baths:
        before = [each.round for each in day.mordant_baths if bath.colour in each.colours]
        assert before
        assert max(before) < bath.round
    assert day.rounds == max(bath.round for bath in everything)


def test_dye_need_not_wait_for_the_mordant_of_other_yarn() -> None:
    """Two pots, wool and cotton mordanted apart: what is ready is dyed at once."""
    asked = DyeAsked(
        fibre="wool", fibres=(("rust", "cotton"),), natural=True, pots_ml=(9000.0, 9000.0)
    )
    day = plan_dye_day((yarn("moss", 90.0), yarn("rust", 90.0)), asked=asked)
    assert [(bath.round, bath.pot_ml) for bath in day.mordant_baths] == [(1, 9000.0), (1, 9000.0)]
    assert [bath.round for bath in day.baths] == [2, 2]


def test_a_mordant_bath_larger_than_its_pot_is_refused() -> None:
    with pytest.raises(InputError, match="mordant bath 1: must fit its pot; got 9000 of 6000 ml"):
        MordantBath(
            number=1, colours=("moss",), skeins=3, dry_g=300.0, volume_ml=9000.0,
            assistants=(), pot_ml=6000.0,
        )  # fmt: skip
