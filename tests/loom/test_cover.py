"""Peirce's geometry against the figures printed from it (Balasubramanian's notes)."""

import math

import pytest

from palette.errors import InputError
from palette.loom.cover import (
    FULL_COVER_FACTOR,
    cloth_mass_g_per_m2,
    cover_of,
    jammed_square_cloth,
    plain_weave_room,
    yarn_diameter_mm,
)
from palette.measures import G_PER_OUNCE, M_PER_YARD

INCH = 2.54
NEC = 590.541247


def test_jammed_square_plain_cloth():
    """Balasubramanian: 60 degrees, l/D 1.0472, p/D 0.8660, crimp 0.2092."""
    cloth = jammed_square_cloth()
    assert round(cloth.angle_deg, 9) == 60
    assert round(cloth.length, 4) == 1.0472
    assert round(cloth.spacing, 4) == 0.8660
    assert round(cloth.crimp, 4) == 0.2092
    # From the same geometry, own arithmetic:
    assert round(cloth.factor, 2) == 16.17
    assert round(cloth.cover, 4) == 0.8214


def test_height_of_the_crimp_at_the_jam():
    """Balasubramanian: h1 = (4/3) p2 sqrt(c1) and h1 + h2 = d1 + d2, near enough at the jam."""
    cloth = jammed_square_cloth()
    height = 4 / 3 * cloth.spacing * math.sqrt(cloth.crimp)
    assert 2 * height == pytest.approx(1, abs=0.06)  # the formula is for small crimps


@pytest.mark.parametrize(
    ("ends", "warp", "picks", "weft", "k1", "k2", "kc", "cover"),
    [
        (64, 30, 64, 36, 11.685, 10.667, 17.900, 0.639),
        (20, 4, 20, 4, 10, 10, 16.429, 0.587),
    ],
)
def test_cover_of_two_cloths(ends, warp, picks, weft, k1, k2, kc, cover):
    """Own arithmetic from Peirce's K = threads per inch / sqrt(cotton count)."""
    came = cover_of(
        ends_per_cm=ends / INCH,
        picks_per_cm=picks / INCH,
        warp_tex=NEC / warp,
        weft_tex=NEC / weft,
    )
    assert round(came.warp_factor, 3) == k1
    assert round(came.weft_factor, 3) == k2
    assert round(came.cloth_factor, 3) == kc
    assert round(came.cloth_share, 3) == cover
    assert came.cloth_share == pytest.approx(came.cloth_factor / FULL_COVER_FACTOR)


def test_tex_cover_factor_is_peirces_in_other_units():
    """Own arithmetic: threads per cm x sqrt(tex) = 9.56734 K."""
    came = cover_of(ends_per_cm=8, picks_per_cm=8, warp_tex=150, weft_tex=150)
    assert 8 * math.sqrt(150) / came.warp_factor == pytest.approx(9.56734, abs=5e-6)


def test_cover_factor_of_a_full_set_is_28_and_ordinary_cloth_about_12():
    """Balasubramanian: at 28 the threads touch."""
    tex = NEC / 30
    touching = cover_of(
        ends_per_cm=10 / yarn_diameter_mm(tex), picks_per_cm=1, warp_tex=tex, weft_tex=tex
    )
    assert touching.warp_factor == pytest.approx(28)
    assert touching.warp_share == pytest.approx(1)


def test_diameter():
    """Peirce: 1/(28 sqrt N) inch for cotton; d(mil) = 34.14 sqrt(v/N), within 0.3 % of it."""
    assert round(yarn_diameter_mm(NEC / 30) / 25.4, 6) == 0.006521
    assert round(yarn_diameter_mm(NEC / 30), 4) == 0.1656
    for volume in (1.1, 1.4):
        mil = yarn_diameter_mm(NEC / 30, volume_cm3_per_g=volume) / 0.0254
        assert mil == pytest.approx(34.14 * math.sqrt(volume / 30), rel=0.003)


def test_mass_of_a_cloth():
    """Balasubramanian: oz per square yard = 0.6857 n (1 + c) / N; 64 ends of 30s, crimp 0.06."""
    grams = cloth_mass_g_per_m2(
        ends_per_cm=64 / INCH, picks_per_cm=0, warp_tex=NEC / 30, weft_tex=0, warp_crimp=0.06
    )
    ounces = grams * M_PER_YARD**2 / G_PER_OUNCE
    assert round(ounces, 4) == 1.5506
    assert ounces == pytest.approx(0.6857 * 64 * 1.06 / 30, abs=5e-5)


def test_room_of_a_plain_weave():
    factor = jammed_square_cloth().factor
    jam = {"warp_tex": NEC, "weft_tex": NEC}
    at_the_jam = plain_weave_room(ends_per_cm=factor / INCH, picks_per_cm=factor / INCH, **jam)
    assert at_the_jam == pytest.approx(1)
    closer = plain_weave_room(ends_per_cm=20 / INCH, picks_per_cm=17 / INCH, **jam)
    assert closer < 1
    assert plain_weave_room(ends_per_cm=4 / INCH, picks_per_cm=4 / INCH, **jam) == math.inf


def test_refusals():
    with pytest.raises(InputError, match="tex: must be more than 0, and finite; got 0"):
        yarn_diameter_mm(0)
    with pytest.raises(InputError, match="picks per cm: must be more than 0, and finite; got nan"):
        cover_of(ends_per_cm=8, picks_per_cm=math.nan, warp_tex=100, weft_tex=100)
