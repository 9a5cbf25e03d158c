"""Whether a cloth is read right, and whether doubt names what is not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from palette.stripes.reading_values import ClothReading

__all__ = ["Score", "score"]

_SHOWN = 0.7  # picks that a stripe cut by the picture must show to count


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Result of one cloth.

    Attributes
    ----------
    right : bool
        The sequence is the true one, and every width within one pick or 3 per cent.
    named : bool
        For a wrong reading: doubt named a stripe at, or next to, every place that is wrong.
    false_alarms : int
        Stripes named unsure although they are right.
    note : str
        What is wrong.
    """

    right: bool
    named: bool
    false_alarms: int
    note: str


def _by_appearance(items: Iterable[object]) -> list[int]:
    seen: dict[object, int] = {}
    return [seen.setdefault(item, len(seen)) for item in items]


def score(reading: ClothReading, sequence: Sequence[int], picks: Sequence[float]) -> Score:
    """Hold a reading against the truth."""
    shown = [k for k, count in enumerate(picks) if count > _SHOWN]
    true = np.array([picks[k] for k in shown])
    total = true.sum()
    unsure = [stripe.confidence < 0.5 for stripe in reading.stripes]
    same = _by_appearance(stripe.colour for stripe in reading.stripes) == _by_appearance(
        sequence[k] for k in shown
    )
    if not same:
        note = f"{len(reading.stripes)} stripes in {len(reading.palette.swatches)} yarns read, "
        note += f"{len(shown)} in {len(set(sequence))} true"
        return Score(right=False, named=any(unsure), false_alarms=0, note=note)
    off = np.array([stripe.share for stripe in reading.stripes]) - true / total
    wrong = (np.abs(off) * total > 1) & (np.abs(off) * total > 0.03 * true)
    near = [any(unsure[max(0, k - 1) : k + 2]) for k in range(len(unsure))]
    places = np.flatnonzero(wrong).tolist()
    return Score(
        right=not wrong.any(),
        named=bool(places) and all(near[k] for k in places),
        false_alarms=sum(
            doubt and not wrong[max(0, k - 1) : k + 2].any() for k, doubt in enumerate(unsure)
        ),
        note=f"widest error {np.abs(off).max() * total:.2f} picks",
    )
