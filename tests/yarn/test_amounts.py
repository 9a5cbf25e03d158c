"""Yarn amounts as values."""

import pytest

from palette.errors import InputError
from palette.yarn.amounts import YarnAmount

USUAL = {
    "colour": "moss",
    "hex": "#5d733a",
    "use": "weft",
    "count": "tex 100",
    "tex": 100.0,
    "picks": 10,
    "starts": 1,
    "net_length_m": 5.2,
    "length_m": 5.72,
    "mass_g": 0.572,
    "tail_length_m": 0.2,
}


def test_a_pick_without_tails():
    amount = YarnAmount(**USUAL)
    assert amount.g_per_pick == pytest.approx(0.05)
    assert amount.used_mass_g == pytest.approx(0.52)
    assert YarnAmount(**{**USUAL, "use": "warp", "picks": 0}).g_per_pick == 0


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"tex": 0}, "weft yarn moss: tex must be more than 0; got 0"),
        ({"picks": -1}, "weft yarn moss: picks must be 0 or more; got -1"),
        ({"mass_g": float("nan")}, "weft yarn moss: mass_g must be 0 or more; got nan"),
        ({"carried_length_m": -1}, "weft yarn moss: carried_length_m must be 0 or more; got -1"),
    ],
)
def test_refusals(change, words):
    with pytest.raises(InputError, match=words):
        YarnAmount(**{**USUAL, **change})
