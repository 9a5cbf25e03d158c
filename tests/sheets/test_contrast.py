"""Ink that can be read, by WCAG 2.2."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.sheets.contrast import contrast, legible
from palette.sheets.style import INK, QUIET, WARN

HEXES = st.from_regex(r"#[0-9a-f]{6}", fullmatch=True)

# W3C, Understanding WCAG 2.2 and technique G18: the ratio of #777777 on white falls just short
# of 4.5 to 1 and that of #767676 passes; pure red on white is 4.0 to 1 (worked from the formula).
PUBLISHED = [
    ("#000000", "#ffffff", 21.0),
    ("#777777", "#ffffff", 4.48),
    ("#767676", "#ffffff", 4.54),
    ("#ff0000", "#ffffff", 4.00),
]


@pytest.mark.parametrize(("first", "second", "ratio"), PUBLISHED)
def test_published_ratios(first: str, second: str, ratio: float) -> None:
    assert contrast(first, second) == pytest.approx(ratio, abs=0.005)
    assert contrast(second, first) == contrast(first, second)


@given(HEXES)
def test_text_on_any_yarn_passes_aa(ground: str) -> None:
    assert contrast(legible(ground), ground) >= 4.5


@pytest.mark.parametrize("ink", [INK, QUIET, WARN])
def test_printed_inks_pass_aa_on_white(ink: str) -> None:
    assert contrast(ink, "#ffffff") >= 4.5
