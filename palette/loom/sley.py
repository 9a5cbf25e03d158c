"""Reed and sley: how many ends go into each dent, as evenly as they can lie."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from palette.errors import InputError, WeavingError

__all__ = ["MOST_DENTS", "MOST_DENTS_BY_HEART", "Sley", "nearest_reeds", "sley"]

MOST_DENTS = 15
"""Dents in the longest repeat that is looked for: common practice, longer ones lose count."""

MOST_DENTS_BY_HEART = 5
"""Dents in a repeat that can be sleyed without a list: common practice."""

_CLOSE = 0.01  # setts that differ by less than this share count as the same


@dataclass(frozen=True, slots=True, kw_only=True)
class Sley:
    """A sley order for one reed.

    Attributes
    ----------
    dents_per_cm : float
        Of the reed.
    order : tuple of int
        Ends in each dent of the repeat.
    ends_per_cm_asked : float
        The sett that was wished for.
    """

    dents_per_cm: float
    order: tuple[int, ...]
    ends_per_cm_asked: float

    @property
    def ends_in_repeat(self) -> int:
        """Ends that fill one repeat."""
        return sum(self.order)

    @property
    def ends_per_cm(self) -> float:
        """Sett that the order really gives."""
        return self.dents_per_cm * self.ends_in_repeat / len(self.order)

    @property
    def difference(self) -> float:
        """How far the sett is off, as a share of what was asked; negative where it is opener."""
        return self.ends_per_cm / self.ends_per_cm_asked - 1

    @property
    def text(self) -> str:
        """Order as it is spoken at the reed: ``1-1-1-2``."""
        return "-".join(map(str, self.order))

    def dents_for(self, ends: int) -> int:
        """Dents that this many ends fill."""
        repeats, left = divmod(ends, self.ends_in_repeat)
        dents = repeats * len(self.order)
        for held in self.order:
            if left <= 0:
                break
            left -= held
            dents += 1
        return dents


def _spread(ends: int, dents: int) -> tuple[int, ...]:
    """Spread ends over dents so that no run of dents is fuller than it must be."""
    return tuple((i + 1) * ends // dents - i * ends // dents for i in range(dents))


def sley(ends_per_cm: float, dents_per_cm: float, *, most_dents: int = MOST_DENTS) -> Sley:
    """Find the most even sley order for a sett in one reed.

    The ends to a dent, sett / reed, as a fraction a/b in lowest terms: b dents hold a ends,
    each dent either the whole number below or one more, spread as evenly as can be. Where the
    fraction has more than `most_dents` dents, the nearest one that has not is taken.

    Parameters
    ----------
    ends_per_cm, dents_per_cm : float
        Sett and reed.
    most_dents : int
        Dents in the longest repeat that is allowed.

    Returns
    -------
    Sley

    Raises
    ------
    InputError
        Where a value is out of range.
    WeavingError
        Where the sett is so open for the reed that no repeat of `most_dents` holds an end.

    Examples
    --------
    >>> sley(10 / 2.54, 8 / 2.54).text
    '1-1-1-2'
    """
    for name, value in (("sett", ends_per_cm), ("reed", dents_per_cm)):
        if not 0 < value < math.inf:
            raise InputError(name, "must be more than 0, and finite", got=f"{value} per cm")
    if not most_dents >= 1:
        raise InputError("dents in the repeat", "must be at least 1", got=f"{most_dents}")
    ratio = Fraction(round(ends_per_cm / dents_per_cm, 9)).limit_denominator(most_dents)
    if ratio == 0:
        rule = f"must put at least one end into {most_dents} dents"
        got = f"{ends_per_cm:.2f} ends per cm in {dents_per_cm:.2f} dents per cm"
        raise WeavingError("sley", rule, got=got, remedy="Take a coarser reed.")
    order = _spread(ratio.numerator, ratio.denominator)
    return Sley(dents_per_cm=dents_per_cm, order=order, ends_per_cm_asked=ends_per_cm)


def _hardship(order: Sley) -> tuple[float, ...]:
    """Rank a sley order: near the sett, short repeat, two to a dent, then fewer than more."""
    off = math.floor(round(abs(order.difference), 9) / _CLOSE)
    per_dent = order.ends_in_repeat / len(order.order)
    from_two = round(abs(per_dent - 2), 6)
    return (off, len(order.order), from_two, round(abs(order.difference), 6), per_dent)


def nearest_reeds(
    ends_per_cm: float,
    reeds_per_cm: Sequence[float],
    *,
    most_dents: int = MOST_DENTS_BY_HEART,
) -> tuple[Sley, ...]:
    """Rank the reeds a weaver owns for a sett, the best first.

    The reed that comes nearest to the sett wins; among those within the same per cent the one
    with the shortest repeat, then the one nearest to two ends in a dent, which lets knots pass
    and marks the cloth least (common practice).

    Parameters
    ----------
    ends_per_cm : float
        The sett that is wished for.
    reeds_per_cm : sequence of float
        Dents per cm of each reed.
    most_dents : int
        Dents in the longest repeat that is allowed.

    Returns
    -------
    tuple of Sley
        One for each reed.

    Raises
    ------
    InputError
        Where no reed is given, or a value is out of range.
    WeavingError
        Where no reed can hold the sett.

    Examples
    --------
    >>> best = nearest_reeds(20 / 2.54, (8 / 2.54, 10 / 2.54, 12 / 2.54))[0]
    >>> round(best.dents_per_cm * 2.54), best.text
    (10, '2')
    """
    if not reeds_per_cm:
        raise InputError("reeds", "must be at least one", got="none")
    found, refused = [], None
    for reed in reeds_per_cm:
        try:
            found.append(sley(ends_per_cm, reed, most_dents=most_dents))
        except WeavingError as error:
            refused = error
    if not found and refused:
        raise refused
    return tuple(sorted(found, key=_hardship))
