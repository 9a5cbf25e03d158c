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
