"""Whether a cloth is read right, and whether doubt names what is not."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from palette.stripes.reading_values import ClothReading

__all__ = ["Score", "score"]

_SHOWN = 0.7  # picks that a stripe cut by the picture must show to count
_CUT = "runs out of the picture"


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Result of one cloth.

    Attributes
    ----------
    right : bool
        The sequence is the true one, and every width within one pick or 3 per cent.
    stripes : int
        Stripes read.
    wrong : int
        Stripes of a wrong width; where the sequence is wrong, 1 for the place where it is.
    named : int
        How many of these have a doubt at or next to them. That a stripe runs out of the picture
        counts for that stripe alone.
    false_alarms : int
        Stripes doubted although they and their neighbours are right; without those that are only
        said to run out of the picture.
    note : str
        What is wrong.
    """

    right: bool
    stripes: int = 0
    wrong: int = 0
    named: int = 0
    false_alarms: int = 0
    note: str = ""


def _by_appearance(items: Iterable[object]) -> list[int]:
    seen: dict[object, int] = {}
    return [seen.setdefault(item, len(seen)) for item in items]


def _alike(read: Sequence[object], true: Sequence[object]) -> int:
    """How many stripes from the start agree, whatever the yarns are called."""
    pairs = zip(_by_appearance(read), _by_appearance(true), strict=False)
    return sum(1 for _ in itertools.takewhile(lambda pair: pair[0] == pair[1], pairs))


def score(reading: ClothReading, sequence: Sequence[int], picks: Sequence[float]) -> Score:
    """Hold a reading against the truth."""
    shown = [k for k, count in enumerate(picks) if count > _SHOWN]
    read, true = [stripe.colour for stripe in reading.stripes], [sequence[k] for k in shown]
    doubts = [stripe.doubt for stripe in reading.stripes]
    if _by_appearance(read) != _by_appearance(true):
        first, last = _alike(read, true), len(read) - 1 - _alike(read[::-1], true[::-1])
        first, last = min(first, last), max(first, last)
        named = any(_doubted(doubts, k) for k in range(max(0, first - 1), last + 2))
        note = f"{len(read)} stripes in {len(set(read))} yarns read, "
        note += f"{len(true)} in {len(set(true))} true, from stripe {max(first, 0) + 1}"
        return Score(right=False, stripes=len(read), wrong=1, named=int(named), note=note)
    widths = np.array([picks[k] for k in shown])
    total = widths.sum()
    off = np.abs(np.array([stripe.share for stripe in reading.stripes]) * total - widths)
    wrong = (off > 1) & (off > 0.03 * widths)
    near = [wrong[max(0, k - 1) : k + 2].any() for k in range(len(read))]
    alarms = [bool(doubt) and not doubt.startswith(_CUT) for doubt in doubts]
    return Score(
        right=not wrong.any(),
        stripes=len(read),
        wrong=int(wrong.sum()),
        named=sum(_doubted(doubts, k) for k in np.flatnonzero(wrong).tolist()),
        false_alarms=sum(alarm and not by for alarm, by in zip(alarms, near, strict=True)),
        note=f"widest error {off.max():.2f} picks",
    )


def _doubted(doubts: Sequence[str], number: int) -> bool:
    """Whether a stripe, or one beside it, is doubted."""
    beside = [doubt for doubt in doubts[max(0, number - 1) : number + 2] if doubt]
    own = doubts[number] if number < len(doubts) else ""
    return bool(own) or any(not doubt.startswith(_CUT) for doubt in beside)
