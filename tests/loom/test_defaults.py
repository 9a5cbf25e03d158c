"""Defaults carry a label, and their text says what their value says."""

import pytest

from palette.errors import InputError
from palette.loom import defaults
from palette.loom.defaults import SHRINKAGE_RANGES, Default, Range
from palette.measures import parse_density, parse_length, parse_share
from palette.yarn import defaults as yarn_defaults

NAMED = [
    (name, value)
    for module in (defaults, yarn_defaults)
    for name, value in vars(module).items()
    if isinstance(value, Default)
]


@pytest.mark.parametrize(("name", "default"), NAMED, ids=[name for name, _ in NAMED])
def test_text_and_value_agree(name, default):
    assert default.label
    if default.text.endswith("%"):
        assert parse_share(default.text) == pytest.approx(default.value)
    elif name.endswith("_MM"):
        assert parse_length(default.text, zero=True).mm == default.value
    elif "/" in default.text:
        assert parse_density(default.text).per_cm == default.value
    else:
        assert float(default.text) == default.value


def test_ranges_run_upwards():
    assert all(0 <= one.low <= one.middle <= one.high < 1 for one in SHRINKAGE_RANGES.values())
    with pytest.raises(InputError, match=r"range: must run upwards; got 0\.3 to 0\.2"):
        Range(low=0.3, high=0.2, label="")


@pytest.mark.parametrize(
    ("default", "low", "high"),
    [
        (defaults.DRAW_IN, 0.05, 0.06),  # Brooks: 5 to 6 % on cotton; Spon's: 5.4 % on jute
        (defaults.TAKE_UP, 0.06, 0.10),  # Brooks 6 %; a towel warp, 2011, 8.7 %; Spon's, jute, 10 %
        (defaults.LOOM_WASTE_MM, 27 * 25.4, 36 * 25.4),  # a hobby article; a weaver's record
        (defaults.SHRINKAGE_WIDTH, 0.10, 0.10),  # a handweaving magazine, "if nothing is known"
        (defaults.SHRINKAGE_LENGTH, 0.10, 0.10),
        (defaults.WORKING_SHARE, 0.75, 0.80),  # sett notes (1999); a weaving teacher, 2023
        (yarn_defaults.ALLOWANCE, 0.10, 0.12),  # common practice; a spinner's test was 12 % out
    ],
)
def test_defaults_lie_within_what_is_published(default, low, high):
    assert low <= default.value <= high


def test_cotton_shrinks_as_shop_cloth_does():
    """Shop-cloth tests (not handwoven): cotton sheeting 8 to 10 % both ways, linen 3 to 10 %."""
    cotton, linen = SHRINKAGE_RANGES["cotton"], SHRINKAGE_RANGES["linen"]
    assert cotton.low <= 0.08
    assert cotton.high >= 0.10
    assert linen.high == 0.10
