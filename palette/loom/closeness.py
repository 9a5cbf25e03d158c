"""Whether a sett and a beat suit the yarn and the weave: what is usual, and what has no room.

Three measures, from the mildest to the hardest.

The *usual* sett is a working share of the closest balanced one, by Ashenhurst's rule [1]_: in a
repeat of R ends each end takes its diameter and each of the I interlacings that of a pick, so
R / (R d1 + I d2) ends lie in a centimetre. With one yarn both ways that is R / (R + I) of the
diameters, as the rule is printed; with two yarns it is the same drawing with two thicknesses.

Beyond the closest balanced cloth one set of threads covers the other. That is a cloth of its own
(rugs, tapestry, warp-faced bands), so it is pointed out and never refused.

Refused is only what round threads cannot do. Peirce's threads that are jammed both ways [2]_
have no more room; here they are as thin as fibre without air between can be, which no yarn on a
loom is, so that everything that is woven anywhere passes. Threads of one shed, side by side on
one face, are the other end: a weft that is seen on a half of all ends can be beaten to two
diameters' worth of picks.

References
----------
.. [1] T. R. Ashenhurst (1884), as restated by Taylor, *Cotton Weaving and Designing*, 6th ed.
.. [2] F. T. Peirce, "The geometry of cloth structure", J. Text. Inst. 28 (1937), T45.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.cover import plain_weave_room, yarn_diameter_mm
from palette.loom.defaults import WORKING_SHARE
from palette.loom.fibres import Fibre
from palette.loom.sett import diameters_per_cm
from palette.loom.structure import Structure

__all__ = ["OPEN_SHARE", "SOLID_CM3_PER_G", "Yarns", "nearest_weavable"]

SOLID_CM3_PER_G = 0.66
"""Volume of fibre without air: cotton and linen at 1.52 g/cm3, the densest of the usual fibres
(textbook value, from memory); yarn as it is has 1.1 [2]_."""

OPEN_SHARE = 2 / 3
"""Share of the usual sett below which it is pointed out as open: common practice, at about half
of the closest one threads begin to slip."""

_STEPS = 60  # halvings, beyond what a float tells apart


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarns:
    """The yarns of a cloth and the weave they meet in.

    Attributes
    ----------
    warp_tex, weft_tex : float
    fibre : Fibre
        For Ashenhurst's constant.
    structure : Structure
        Of the weave, for its interlacings.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> from palette.loom.fibres import FIBRES
    >>> from palette.loom.structure import structure_of
    >>> yarns = Yarns(
    ...     warp_tex=147.6,
    ...     weft_tex=147.6,
    ...     fibre=FIBRES["cotton"],
    ...     structure=structure_of(PLAIN_WEAVE),
    ... )
    >>> [round(each, 2) for each in yarns.usual_per_cm]
    [8.4, 8.4]
    >>> yarns.can_be_woven(8, 30), yarns.can_be_woven(20, 20)
    (True, False)
    """

    warp_tex: float
    weft_tex: float
    fibre: Fibre
    structure: Structure

    @property
    def closest_per_cm(self) -> tuple[float, float]:
        """Closest ends and picks of a balanced cloth, where both sets touch everywhere."""
        weave = self.structure
        warp, weft = (
            1 / diameters_per_cm(tex, self.fibre.constant) for tex in (self.warp_tex, self.weft_tex)
        )
        return (
            weave.ends / (weave.ends * warp + weave.weft_interlacings * weft),
            weave.picks / (weave.picks * weft + weave.warp_interlacings * warp),
        )

    @property
    def usual_per_cm(self) -> tuple[float, float]:
        """Ends and picks to begin with: `palette.loom.defaults.WORKING_SHARE` of the closest."""
        ends, picks = self.closest_per_cm
        return ends * WORKING_SHARE.value, picks * WORKING_SHARE.value

    def can_be_woven(self, ends_per_cm: float, picks_per_cm: float) -> bool:
        """Whether there is room for so many ends and picks, the yarn pressed till it is solid.

        Threads that no thread of the other set parts lie side by side; the rest of the room is
        for those that are parted, and must be what Peirce's jammed plain weave needs.
        """
        for name, value in (("ends per cm", ends_per_cm), ("picks per cm", picks_per_cm)):
            if not 0 < value < math.inf:
                raise InputError(name, "must be more than 0, and finite", got=f"{value}")
        weave = self.structure
        warp, weft = (
            yarn_diameter_mm(tex, volume_cm3_per_g=SOLID_CM3_PER_G)
            for tex in (self.warp_tex, self.weft_tex)
        )
        faces = 1 / min(weave.warp_share, 1 - weave.warp_share)  # 2 where both sides are alike
        if max(ends_per_cm * warp, picks_per_cm * weft) / 10 > faces:
            return False
        room = plain_weave_room(
            ends_per_cm=_parted(ends_per_cm, warp, weave.weft_interlacings / weave.ends),
            picks_per_cm=_parted(picks_per_cm, weft, weave.warp_interlacings / weave.picks),
            warp_tex=self.warp_tex,
            weft_tex=self.weft_tex,
            volume_cm3_per_g=SOLID_CM3_PER_G,
        )
        return room >= 1


def _parted(per_cm: float, diameter_mm: float, parted: float) -> float:
    """Density at which threads lie where the other set parts them; infinite without room."""
    room = 10 / per_cm - (1 - parted) * diameter_mm
    return 10 * parted / room if room > 0 else math.inf


def nearest_weavable(yarns: Yarns, ends_per_cm: float, picks_per_cm: float) -> tuple[float, float]:
    """Give the nearest ends and picks that can be woven: fewer ends, fewer picks, or both.

    Parameters
    ----------
    yarns : Yarns
    ends_per_cm, picks_per_cm : float
        As they were asked.

    Returns
    -------
    tuple of 2 float
        As they came where there is room for them.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> from palette.loom.fibres import FIBRES
    >>> from palette.loom.structure import structure_of
    >>> yarns = Yarns(
    ...     warp_tex=147.6,
    ...     weft_tex=147.6,
    ...     fibre=FIBRES["cotton"],
    ...     structure=structure_of(PLAIN_WEAVE),
    ... )
    >>> [round(each, 2) for each in nearest_weavable(yarns, 8, 300)]
    [8, 56.93]
    """
    if yarns.can_be_woven(ends_per_cm, picks_per_cm):
        return ends_per_cm, picks_per_cm
    found = []
    for fewer_ends, fewer_picks in ((False, True), (True, False), (True, True)):
        low, high = 0.0, 1.0
        for _ in range(_STEPS):
            part = (low + high) / 2
            ends = ends_per_cm * (part if fewer_ends else 1)
            picks = picks_per_cm * (part if fewer_picks else 1)
            low, high = (part, high) if yarns.can_be_woven(ends, picks) else (low, part)
        if low > 1e-9:  # else no part of it can be woven with the other as it is
            ends = ends_per_cm * (low if fewer_ends else 1)
            picks = picks_per_cm * (low if fewer_picks else 1)
            found.append((low if fewer_ends != fewer_picks else low**2, (ends, picks)))
    return max(found)[1]
