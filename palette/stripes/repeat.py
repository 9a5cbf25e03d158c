"""The repeat of a plan: the stripes that come back in the same order and widths."""

from __future__ import annotations

from dataclasses import dataclass

from palette.stripes.plan import StripePlan

__all__ = ["Repeat", "repeat_of"]

FEWEST_TIMES = 2
LEAST_PART = 0.6  # of the picks between the hems that the repeat has to fill


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Stripes that are woven several times over.

    Attributes
    ----------
    first_stripe, last_stripe : int
        Numbers of the stripes of the first whole repeat, from 1.
    picks : int
        Length of one repeat.
    times : int
        Whole repeats, at least 2.
    first_pick, last_pick : int
        Picks over which they are woven.
    """

    first_stripe: int
    last_stripe: int
    picks: int
    times: int
    first_pick: int
    last_pick: int


def _longest_stretch(same: list[bool]) -> tuple[int, int]:
    """Start and length of the longest run of True; the first of equals."""
    best, start = (0, 0), 0
    for place, value in enumerate([*same, False]):
        if not value:
            best = max(best, (start, place - start), key=lambda stretch: stretch[1])
            start = place + 1
    return best


def repeat_of(plan: StripePlan) -> Repeat | None:
    """Find the shortest repeat of a plan, a part of a repeat at either end allowed.

    Parameters
    ----------
    plan : StripePlan
        Hems and borders are left out.

    Returns
    -------
    Repeat or None
        None where no two neighbouring groups of stripes agree in colours and picks over at
        least three fifths of the cloth.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, Weft, number_picks
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> green, grey = Weft.of(moss), Weft("grey", "#808080", (53.6, 0.0, 0.0))
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), picks_per_cm=8, finished_length_mm=50,
    ...     stripes=number_picks([Piece(green, 6), Piece(grey, 2)] * 3 + [Piece(green, 6)]))
    >>> found = repeat_of(plan)
    >>> found.picks, found.times, found.last_stripe
    (8, 3, 2)
    """
    body = [
        (number, stripe)
        for number, stripe in enumerate(plan.stripes, start=1)
        if stripe.role in ("stripe", "blend")
    ]
    keys = [(stripe.colour, stripe.picks) for _, stripe in body]
    whole = sum(picks for _, picks in keys)
    for period in range(2, len(keys) // FEWEST_TIMES + 1):
        same = [a == b for a, b in zip(keys, keys[period:], strict=False)]
        if sum(same) < period:
            continue
        start, length = _longest_stretch(same)
        times = length // period + 1
        picks = sum(width for _, width in keys[start : start + period])
        if times >= FEWEST_TIMES and picks * times >= LEAST_PART * whole:
            first = body[start][1].first_pick
            return Repeat(
                first_stripe=body[start][0],
                last_stripe=body[start + period - 1][0],
                picks=picks,
                times=times,
                first_pick=first,
                last_pick=first + picks * times - 1,
            )
    return None
