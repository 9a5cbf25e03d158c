import pytest

from palette.cloth.weft_yarns import MarledYarn, PlainYarn, VariegatedYarn
from palette.cloth.yarn_text import parse_weft_yarn
from palette.errors import InputError
from palette.perception.spaces import hex_to_lab


def test_one_colour():
    assert parse_weft_yarn(" #5d733a ") == PlainYarn(lab=hex_to_lab("#5d733a"))


@pytest.mark.parametrize(
    "text",
    ["#5d733a 50cm/#c8b45a 35cm", "#5d733a 50 cm / #c8b45a 350 mm", "#5d733a 0.5 m / #c8b45a 35cm"],
)
def test_a_variegated_yarn(text):
    yarn = parse_weft_yarn(text)
    assert isinstance(yarn, VariegatedYarn)
    assert yarn.colours_lab == (hex_to_lab("#5d733a"), hex_to_lab("#c8b45a"))
    assert yarn.lengths_mm == pytest.approx((500, 350))


def test_lab_and_names_with_lengths():
    yarn = parse_weft_yarn("45 -15 29 20cm / moss green 30cm")
    assert yarn.colours_lab[0] == (45, -15, 29)
    assert yarn.lengths_mm == (200, 300)


def test_a_marl():
    assert parse_weft_yarn("#a3522b & #e8d9b0") == MarledYarn(
        first_lab=hex_to_lab("#a3522b"), second_lab=hex_to_lab("#e8d9b0")
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("#5d733a / #c8b45a 35cm", r"weft yarn: must give a length with every colour; got '#5d7"),
        ("#5d733a 50 / #c8b45a 35cm", r"must give a length with every colour; got '#5d733a 50'"),
        ("#5d733a 50cm /", r"must give a length with every colour; got ''"),
        ("#5d733a & #c8b45a & #000000", r"must be marled of two colours; got"),
        ("#5d733a 5 furlong / #c8b45a 35cm", r"unit must be one of"),
        ("no such colour 5cm / #c8b45a 35cm", r"weft yarn: "),
    ],
)
def test_refusals(text, message):
    with pytest.raises(InputError, match=message):
        parse_weft_yarn(text)
