"""The repeat in a sequence of stripes: how many stripes make one, and what is left over."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["ReadRepeat", "find_repeat"]

_WIDTH_OFF = 0.06
_PICKS_OFF = 1.6  # two readings of one width, each within a pick, seldom differ by more
_SHOWN = 1.4  # repeats that have to show
_LEAST_AGAIN = 3  # stripes of a second repeat that have to show
_SURE = 4.0  # bits from which a repeat is no accident


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadRepeat:
    """A part of the sequence that comes again.

    Attributes
    ----------
    stripes : int
        Stripes in one repeat.
    whole : int
        Whole repeats, counted from the first stripe.
    left_over : int
        Stripes of a last repeat that is not whole.
    share : float
        Width of one repeat as a part of the cloth.
    agreed : int
        Stripes that agree, in yarn and width, with the stripe one repeat before.
    confidence : float
        From 0 to 1: how unlikely so many stripes would agree by accident.
    """

    stripes: int
    whole: int
    left_over: int
    share: float
    agreed: int = 0
    confidence: float = 1.0

    @property
    def sureness(self) -> str:
        """How sure the repeat is, in words: "sure", "likely" or "perhaps"."""
        if self.confidence >= 0.9:
            return "sure"
        return "likely" if self.confidence >= 0.6 else "perhaps"


def find_repeat(
    yarns: Sequence[int], widths: Sequence[float], pick: float = 0.0
) -> ReadRepeat | None:
    """Find the shortest repeat that the whole cloth follows, as closely as it was read.

    A cloth may begin and end within a repeat, and its first and last stripe may be cut, so these
    two are compared by yarn alone.

    Parameters
    ----------
    yarns : sequence of int
        Yarn of each stripe.
    widths : sequence of float
        Width of each stripe.
    pick : float
        Width of one pick in the same measure: widths may be a pick off.

    Returns
    -------
    ReadRepeat or None
        None where nothing comes twice.

    Examples
    --------
    >>> find_repeat([0, 1, 2, 0, 1, 2, 0], [4.0, 2, 6, 4, 2, 6, 3]).stripes
    3
    >>> find_repeat([0, 1, 2, 1], [4.0, 2, 6, 4]) is None
    True
    """
    count = len(yarns)
    for period in range(2, count - _LEAST_AGAIN + 1):
        if count < _SHOWN * period:
            break
        if all(yarns[k] == yarns[k + period] for k in range(count - period)) and _alike(
            widths, period, pick
        ):
            whole, left_over = divmod(count, period)
            agreed = count - period
            start = min(1, left_over)  # the first stripe may be cut
            one = sum(widths[start : start + period]) / sum(widths)
            return ReadRepeat(
                stripes=period,
                whole=whole,
                left_over=left_over,
                share=one,
                agreed=agreed,
                confidence=_confidence(agreed, period, len(set(yarns)), count),
            )
    return None


def _alike(widths: Sequence[float], period: int, pick: float) -> bool:
    """Whether stripes a repeat apart are as wide, the two ends of the cloth left out."""
    count = len(widths)
    for k in range(1, count - 1 - period):
        first, again = widths[k], widths[k + period]
        if abs(first - again) > max(_PICKS_OFF * pick, _WIDTH_OFF * (first + again)):
            return False
    return True


def _confidence(agreed: int, period: int, yarns: int, count: int) -> float:
    """One less the chance that a free sequence agrees so far, over all repeats tried.

    A stripe agrees in yarn by accident once in `yarns - 1` (neighbours differ), and in width about
    once in two.
    """
    bits = agreed * (math.log2(max(yarns - 1, 1)) + 1) - math.log2(max(count - period, 1) + 1)
    return 1 - 2 ** -max(bits / _SURE * 2, 0.0)
