"""Whole skeins and cones."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.measures import Units
from palette.yarn.count import parse_count
from palette.yarn.packages import Package, net_mass_g, parse_package, whole_packages

COTTON = parse_count("NeC 8/2")


@given(needed=st.floats(0, 5000), size=st.floats(5, 500), tare=st.floats(0, 60))
def test_never_short_and_never_a_whole_package_too_many(needed, size, tare):
    came = whole_packages(needed, COTTON, Package(mass_g=size, tare_g=tare))
    assert came.mass_g >= needed - 1e-5
    assert came.spare_g < size + 1e-5
    assert came.weighed_g == pytest.approx(came.mass_g + came.number * tare)
    assert COTTON.mass_g(came.length_m) == pytest.approx(came.mass_g)


def test_exactly_one_skein_is_one():
    assert whole_packages(0.1 + 0.2, COTTON, Package(mass_g=0.3)).number == 1


def test_skeins_by_length():
    came = whole_packages(100, COTTON, Package(length_m=250))
    assert came.number == 3  # 677 m
    assert came.length_m == pytest.approx(750)


@pytest.mark.parametrize(
    ("text", "package"),
    [
        ("100g", Package(mass_g=100.0)),
        ("250 m", Package(length_m=250.0)),
        ("250 yd", Package(length_m=250 * 0.9144, units=Units.IMPERIAL)),
        ("540g, tare 40g", Package(mass_g=500.0, tare_g=40.0)),
        ("540 g tare 40 g", Package(mass_g=500.0, tare_g=40.0)),
    ],
)
def test_sizes_as_typed(text, package):
    assert parse_package(text) == package


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("100", "--skein: must be a mass or a length; got '100'. Write it like 100g"),
        ("a cone", "--skein: must be a mass or a length; got 'a cone'"),
        ("40g, tare 40g", "--skein tare: must be less than the whole; got '40g, tare 40g'"),
        ("540g, tare 40", "--skein tare: must carry a unit"),
    ],
)
def test_sizes_that_cannot_be(text, words):
    with pytest.raises(InputError, match=words):
        parse_package(text, thing="--skein")


def test_a_cone_is_weighed_with_its_core():
    assert net_mass_g(540, 40) == 500
    with pytest.raises(
        InputError, match="tare: must be from 0 to what the cone weighs; got 50 g of"
    ):
        net_mass_g(40, 50)
    with pytest.raises(InputError, match="skein: must have a mass or a length; got 2 sizes"):
        Package(mass_g=100, length_m=100)
    with pytest.raises(InputError, match="skein: must be more than 0, and finite; got nan"):
        Package(mass_g=float("nan"))
    with pytest.raises(InputError, match="tare: must be 0 or more, and finite; got -1 g"):
        Package(mass_g=100, tare_g=-1)
    with pytest.raises(InputError, match="yarn needed: must be 0 or more, and finite; got -1 g"):
        whole_packages(-1, COTTON, Package(mass_g=100))
