"""Widths of texts, and texts that no face can set."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.sheets.fonts import clean, fitted, properties, width_mm, wrapped
from palette.sheets.style import BODY, BOLD, LEDE, TITLE


@pytest.mark.parametrize("style", [BODY, BOLD, LEDE, TITLE])
def test_width_is_what_the_renderer_sets(style) -> None:
    """Against matplotlib's own text extent, kerning apart."""
    from matplotlib.textpath import TextPath

    text = "minimum 0123456789"
    drawn = TextPath((0, 0), text, size=100, prop=properties(text, style)).get_extents().width
    assert width_mm(text, style) == pytest.approx(drawn * style.points / 100 * 25.4 / 72, rel=0.03)


def test_figures_are_all_of_one_width_so_that_columns_align() -> None:
    assert len({round(width_mm(digit, BODY), 6) for digit in "0123456789"}) == 1


@given(st.text(max_size=30), st.floats(1, 60))
def test_fitted_text_fits(text: str, room: float) -> None:
    cut = fitted(clean(text), BODY, room)
    assert width_mm(cut, BODY) <= room or cut == "…"


@given(st.text(max_size=120))
def test_wrapped_lines_fit(text: str) -> None:
    for line in wrapped(clean(text), BODY, 40):
        assert width_mm(line, BODY) <= 40


@given(st.text(max_size=30))
def test_clean_text_has_no_line_breaks_and_can_be_set(text: str) -> None:
    plain = clean(text)
    assert "\n" not in plain
    assert clean(plain) == plain


def test_what_no_face_can_set_becomes_a_box() -> None:
    assert clean("moss 苔\u202e\n\tgreen") == "moss □ green"


def test_a_letter_that_the_roman_lacks_takes_the_sans() -> None:
    assert "DejaVu" in str(properties("ქართული", TITLE).get_file())
    assert "STIX" in str(properties("moss", TITLE).get_file())


def test_long_text_is_cut_at_the_last_line_allowed() -> None:
    lines = wrapped("one two three four five six seven eight nine ten", BODY, 18, most=2)
    assert len(lines) == 2
    assert lines[-1].endswith("…")
