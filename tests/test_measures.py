"""Units: exact factors, what people type, and what is printed."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette import measures
from palette.errors import UnitError
from palette.measures import (
    Units,
    format_density,
    format_length,
    format_mass,
    format_share,
    format_yarn_length,
    parse_density,
    parse_length,
    parse_mass,
    parse_share,
    per_cents,
)


def test_exact_units():
    """International yard and pound agreement, 1959: 0.9144 m and 0.45359237 kg exactly."""
    assert measures.M_PER_YARD == 0.9144
    assert measures.MM_PER_INCH == 25.4
    assert measures.G_PER_POUND == 453.59237
    assert measures.G_PER_OUNCE == 453.59237 / 16


@pytest.mark.parametrize(
    ("text", "mm", "units"),
    [
        ("180cm", 1800, Units.METRIC),
        (" 1.8 m ", 1800, Units.METRIC),
        ("1,8 m", 1800, Units.METRIC),
        ("0,125 m", 125, Units.METRIC),
        (".5 m", 500, Units.METRIC),
        ("1800 mm", 1800, Units.METRIC),
        ("2 metres", 2000, Units.METRIC),
        ("72 in", 1828.8, Units.IMPERIAL),
        ('72"', 1828.8, Units.IMPERIAL),
        ("6 FT", 1828.8, Units.IMPERIAL),
        ("6'", 1828.8, Units.IMPERIAL),
        ("2.5 yd", 2286, Units.IMPERIAL),
        ("2 1/2 yd", 2286, Units.IMPERIAL),
        ("1/2 in", 12.7, Units.IMPERIAL),
    ],
)
def test_lengths_as_typed(text, mm, units):
    length = parse_length(text)
    assert length.mm == pytest.approx(mm)
    assert length.units is units
    assert length.text == text.strip()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "must be a number with a unit; got ''"),
        ("long", "must be a number with a unit; got 'long'"),
        ("180", r"must carry a unit; got '180'\. Write it like 180cm, 1\.8 m, 72 in or 2\.5 yd\."),
        ("180 parsec", "unit must be one of mm, cm, m, in, ft, yd; got '180 parsec'"),
        ("0 cm", "must be more than 0; got '0 cm'"),
        ("-3 cm", "must be 0 or more, and finite; got '-3 cm'"),
        ("nan cm", "must be 0 or more, and finite; got 'nan cm'"),
        ("inf cm", "must be 0 or more, and finite; got 'inf cm'"),
        ("1/0 cm", "must be 0 or more, and finite; got '1/0 cm'"),
        ("1,800 mm", "comma must not part thousands; got '1,800 mm'"),
        ("10 cm 5 ft", "unit must be one of"),
    ],
)
def test_lengths_that_cannot_be(text, words):
    with pytest.raises(UnitError, match=f"--length: {words}"):
        parse_length(text, thing="--length")


def test_zero_where_it_is_allowed():
    assert parse_length("0 cm", zero=True).mm == 0
    assert parse_mass("0 g", zero=True).g == 0
    with pytest.raises(UnitError, match="mass: must be more than 0; got '0 g'"):
        parse_mass("0 g")


@pytest.mark.parametrize(
    ("text", "grams"),
    [("250 g", 250), ("1.2kg", 1200), ("8 oz", 8 * 453.59237 / 16), ("1/2 lb", 453.59237 / 2)],
)
def test_masses_as_typed(text, grams):
    assert parse_mass(text).g == pytest.approx(grams)


def test_an_unknown_mass():
    with pytest.raises(UnitError, match="mass: unit must be one of g, kg, oz, lb; got '3 stone'"):
        parse_mass("3 stone")


@pytest.mark.parametrize(
    ("text", "per_cm"),
    [
        ("8/cm", 8),
        ("8 per cm", 8),
        ("40/10cm", 4),
        ("20/in", 20 / 2.54),
        ("20 epi", 20 / 2.54),
        ('20/"', 20 / 2.54),
        ("7,5/cm", 7.5),
    ],
)
def test_densities_as_typed(text, per_cm):
    assert parse_density(text).per_cm == pytest.approx(per_cm)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("8", r"must carry a unit; got '8'\. Write it like 8/cm or 20/in\."),
        ("8/ell", "unit must be one of /cm, /10cm, /in; got '8/ell'"),
        ("0/cm", "must be more than 0; got '0/cm'"),
        ("nan/cm", "must be 0 or more, and finite"),
    ],
)
def test_densities_that_cannot_be(text, words):
    with pytest.raises(UnitError, match=f"--picks: {words}"):
        parse_density(text, thing="--picks")


def test_shares():
    assert parse_share("10%") == parse_share(" 10 % ") == pytest.approx(0.1)
    assert parse_share("6,5%") == pytest.approx(0.065)
    for text, words in [
        ("10", "must be a percentage; got '10'"),
        ("100%", "must be from 0 % to under 100 %; got '100%'"),
        ("-1%", "must be from 0 % to under 100 %"),
        ("nan%", "must be from 0 % to under 100 %"),
    ]:
        with pytest.raises(UnitError, match=f"draw-in: {words}"):
            parse_share(text, thing="draw-in")


@given(mm=st.floats(0.1, 1e6))
def test_both_systems_read_the_same_length(mm):
    metric, imperial = f"{mm / 10:.9f} cm", f"{mm / 25.4:.9f} in"
    assert parse_length(metric).mm == pytest.approx(parse_length(imperial).mm, rel=1e-6)


@given(mm=st.floats(0.1, 1e5))
def test_printed_lengths_of_both_systems_agree(mm):
    for units, half_digit in ((Units.METRIC, 0.5), (Units.IMPERIAL, 0.05 * 25.4)):
        assert abs(parse_length(format_length(mm, units), zero=True).mm - mm) <= half_digit + 1e-6


@given(grams=st.floats(0, 1e5))
def test_printed_masses_are_never_short(grams):
    for units, digit in ((Units.METRIC, 1), (Units.IMPERIAL, 0.01 * measures.G_PER_OUNCE)):
        shown = parse_mass(format_mass(grams, units), zero=True).g
        assert grams - 1e-4 <= shown <= grams + digit + 1e-4


@given(metres=st.floats(0, 1e6))
def test_printed_yarn_lengths_are_never_short(metres):
    for units, digit in ((Units.METRIC, 1), (Units.IMPERIAL, 0.9144)):
        shown = parse_length(format_yarn_length(metres, units), zero=True).mm / 1000
        assert metres - 1e-5 <= shown <= metres + digit + 1e-5


@given(per_cm=st.floats(0.1, 100))
def test_printed_densities_of_both_systems_agree(per_cm):
    for units, half_digit in ((Units.METRIC, 0.005), (Units.IMPERIAL, 0.005 / 2.54)):
        shown = parse_density(format_density(per_cm, units)).per_cm
        assert abs(shown - per_cm) <= half_digit + 1e-9


def test_printing():
    assert format_density(8.0) == "8/cm"
    assert format_density(10.0, decimals=0) == "10/cm"
    assert format_density(20 / 2.54, Units.IMPERIAL) == "20/in"
    assert format_length(1828.8, Units.IMPERIAL, decimals=2) == "72.00 in"
    assert format_mass(100.2) == "101 g"
    assert format_mass(453.59237, Units.IMPERIAL) == "16.00 oz"
    assert format_mass(100.9, held=True) == "100 g"
    assert format_mass(453.59, Units.IMPERIAL, held=True) == "15.99 oz"
    assert format_yarn_length(91.44, Units.IMPERIAL) == "100 yd"
    assert format_share(0.125) == "12.5 %"


@given(
    weights=st.lists(st.floats(0, 1), min_size=1, max_size=20).filter(lambda w: sum(w) > 1e-6),
    decimals=st.integers(0, 3),
)
def test_per_cents_sum_to_100(weights, decimals):
    total = math.fsum(weights)
    came = per_cents(tuple(weight / total for weight in weights), decimals=decimals)
    unit = 10**-decimals
    assert round(sum(came) / unit) == round(100 / unit)
    for shown, weight in zip(came, weights, strict=True):
        assert abs(shown - weight / total * 100) < unit + 1e-6


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("5ft 2in", 62 * 25.4),
        ("5' 2\"", 62 * 25.4),
        ("5′2″", 62 * 25.4),
        ("5 ft 2 1/2 in", 62.5 * 25.4),
        ("5ft 0in", 60 * 25.4),
        ("1 yard 1 foot 6 inches", 54 * 25.4),
        ("1½ yd", 54 * 25.4),
        ("½ yd", 18 * 25.4),
        ("2 ¾ in", 2.75 * 25.4),
        ("1m 20cm", 1200),
        ("1e3cm", 10_000),
        ("1.5e2 cm", 1500),
        ("1 000 mm", 1000),
        ("1\u202f000 mm", 1000),
        ("12 000 mm", 12_000),
        ("1 500 1/2 mm", 1500.5),
        ("5ft 2cm", None),
        ("2in 5ft", None),
        ("5ft 2ft", None),
        ("5ft-2in", None),
        ("0ft 0in", None),
        ("1/0 ft 2in", None),
        ("1 00 m", None),
        ("5ft 2", None),
        (f"{'9' * 400}/3 cm", None),
    ],
)
def test_lengths_in_parts_and_fractions(text, mm):
    if mm is None:
        with pytest.raises(UnitError):
            parse_length(text)
    else:
        assert parse_length(text).mm == pytest.approx(mm)
        assert parse_length(text).text == text


def test_masses_in_parts_and_fractions():
    assert parse_mass("1 lb 8 oz").g == pytest.approx(1.5 * 453.59237)
    assert parse_mass("1½ lb").g == pytest.approx(1.5 * 453.59237)
    assert parse_mass("1 000 g").g == 1000


@given(st.integers(0, 99), st.integers(0, 11))
def test_feet_and_inches_are_twelve_to_one(feet, inches):
    assert parse_length(f"{feet}ft {inches}in", zero=True).mm == pytest.approx(
        (12 * feet + inches) * 25.4
    )
