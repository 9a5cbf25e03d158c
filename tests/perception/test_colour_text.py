"""Colours as a person types them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.perception.colour_text import parse_colour
from palette.perception.spaces import hex_to_lab


@given(st.integers(0, 0xFFFFFF), st.booleans())
def test_every_hex_with_and_without_its_mark(code, capitals) -> None:
    digits = f"{code:06X}" if capitals else f"{code:06x}"
    assert parse_colour(f"#{digits}") == parse_colour(digits) == hex_to_lab(f"#{code:06x}")


def test_three_digits_need_their_mark() -> None:
    assert parse_colour("#5a3") == hex_to_lab("#55aa33")
    with pytest.raises(InputError, match=r"^colour: must be a colour; got '5a3'"):
        parse_colour("5a3")


@pytest.mark.parametrize(
    "text", ["45 -15 29", " 45, -15, 29 ", "lab 45 -15 29", "LAB(45, -15, 29)", "45.0 -15.0 +29.0"]
)
def test_cielab(text) -> None:
    assert parse_colour(text) == (45.0, -15.0, 29.0)


def test_names_of_the_survey() -> None:
    # The xkcd colour survey (2010): moss green is #658b38.
    assert parse_colour("Moss Green") == hex_to_lab("#658b38")


@pytest.mark.parametrize("text", ["101 0 0", "-1 0 0", "50 190 190"])
def test_cielab_that_no_colour_has(text) -> None:
    with pytest.raises(InputError, match="CIELAB must have L from 0 to 100 and a chroma up to 200"):
        parse_colour(text)


@pytest.mark.parametrize("text", ["", "#12345", "#1234567", "#12 345", "45 -15", "leafish", "#ggg"])
def test_what_is_no_colour(text) -> None:
    with pytest.raises(InputError, match=r"^keep: must be a colour"):
        parse_colour(text, thing="keep")
