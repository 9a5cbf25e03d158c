"""How much of the face is warp and how much is weft: sett, picks, yarn and weave.

Seen from above, threads of diameter d at n per length cover n d of it (Peirce). Where an end
and a pick cross, the one on top is seen; between, whatever is there. That gives three parts,

    warp  e1 e2 u + e1 (1 - e2)      weft  e1 e2 (1 - u) + e2 (1 - e1)      gap  (1 - e1)(1 - e2)

with e1, e2 the covers and u the share of crossings where the warp is on top. Own derivation
from Peirce's cover; threads beaten closer than side by side (e over 1) slide over the crossings
of the other set and hide them, wholly at e = 2, where they touch on the face alone.

References
----------
F. T. Peirce, "The geometry of cloth structure", J. Text. Inst. 28 (1937), T45.
"""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.cover import COTTON_VOLUME_CM3_PER_G, Cover, cover_of
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.structure import drawdown
from palette.loom.warp import Warp
from palette.stripes.plan import StripePlan

__all__ = [
    "Face",
    "face_from_cover",
    "planned_cover",
    "planned_face",
    "shown_face",
    "warp_up_share",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """What the eye meets on the face of a cloth; the three parts sum to 1.

    Attributes
    ----------
    warp, weft : float
        Parts of the area where warp, or weft, is seen.
    gap : float
        Part where the cloth is open.
    """

    warp: float
    weft: float
    gap: float

    @property
    def warp_share(self) -> float:
        """Warp as a share of the yarn that shows, in [0, 1]."""
        return self.warp / (self.warp + self.weft)

    @property
    def kind(self) -> str:
        """What a weaver would call it: weft-faced, balanced or warp-faced."""
        if self.warp_share < 0.25:
            return "weft-faced"
        return "warp-faced" if self.warp_share > 0.75 else "balanced"


def face_from_cover(warp_cover: float, weft_cover: float, warp_up: float = 0.5) -> Face:
    """Face of a cloth from the covers of its two sets of threads.

    Parameters
    ----------
    warp_cover, weft_cover : float
        Threads per length times diameter; over 1 where they are pushed over each other.
    warp_up : float
        Share of crossings with the warp on top: 0.5 in plain weave and 2/2 twill, 0.25 in a
        1/3 twill.

    Examples
    --------
    >>> round(face_from_cover(0.75, 0.25).warp_share, 2)
    0.81
    """
    for name, cover in (("warp cover", warp_cover), ("weft cover", weft_cover)):
        if not 0 < cover < float("inf"):
            raise InputError(name, "must be more than 0, and finite", got=f"{cover}")
    if not 0 <= warp_up <= 1:
        raise InputError(
            "share of crossings with the warp up", "must be from 0 to 1", got=f"{warp_up}"
        )
    e1, e2 = min(warp_cover, 1.0), min(weft_cover, 1.0)
    left_of_warp = warp_up * min(1.0, max(0.0, 2 - weft_cover))
    left_of_weft = (1 - warp_up) * min(1.0, max(0.0, 2 - warp_cover))
    if left_of_warp + left_of_weft == 0:  # both crowded out: nothing but the weave decides
        left_of_warp, left_of_weft = warp_up, 1 - warp_up
    hidden = 1 - left_of_warp - left_of_weft
    to_weft = hidden * _part(warp_up - left_of_warp, (1 - warp_up) - left_of_weft)
    warp = e1 * e2 * (left_of_warp + hidden - to_weft) + e1 * (1 - e2)
    weft = e1 * e2 * (left_of_weft + to_weft) + e2 * (1 - e1)
    return Face(warp=warp, weft=weft, gap=(1 - e1) * (1 - e2))


def _part(first: float, second: float) -> float:
    return first / (first + second) if first + second > 0 else 0.5


def shown_face(
    *,
    ends_per_cm: float,
    picks_per_cm: float,
    warp_tex: float,
    weft_tex: float,
    draft: Draft = PLAIN_WEAVE,
    volume_cm3_per_g: float = COTTON_VOLUME_CM3_PER_G,
) -> Face:
    """Face of a cloth from sett, picks, yarns and weave.

    Parameters
    ----------
    ends_per_cm, picks_per_cm : float
        In the cloth.
    warp_tex, weft_tex : float
    draft : Draft
        Long weft floats lower the share of crossings with the warp on top.
    volume_cm3_per_g : float
        Specific volume of the yarns: 1.1 for cotton, more for a lofty wool.

    Returns
    -------
    Face

    Examples
    --------
    >>> cotton = {"warp_tex": 147.635, "weft_tex": 147.635}
    >>> round(shown_face(ends_per_cm=7.874, picks_per_cm=7.874, **cotton).warp_share, 3)
    0.5
    >>> round(shown_face(ends_per_cm=2.5, picks_per_cm=14, **cotton).warp_share, 3)
    0.114
    """
    cover = cover_of(
        ends_per_cm=ends_per_cm,
        picks_per_cm=picks_per_cm,
        warp_tex=warp_tex,
        weft_tex=weft_tex,
        volume_cm3_per_g=volume_cm3_per_g,
    )
    return face_from_cover(cover.warp_share, cover.weft_share, warp_up_share(draft))


def warp_up_share(draft: Draft) -> float:
    """Share of the crossings of one repeat where the warp lies on top.

    Examples
    --------
    >>> warp_up_share(PLAIN_WEAVE)
    0.5
    """
    crossings = [up for pick in drawdown(draft) for up in pick]
    return sum(crossings) / len(crossings)


def planned_cover(warp: Warp, cloth: StripePlan, *, warp_tex: float, weft_tex: float) -> Cover:
    """Peirce's covers of a planned cloth after washing: both sets counted in finished cloth.

    The yarns are taken to be as bulky as cotton. Which of them shows hangs little on it: of wool,
    half as bulky again, a cloth shows at most some hundredths more of the closer set.
    """
    return cover_of(
        ends_per_cm=warp.ends / warp.finished_width_mm * 10,
        picks_per_cm=cloth.picks_per_cm / (1 - cloth.shrinkage_length),
        warp_tex=warp_tex,
        weft_tex=weft_tex,
    )


def planned_face(
    warp: Warp,
    cloth: StripePlan,
    *,
    warp_tex: float,
    weft_tex: float,
    draft: Draft = PLAIN_WEAVE,
) -> Face:
    """Face of a planned cloth after washing."""
    cover = planned_cover(warp, cloth, warp_tex=warp_tex, weft_tex=weft_tex)
    return face_from_cover(cover.warp_share, cover.weft_share, warp_up_share(draft))
