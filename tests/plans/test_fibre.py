import pytest

from palette.dyeing.fibres import KNOWN_FIBRES
from palette.errors import BriefError, InputError
from palette.loom.fibres import FIBRES
from palette.plans.brief import Brief
from palette.plans.fibre import fibre_of, sett_fibre
from palette.plans.making import make_plan
from palette.swatches.palette import Palette


def test_every_fibre_that_is_read_has_a_constant_and_the_other_way_round() -> None:
    assert set(KNOWN_FIBRES) == set(FIBRES)


@pytest.mark.parametrize("name", KNOWN_FIBRES)
def test_every_known_fibre_is_taken_by_a_brief_as_itself(name: str) -> None:
    assert Brief.of({"fibre": name}).fibre == name
    assert sett_fibre(name).name == name


@pytest.mark.parametrize("text", ["zork", "", "12", "60% wool 40% zork", "wool and zork", "50%"])
def test_an_unknown_fibre_is_refused_by_its_key(text: str) -> None:
    with pytest.raises(InputError, match=r"^fibre: must (be a fibre that is known|name a fibre)"):
        Brief.of({"fibre": text})


def test_the_refusal_names_the_near_one_and_all_that_are_known() -> None:
    with pytest.raises(InputError, match=r"Did you mean alpaca\? Known are: .*silk, .*cotton, "):
        sett_fibre("alpacca")


def test_a_fibre_is_text() -> None:
    with pytest.raises(BriefError, match="fibre: must be text, in quotes; got 3"):
        Brief.of({"fibre": 3})


@pytest.mark.parametrize("fibre", ["cotton", "merino wool"])
def test_the_fibre_of_a_plan_is_as_it_was_typed(hedge: Palette, fibre: str) -> None:
    assert fibre_of(make_plan(Brief.of({"fibre": fibre}), hedge)) == fibre
