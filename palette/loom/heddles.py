"""Heddles for each shaft, and lifts of each treadle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from palette.errors import InputError, WeavingError
from palette.loom.draft import Draft

__all__ = ["Treadle", "check_heddles", "heddles_per_shaft", "lift_plan", "lifts_per_treadle"]


def heddles_per_shaft(draft: Draft, ends: int) -> tuple[int, ...]:
    """Count the heddles that a threading needs on each shaft.

    Parameters
    ----------
    draft : Draft
        Its threading is repeated until the ends are used up.
    ends : int
        Ends with a heddle of their own: `Warp.working_ends`.

    Returns
    -------
    tuple of int
        Shaft 1 first, one number for each shaft of the draft.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> heddles_per_shaft(weave_named("point twill"), 100)
    (17, 33, 33, 17)
    """
    if not ends >= 1:
        raise InputError("ends", "must be at least 1", got=f"{ends}")
    repeats, left = divmod(ends, len(draft.threading))
    counts = Counter({shaft: n * repeats for shaft, n in Counter(draft.threading).items()})
    counts.update(draft.threading[:left])
    return tuple(counts[shaft] for shaft in range(1, draft.shafts + 1))


def check_heddles(needed: Sequence[int], available: int | Sequence[int]) -> None:
    """Refuse a threading that needs more heddles than a shaft holds.

    Parameters
    ----------
    needed : sequence of int
        From `heddles_per_shaft`.
    available : int or sequence of int
        On every shaft, or on each, shaft 1 first.

    Raises
    ------
    WeavingError
        Names every shaft that is short, and by how many.

    Examples
    --------
    >>> check_heddles((120, 120), 100)
    Traceback (most recent call last):
    palette.errors.WeavingError: heddles: each shaft must hold what is threaded on it; got shaft
    1 needs 120 and holds 100, shaft 2 needs 120 and holds 100. Move or add heddles, weave
    narrower or more open, or spread the threading over more shafts.
    """
    holds = [available] * len(needed) if isinstance(available, int) else list(available)
    holds += [0] * (len(needed) - len(holds))
    short = [
        f"shaft {shaft} needs {wants} and holds {has}"
        for shaft, (wants, has) in enumerate(zip(needed, holds, strict=False), start=1)
        if wants > has
    ]
    if short:
        rule = "each shaft must hold what is threaded on it"
        remedy = (
            "Move or add heddles, weave narrower or more open, or spread the threading over "
            "more shafts."
        )
        raise WeavingError("heddles", rule, got=", ".join(short), remedy=remedy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Treadle:
    """One treadle: the shafts it lifts, and how often it is pressed.

    Attributes
    ----------
    number : int
        From 1.
    shafts : tuple of int
    lifts : int
        Picks that press it.
    """

    number: int
    shafts: tuple[int, ...]
    lifts: int


def lifts_per_treadle(draft: Draft, picks: int) -> tuple[Treadle, ...]:
    """Count how often each treadle is pressed in this many picks.

    Parameters
    ----------
    draft : Draft
        Its treadling is repeated until the picks are woven.
    picks : int
        0 or more.

    Returns
    -------
    tuple of Treadle
        In order of number, treadles that are never pressed too.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> [treadle.lifts for treadle in lifts_per_treadle(PLAIN_WEAVE, 101)]
    [51, 50]
    """
    if not picks >= 0:
        raise InputError("picks", "must be 0 or more", got=f"{picks}")
    repeats, left = divmod(picks, len(draft.treadling))
    counts = Counter({treadle: n * repeats for treadle, n in Counter(draft.treadling).items()})
    counts.update(draft.treadling[:left])
    return tuple(
        Treadle(number=number, shafts=shafts, lifts=counts[number])
        for number, shafts in enumerate(draft.tie_up, start=1)
    )


def lift_plan(draft: Draft) -> tuple[tuple[int, ...], ...]:
    """Shafts to lift for each pick of the treadling: for looms without treadles.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> lift_plan(weave_named("2/2 twill"))
    ((1, 2), (2, 3), (3, 4), (1, 4))
    """
    return tuple(draft.tie_up[treadle - 1] for treadle in draft.treadling)
