"""The repeat in a sequence of stripes: how many stripes make one, and what is left over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["ReadRepeat", "find_repeat"]

_WIDTH_OFF = 0.12
_SHOWN = 4  # stripes of a second repeat that have to show where it is not whole


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
    """

    stripes: int
    whole: int
    left_over: int
    share: float


def find_repeat(
    yarns: Sequence[int], widths: Sequence[float], pick: float = 0.0
) -> ReadRepeat | None:
    """Find the shortest repeat that the whole cloth follows.

    Parameters
    ----------
    yarns : sequence of int
        Yarn of each stripe.
    widths : sequence of float
        Width of each stripe; the first and the last may be cut by the picture.
    pick : float
        Width of one pick in the same measure: widths may differ by one.

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
    for period in range(2, max(count // 2, min(count - _SHOWN, 2 * count // 3)) + 1):
        if all(yarns[k] == yarns[k + period] for k in range(count - period)) and _alike(
            widths, period, pick
        ):
            whole, left_over = divmod(count, period)
            first = sum(widths[:period]) / sum(widths)
            return ReadRepeat(stripes=period, whole=whole, left_over=left_over, share=first)
    return None


def _alike(widths: Sequence[float], period: int, pick: float) -> bool:
    """Whether stripes a repeat apart are as wide, the two ends of the cloth left out."""
    count = len(widths)
    for k in range(1, count - 1 - period):
        first, again = widths[k], widths[k + period]
        if abs(first - again) > max(1.6 * pick, _WIDTH_OFF * (first + again), 0.0):
            return False
    return True
