"""What a yarn is made of."""

import pytest

from palette.dyeing.fibres import FibreContent, FibrePart, read_fibre
from palette.errors import InputError


@pytest.mark.parametrize(
    ("text", "family"),
    [
        ("wool", "protein"),
        ("Merino wool", "protein"),
        ("baby alpaca", "protein"),
        ("kid mohair", "protein"),
        ("Tussah silk", "protein"),
        ("cotton", "cellulose"),
        ("linen", "cellulose"),
        ("bamboo viscose", "cellulose"),
        ("cottolin", "cellulose"),
        ("nylon", "polyamide"),
        ("polyester", "other"),
    ],
)
def test_single_fibres(text: str, family: str) -> None:
    content = read_fibre(text)
    assert [(part.family, part.share) for part in content.parts] == [(family, 1.0)]
    assert content.shares_given
    assert not content.mixed


@pytest.mark.parametrize(
    ("text", "protein", "mixed", "given"),
    [
        ("wool and bamboo", 0.5, True, False),
        ("60% wool, 40% bamboo", 0.6, True, True),
        ("62,5 % wool + 37,5 % linen", 0.625, True, True),
        ("70% alpaca 30% silk", 1.0, False, True),
        ("cotton/linen", 0.0, False, False),
        ("wool with cotton & linen", 1 / 3, True, False),
    ],
)
def test_mixed_fibres(text: str, protein: float, mixed: bool, given: bool) -> None:
    content = read_fibre(text)
    assert content.share_of("protein") == pytest.approx(protein)
    assert (content.mixed, content.shares_given) == (mixed, given)


def test_wool_and_nylon_take_the_same_dye() -> None:
    assert not read_fibre("75% wool 25% nylon").mixed


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "fibre: must name a fibre; got ''"),
        ("mystery", "fibre: must be a fibre that is known; got 'mystery'. Known are: "),
        ("60% wool, bamboo", "fibre: must give a share for every fibre or for none"),
        ("60% wool 50% silk", "fibre '60% wool 50% silk': parts must sum to 100 %; got 110 %"),
        ("50%", "fibre: must name a fibre; got '50%'"),
    ],
)
def test_what_cannot_be_read_is_refused(text: str, message: str) -> None:
    with pytest.raises(InputError, match=message):
        read_fibre(text)


def test_parts_are_checked_when_made() -> None:
    half = FibrePart(name="wool", family="protein", share=0.5)
    with pytest.raises(InputError, match="parts must sum to 100 %; got 50 %"):
        FibreContent(text="half", parts=(half,))
