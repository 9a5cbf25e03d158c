"""The sett to begin with, from the yarn's count or its measured wraps, and the weave."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.cover import Cover, cover_of
from palette.loom.defaults import WORKING_SHARE
from palette.loom.draft import Draft
from palette.loom.fibres import FIBRES, Fibre
from palette.loom.structure import structure_of
from palette.measures import G_PER_POUND, M_PER_YARD, MM_PER_CM, MM_PER_INCH

__all__ = [
    "WRAPS_READ_LOW",
    "SettAdvice",
    "diameters_per_cm",
    "sett_for_weave",
    "sett_from_count",
    "sett_from_wraps",
]


WRAPS_READ_LOW = 0.70
"""Measured wraps as a share of the calculated diameters (a weaving teacher: 10 wraps to the
inch, 5 ends from the wraps, 7 from the count)."""


def diameters_per_cm(tex: float, constant: float) -> float:
    """Threads of a yarn that lie side by side in a centimetre, by Ashenhurst's rule.

    Parameters
    ----------
    tex : float
    constant : float
        From `palette.loom.fibres.FIBRES`, for inches and yards per pound.

    Returns
    -------
    float

    References
    ----------
    T. R. Ashenhurst (1884), as restated by Taylor, *Cotton Weaving and Designing*, 6th ed.

    Examples
    --------
    >>> round(diameters_per_cm(147.635, 0.9) * 2.54, 2)  # 3360 yd/lb
    52.17
    """
    for name, value in (("tex", tex), ("Ashenhurst's constant", constant)):
        if not 0 < value < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{value}")
    yd_per_lb = G_PER_POUND / (tex / 1000) / M_PER_YARD
    return constant * math.sqrt(yd_per_lb) / (MM_PER_INCH / MM_PER_CM)


@dataclass(frozen=True, slots=True, kw_only=True)
class SettAdvice:
    """A sett to sample with, and how it came about.

    Attributes
    ----------
    diameters_per_cm : float
        Threads that lie side by side in a centimetre.
    room : float
        Share of them that the weave's interlacings leave: R / (R + I).
    working_share : float
        Working reduction: share of the closest sett that is taken.
    source : str
        Where the diameters come from, in words.
    reduction : str
        What the working reduction is, in words.
    cover : Cover or None
        Peirce's cover at the working sett, as many picks as ends; None where the count is not
        known.
    """

    diameters_per_cm: float
    room: float
    working_share: float
    source: str
    reduction: str
    cover: Cover | None = None

    @property
    def closest_per_cm(self) -> float:
        """Closest sett: where warp and weft touch everywhere."""
        return self.diameters_per_cm * self.room

    @property
    def ends_per_cm(self) -> float:
        """Sett to sample with."""
        return self.closest_per_cm * self.working_share


def sett_from_count(
    tex: float,
    draft: Draft,
    *,
    fibre: str | Fibre = "cotton",
    working_share: float = WORKING_SHARE.value,
) -> SettAdvice:
    """Offer a sett from the yarn's count, by Ashenhurst's rule.

    Parameters
    ----------
    tex : float
        Resultant linear density.
    draft : Draft
        The weave, for its interlacings.
    fibre : str or Fibre
        A name in `palette.loom.fibres.FIBRES`, or a mixed fibre.
    working_share : float
        Working reduction, in (0, 1]: the share of the closest sett.

    Returns
    -------
    SettAdvice

    Raises
    ------
    InputError
        An unknown fibre, or a value out of range.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> round(sett_from_count(147.635, PLAIN_WEAVE).ends_per_cm * 2.54, 1)
    21.3
    """
    kind = fibre if isinstance(fibre, Fibre) else FIBRES.get(fibre.lower().strip())
    if kind is None:
        raise InputError("fibre", f"must be one of {', '.join(FIBRES)}", got=repr(fibre))
    if not 0 < working_share <= 1:
        rule = "must be more than 0 %, and at most 100 %"
        raise InputError("working reduction", rule, got=f"{working_share}")
    diameters = diameters_per_cm(tex, kind.constant)
    room = structure_of(draft).room
    ends = diameters * room * working_share
    return SettAdvice(
        diameters_per_cm=diameters,
        room=room,
        working_share=working_share,
        source=f"{kind.constant:.2f} x root of yards per pound for {kind.name} ({kind.label})",
        reduction=f"{working_share * 100:.0f} % of the closest sett",
        cover=cover_of(ends_per_cm=ends, picks_per_cm=ends, warp_tex=tex, weft_tex=tex),
    )


def sett_from_wraps(wraps_per_cm: float, draft: Draft, *, tex: float | None = None) -> SettAdvice:
    """Offer a sett from measured wraps.

    Wraps round a ruler read low, so the sett that they give is a working sett already; no
    further reduction is taken. The closest sett is that divided by `WRAPS_READ_LOW`.

    Parameters
    ----------
    wraps_per_cm : float
        Measured, threads just touching.
    draft : Draft
    tex : float, optional
        For the cover, where the count is known.

    Returns
    -------
    SettAdvice

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> round(sett_from_wraps(20 / 2.54, PLAIN_WEAVE).ends_per_cm * 2.54, 1)
    10.0
    """
    if not 0 < wraps_per_cm < math.inf:
        raise InputError("wraps", "must be more than 0, and finite", got=f"{wraps_per_cm} per cm")
    room = structure_of(draft).room
    ends = wraps_per_cm * room
    return SettAdvice(
        diameters_per_cm=wraps_per_cm / WRAPS_READ_LOW,
        room=room,
        working_share=WRAPS_READ_LOW,
        source="measured wraps, which read low (common practice)",
        reduction=f"{WRAPS_READ_LOW * 100:.0f} %, already in the measured wraps",
        cover=None
        if tex is None
        else cover_of(ends_per_cm=ends, picks_per_cm=ends, warp_tex=tex, weft_tex=tex),
    )


def sett_for_weave(ends_per_cm: float, weave: Draft, wanted: Draft) -> float:
    """Sett of another weave in the same yarn at equal firmness.

    References
    ----------
    Taylor, *Cotton Weaving and Designing*, 6th ed.: sett x the ratio of R / (R + I).

    Examples
    --------
    >>> from palette.loom.drafts import PLAIN_WEAVE, weave_named
    >>> round(sett_for_weave(103, PLAIN_WEAVE, weave_named("2/2 twill")), 2)
    137.33
    """
    return ends_per_cm * structure_of(wanted).room / structure_of(weave).room
