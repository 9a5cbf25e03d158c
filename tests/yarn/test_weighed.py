"""What was weighed, as typed."""

import pytest

from palette.errors import InputError
from palette.yarn.weighed import parse_weighed

COLOURS = ("moss", "deep green", "rust")


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("moss=23g, rust=40g", {"moss": 23, "rust": 40}),
        ("Rust = 40 g; MOSS: 4 oz", {"rust": 40, "moss": 4 * 453.59237 / 16}),
        ("deep green=1,5 kg, moss=0g,", {"deep green": 1500, "moss": 0}),
        ("moss=540g tare 40g, rust=3g", {"moss": 500, "rust": 3}),
        ("moss=540 g, tare 40 g", {"moss": 500}),
    ],
)
def test_as_typed(text, grams):
    assert parse_weighed(text, COLOURS) == pytest.approx(grams)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "--left: must be names with masses; got ''. Write it like moss=23g"),
        ("moss", "--left: must be names with masses; got 'moss'"),
        ("=3g", "--left: must be names with masses; got '=3g'"),
        ("moss=", "--left: must be names with masses; got 'moss='"),
        ("mos=3g", r"--left: must be a colour of the plan: moss, .* got mos\. Did you mean moss\?"),
        ("moss=1g, Moss=2g", "--left moss: must be given once; got 'moss=1g, Moss=2g'"),
        ("moss=23", "--left moss: must carry a unit; got '23'"),
        ("moss=40g tare 50g", "tare: must be from 0 to what the cone weighs; got 50.0 g of 40.0 g"),
    ],
)
def test_refusals(text, words):
    with pytest.raises(InputError, match=words):
        parse_weighed(text, COLOURS, thing="--left")
