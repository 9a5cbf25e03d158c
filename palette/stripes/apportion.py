"""Whole numbers from shares: largest remainder, with a least and a most for each."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence

from palette.errors import InputError, WeavingError

__all__ = ["apportion", "exact_parts", "largest_remainder"]

_DECIMALS = 9  # remainders that differ by less are a tie, and go to the earlier one


def largest_remainder(parts: Sequence[float], units: int) -> tuple[int, ...]:
    """Round parts that sum to a whole number so that the whole numbers sum to it too.

    Every part is first rounded down; the units left over go to the largest remainders, ties
    to the earlier part. No part moves by a whole unit.

    Parameters
    ----------
    parts : sequence of float
        0 or more, summing to `units` within rounding noise.
    units : int
        What the result sums to.

    Returns
    -------
    tuple of int

    References
    ----------
    .. [1] Hamilton's method of apportionment, in M. L. Balinski and H. P. Young, "Fair
       Representation", Yale University Press, 1982.

    Examples
    --------
    >>> largest_remainder((1.4, 2.4, 3.2), 7)
    (2, 2, 3)
    """
    whole = [math.floor(round(part, _DECIMALS)) for part in parts]
    left = units - sum(whole)
    if not 0 <= left <= len(parts):
        raise InputError("parts", f"must sum to {units}", got=f"{math.fsum(parts)}")
    by_remainder = sorted(
        range(len(parts)), key=lambda i: (-round(parts[i] - whole[i], _DECIMALS), i)
    )
    for i in by_remainder[:left]:
        whole[i] += 1
    return tuple(whole)


def _limits(value: int | Sequence[int], count: int) -> tuple[int, ...]:
    return (value,) * count if isinstance(value, int) else tuple(value)


def exact_parts(
    shares: Sequence[float],
    units: int,
    *,
    least: int | Sequence[int] = 0,
    most: int | Sequence[int] | None = None,
) -> tuple[float, ...]:
    """Parts of `units` in proportion to shares, held between a least and a most each.

    What a limit takes or gives is shared among the others in proportion, so that colours that
    no limit touches keep their ratio: part = clamp(k x share, least, most) with the one k for
    which the parts sum to `units`.

    Parameters
    ----------
    shares : sequence of float
        0 or more, not all 0 unless the limits leave no choice.
    units : int
        What the parts sum to.
    least, most : int or sequence of int
        For all, or for each.

    Returns
    -------
    tuple of float

    Raises
    ------
    WeavingError
        A least is more than its most, the leasts come to more than `units`, or the mosts to
        less.

    Examples
    --------
    >>> exact_parts((0.6, 0.3, 0.1), 20)
    (12.0, 6.0, 2.0)
    >>> exact_parts((0.6, 0.3, 0.1), 20, least=5)
    (10.0, 5.0, 5.0)
    """
    low = _limits(least, len(shares))
    high = (units,) * len(shares) if most is None else _limits(most, len(shares))
    for place, (fewest, greatest) in enumerate(zip(low, high, strict=True), start=1):
        if fewest > greatest:
            rule = f"must be at least {fewest} and at most {greatest}"
            raise WeavingError(f"part {place}", rule, got="no such number")
    if not sum(low) <= units <= sum(high):
        bound = f"at least {sum(low)}" if units < sum(low) else f"at most {sum(high)}"
        raise WeavingError("parts", f"must come to {bound} together", got=f"{units}")
    edges = sorted(
        {
            limit / share
            for share, *ends in zip(shares, low, high, strict=True)
            if share > 0
            for limit in ends
        }
    )

    def parts_at(factor: float) -> tuple[float, ...]:
        return tuple(
            float(min(max(factor * share, a), b))
            for share, a, b in zip(shares, low, high, strict=True)
        )

    # the sum only rises with the factor: find the two edges that it crosses `units` between
    over = bisect_right(edges, float(units), key=lambda edge: math.fsum(parts_at(edge)))
    start = edges[over - 1] if over else 0.0
    end = edges[over] if over < len(edges) else start
    parts = parts_at(start)
    middle = (start + end) / 2
    rising = math.fsum(
        share for share, a, b in zip(shares, low, high, strict=True) if a < middle * share < b
    )
    short = units - math.fsum(parts)
    if rising > 0:
        parts = parts_at(start + short / rising)
    return _fill_empty(parts, shares, high, units)


def _fill_empty(
    parts: tuple[float, ...], shares: Sequence[float], high: Sequence[int], units: int
) -> tuple[float, ...]:
    """Give what is still left to parts whose share is 0, earlier ones first."""
    filled, left = list(parts), units - math.fsum(parts)
    for i, share in enumerate(shares):
        if share == 0 and left > 10**-_DECIMALS:
            more = min(high[i] - filled[i], left)
            filled[i] += more
            left -= more
    return tuple(filled)


def apportion(
    shares: Sequence[float],
    units: int,
    *,
    least: int | Sequence[int] = 0,
    most: int | Sequence[int] | None = None,
) -> tuple[int, ...]:
    """Whole parts of `units` in proportion to shares, held between a least and a most each.

    `exact_parts`, then `largest_remainder`; the limits are whole numbers, so rounding keeps
    them. Without limits every part is less than one unit from its exact share.

    Parameters
    ----------
    shares, units, least, most
        As in `exact_parts`.

    Returns
    -------
    tuple of int
        Sums to `units`.

    Raises
    ------
    WeavingError
        The limits cannot be kept together.

    Examples
    --------
    >>> apportion((0.5, 0.3, 0.2), 7)
    (4, 2, 1)
    >>> apportion((0.96, 0.03, 0.01), 50, least=2)
    (46, 2, 2)
    >>> apportion((0.5, 0.3, 0.2), 10, most=(3, 10, 10))
    (3, 4, 3)
    """
    return largest_remainder(exact_parts(shares, units, least=least, most=most), units)
