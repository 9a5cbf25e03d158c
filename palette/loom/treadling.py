"""The treadle of every pick of a cloth: its weave, and its hems in plain weave."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import cycle, groupby, islice

from palette.loom.draft import Draft
from palette.loom.heddles import Treadle
from palette.loom.structure import plain_weave_treadles
from palette.stripes.plan import StripePlan

__all__ = ["TreadleRun", "hem_note", "lifts_in", "treadle_runs", "whole_draft"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TreadleRun:
    """A run of picks with one treadling.

    Attributes
    ----------
    first_pick, last_pick : int
    treadles : tuple of int
        Of the picks of one repeat, the first one first; the last repeat may be cut short.
    hem : bool
        Whether it is a hem in plain weave.
    """

    first_pick: int
    last_pick: int
    treadles: tuple[int, ...]
    hem: bool = False

    @property
    def picks(self) -> tuple[int, ...]:
        """Treadle of each pick."""
        return tuple(islice(cycle(self.treadles), self.last_pick - self.first_pick + 1))


def treadle_runs(cloth: StripePlan, draft: Draft) -> tuple[TreadleRun, ...]:
    """Treadle a cloth: hems on the two treadles that weave plain, all else by the draft.

    A hem begins on whichever of the two gives another shed than the pick beside it; the pattern
    begins with its first treadle after the hem. Where the draft has no treadles for plain
    weave, or is plain weave itself, there is one run.

    Parameters
    ----------
    cloth : StripePlan
    draft : Draft

    Returns
    -------
    tuple of TreadleRun
        In weaving order, without gaps.
    """
    pair = plain_weave_treadles(draft)
    parts = [
        (hem, list(stripes))
        for hem, stripes in groupby(cloth.stripes, lambda stripe: stripe.role == "hem")
    ]
    if pair is None or set(draft.treadling) == set(pair) or (len(parts) == 1 and not parts[0][0]):
        return (TreadleRun(first_pick=1, last_pick=cloth.total_picks, treadles=draft.treadling),)
    runs: list[TreadleRun] = []
    woven = 0
    for hem, stripes in parts:
        first, last = stripes[0].first_pick, stripes[-1].last_pick
        if hem:
            ahead = draft.treadling[woven % len(draft.treadling)] if last < cloth.total_picks else 0
            before = runs[-1].picks[-1] if runs else 0
            treadles: tuple[int, ...] = _hem(pair, draft, last - first + 1, before, ahead)
        else:
            at = woven % len(draft.treadling)
            treadles = draft.treadling[at:] + draft.treadling[:at]
            woven += last - first + 1
        runs.append(TreadleRun(first_pick=first, last_pick=last, treadles=treadles, hem=hem))
    return tuple(runs)


def _hem(
    pair: tuple[int, int], draft: Draft, picks: int, before: int, ahead: int
) -> tuple[int, int]:
    """Choose with which of the two treadles a hem begins, so that no shed comes twice running."""

    def shed(treadle: int) -> frozenset[int]:
        return frozenset(draft.tie_up[treadle - 1]) & frozenset(draft.threading)

    def twice(order: tuple[int, int]) -> tuple[bool, bool]:
        last = order[(picks - 1) % 2]
        return (
            before > 0 and shed(before) == shed(order[0]),
            ahead > 0 and shed(ahead) == shed(last),
        )

    return min(pair, pair[::-1], key=twice)


def whole_draft(draft: Draft, cloth: StripePlan) -> Draft:
    """Give the draft with the treadling of the whole cloth, its hems in plain weave.

    Returns
    -------
    Draft
        The same one where the cloth has no hem that is treadled apart.
    """
    runs = treadle_runs(cloth, draft)
    if len(runs) == 1 and not runs[0].hem:
        return draft
    return replace(draft, treadling=tuple(treadle for run in runs for treadle in run.picks))


def lifts_in(cloths: Sequence[StripePlan], draft: Draft) -> tuple[Treadle, ...]:
    """Count how often each treadle is pressed in these cloths, their hems in plain weave.

    Each cloth begins the treadling anew.
    """
    lifts = Counter(
        treadle for cloth in cloths for run in treadle_runs(cloth, draft) for treadle in run.picks
    )
    return tuple(
        Treadle(number=number, shafts=shafts, lifts=lifts[number])
        for number, shafts in enumerate(draft.tie_up, start=1)
    )


def hem_note(cloths: Sequence[StripePlan], draft: Draft) -> tuple[str, ...]:
    """Say where hems cannot be woven plain, and which treadles would do it."""
    if not any(stripe.role == "hem" for cloth in cloths for stripe in cloth.stripes):
        return ()
    if plain_weave_treadles(draft) is not None:
        return ()
    odd, even = set(draft.threading[::2]), set(draft.threading[1::2])
    if odd & even or len(draft.threading) % 2:
        why = "its threading has none"
    else:
        sheds = " and ".join("+".join(map(str, sorted(shafts))) for shafts in (odd, even))
        why = f"tie {sheds} to two treadles for it"
    return (f"The hem is treadled as {draft.name}, not in plain weave: {why}.",)
