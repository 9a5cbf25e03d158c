"""How closely threads cover a cloth, and how close they can lie: Peirce's geometry.

Threads are taken as round and of one specific volume, so every figure is a guide.

References
----------
.. [1] F. T. Peirce, "The geometry of cloth structure", J. Text. Inst. 28 (1937), T45.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError
from palette.measures import G_PER_POUND, M_PER_YARD, MM_PER_INCH

__all__ = [
    "FULL_COVER_FACTOR",
    "Cover",
    "JammedCloth",
    "cloth_mass_g_per_m2",
    "cover_of",
    "jammed_square_cloth",
    "plain_weave_room",
    "yarn_diameter_mm",
]

FULL_COVER_FACTOR = 28.0
"""Cover factor at which cotton threads touch: a thread of NeC 1 is 1/28 inch thick [1]_."""

COTTON_VOLUME_CM3_PER_G = 1.1
"""Specific volume of the cotton yarn that the figure 28 is for [1]_."""

_TEX_OF_NEC_1 = 1000 * G_PER_POUND / (840 * M_PER_YARD)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """Cover of a cloth.

    Attributes
    ----------
    warp_factor, weft_factor : float
        Peirce's K: threads per inch / sqrt(cotton count), scaled to the yarn's volume.
    """

    warp_factor: float
    weft_factor: float

    @property
    def warp_share(self) -> float:
        """Share of the width that the ends cover, seen from above; over 1 they overlap."""
        return self.warp_factor / FULL_COVER_FACTOR

    @property
    def weft_share(self) -> float:
        """Share of the length that the picks cover; over 1 they overlap."""
        return self.weft_factor / FULL_COVER_FACTOR

    @property
    def cloth_factor(self) -> float:
        """K of the cloth: K1 + K2 - K1 K2 / 28."""
        ends, picks = self.warp_factor, self.weft_factor
        return ends + picks - ends * picks / FULL_COVER_FACTOR

    @property
    def cloth_share(self) -> float:
        """Share of the cloth that is covered, at most 1."""
        open_share = (1 - min(self.warp_share, 1)) * (1 - min(self.weft_share, 1))
        return 1 - open_share


def yarn_diameter_mm(tex: float, *, volume_cm3_per_g: float = COTTON_VOLUME_CM3_PER_G) -> float:
    """Diameter of a round yarn.

    Parameters
    ----------
    tex : float
    volume_cm3_per_g : float
        Specific volume of the yarn, air included. Peirce's 1/(28 sqrt(count)) inch for cotton
        stands for 1.1; other volumes scale with the square root.

    Returns
    -------
    float
        Millimetres.

    Examples
    --------
    >>> round(yarn_diameter_mm(590.541 / 30), 4)
    0.1656
    """
    for name, value in (("tex", tex), ("specific volume", volume_cm3_per_g)):
        if not 0 < value < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{value}")
    count = _TEX_OF_NEC_1 / tex
    cotton_mm = MM_PER_INCH / (FULL_COVER_FACTOR * math.sqrt(count))
    return cotton_mm * math.sqrt(volume_cm3_per_g / COTTON_VOLUME_CM3_PER_G)


def cover_of(
    *,
    ends_per_cm: float,
    picks_per_cm: float,
    warp_tex: float,
    weft_tex: float,
    volume_cm3_per_g: float = COTTON_VOLUME_CM3_PER_G,
) -> Cover:
    """Peirce's cover factors of warp and weft.

    Examples
    --------
    >>> cover = cover_of(
    ...     ends_per_cm=20 / 2.54, picks_per_cm=20 / 2.54, warp_tex=147.635, weft_tex=147.635
    ... )
    >>> round(cover.warp_factor, 2), round(cover.cloth_share, 3)
    (10.0, 0.587)
    """
    factors = []
    for name, per_cm, tex in (
        ("ends per cm", ends_per_cm, warp_tex),
        ("picks per cm", picks_per_cm, weft_tex),
    ):
        if not 0 < per_cm < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{per_cm}")
        diameter = yarn_diameter_mm(tex, volume_cm3_per_g=volume_cm3_per_g)
        factors.append(per_cm / 10 * diameter * FULL_COVER_FACTOR)
    return Cover(warp_factor=factors[0], weft_factor=factors[1])


def plain_weave_room(
    *,
    ends_per_cm: float,
    picks_per_cm: float,
    warp_tex: float,
    weft_tex: float,
    volume_cm3_per_g: float = COTTON_VOLUME_CM3_PER_G,
) -> float:
    """Room that a plain weave leaves: 1 where its threads are jammed, under 1 it cannot be woven.

    Peirce's condition for round threads jammed in both directions is
    sqrt(1 - (p1/D)^2) + sqrt(1 - (p2/D)^2) = 1, p the spacing and D the sum of the diameters;
    the figure is 1 divided by its left side, infinite where a spacing is D or more in both sets.

    Examples
    --------
    >>> round(plain_weave_room(
    ...     ends_per_cm=16.17 / 2.54, picks_per_cm=16.17 / 2.54, warp_tex=590.54, weft_tex=590.54
    ... ), 2)
    1.0
    """
    diameters = [
        yarn_diameter_mm(tex, volume_cm3_per_g=volume_cm3_per_g) for tex in (warp_tex, weft_tex)
    ]
    filled = 0.0
    for per_cm in (ends_per_cm, picks_per_cm):
        spacing = 10 / per_cm / sum(diameters)
        filled += math.sqrt(max(0.0, 1 - spacing**2))
    return 1 / filled if filled > 0 else math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class JammedCloth:
    """The closest plain weave of equal round threads, both ways alike [1]_.

    Attributes
    ----------
    angle_deg : float
        Of the thread to the plane of the cloth, at its steepest.
    length, spacing : float
        Thread between two crossings, and spacing, in units of the two diameters together.
    crimp : float
        Share of the cloth's length by which the thread is longer.
    """

    angle_deg: float
    length: float
    spacing: float
    crimp: float

    @property
    def factor(self) -> float:
        """Cover factor K of each set of threads."""
        return FULL_COVER_FACTOR / (2 * self.spacing)

    @property
    def cover(self) -> float:
        """Share of the cloth that is covered."""
        return Cover(warp_factor=self.factor, weft_factor=self.factor).cloth_share


def jammed_square_cloth() -> JammedCloth:
    """Closest plain weave of equal threads: cos(angle) + cos(angle) = 1 [1]_.

    Examples
    --------
    >>> cloth = jammed_square_cloth()
    >>> round(cloth.angle_deg), round(cloth.spacing, 4), round(cloth.crimp, 4)
    (60, 0.866, 0.2092)
    """
    angle = math.acos(0.5)
    length, spacing = angle, math.sin(angle)
    return JammedCloth(
        angle_deg=math.degrees(angle),
        length=length,
        spacing=spacing,
        crimp=length / spacing - 1,
    )


def cloth_mass_g_per_m2(
    *,
    ends_per_cm: float,
    picks_per_cm: float,
    warp_tex: float,
    weft_tex: float,
    warp_crimp: float = 0.0,
    weft_crimp: float = 0.0,
) -> float:
    """Mass of a square metre: threads x (1 + crimp) x tex, both ways [1]_.

    Examples
    --------
    >>> round(cloth_mass_g_per_m2(
    ...     ends_per_cm=8, picks_per_cm=8, warp_tex=150, weft_tex=150, warp_crimp=0.05
    ... ), 1)
    246.0
    """
    warp = ends_per_cm * 100 * (1 + warp_crimp) * warp_tex / 1000
    weft = picks_per_cm * 100 * (1 + weft_crimp) * weft_tex / 1000
    return warp + weft
