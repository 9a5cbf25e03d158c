"""The structure of a weave: its drawdown, its interlacings and its floats."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.draft import Draft

__all__ = ["Float", "Structure", "drawdown", "plain_weave_treadles", "structure_of"]

Grid = tuple[tuple[bool, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Float:
    """The longest float of one set of threads.

    Attributes
    ----------
    threads : int
        Threads that it passes over (or under) before it is caught; 0 where it never is.
    thread : int
        Number of the end (warp float) or pick (weft float) in the repeat that makes it.
    """

    threads: int
    thread: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Structure:
    """What one repeat of a weave is made of.

    Attributes
    ----------
    ends, picks : int
        Ends and picks in the repeat.
    warp_interlacings : float
        Times one end changes between face and back in the repeat, the mean of all ends.
    weft_interlacings : float
        Times one pick changes between face and back in the repeat, the mean of all picks.
    warp_float, weft_float : Float
        The longest of each; on face or back, whichever is longer.
    warp_share : float
        Share of the crossings where the warp lies on the face.
    """

    ends: int
    picks: int
    warp_interlacings: float
    weft_interlacings: float
    warp_float: Float
    weft_float: Float
    warp_share: float

    @property
    def room(self) -> float:
        """Closest sett as a share of threads lying side by side: R / (R + I) of one pick.

        References
        ----------
        Ashenhurst's rule, as in Taylor, *Cotton Weaving and Designing*, 6th ed.
        """
        return self.ends / (self.ends + self.weft_interlacings)

    @property
    def longest_float(self) -> int:
        """Threads under the longest float; 0 where a thread is never caught."""
        lengths = (self.warp_float.threads, self.weft_float.threads)
        return 0 if 0 in lengths else max(lengths)


def drawdown(draft: Draft) -> Grid:
    """One repeat of the cloth, pick 1 first; True where the warp lies on the face.

    Parameters
    ----------
    draft : Draft

    Returns
    -------
    tuple of tuple of bool
        One row for each pick of the treadling, one column for each end of the threading.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> drawdown(PLAIN_WEAVE)
    ((True, False), (False, True))
    """
    lifted = [set(shafts) for shafts in draft.tie_up]
    return tuple(
        tuple(shaft in lifted[treadle - 1] for shaft in draft.threading)
        for treadle in draft.treadling
    )


def _changes(line: tuple[bool, ...]) -> int:
    """Count changes along one thread of a repeat that joins up with the next one."""
    return sum(line[i] != line[i - 1] for i in range(len(line)))


def _longest_run(line: tuple[bool, ...]) -> int:
    """Threads of the longest run in a repeat that joins up; 0 where it never changes."""
    if _changes(line) == 0:
        return 0
    start = next(i for i in range(len(line)) if line[i] != line[i - 1])
    turned = line[start:] + line[:start]
    longest = run = 1
    for i in range(1, len(turned)):
        run = run + 1 if turned[i] == turned[i - 1] else 1
        longest = max(longest, run)
    return longest


def _longest_float(lines: tuple[tuple[bool, ...], ...]) -> Float:
    runs = [_longest_run(line) for line in lines]
    # A thread that is never caught is the worst of all.
    worst = max(range(len(runs)), key=lambda i: math.inf if runs[i] == 0 else runs[i])
    return Float(threads=runs[worst], thread=worst + 1)


def structure_of(draft: Draft) -> Structure:
    """Work out interlacings, floats and face of a weave.

    Parameters
    ----------
    draft : Draft

    Returns
    -------
    Structure

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> twill = structure_of(weave_named("2/2 twill"))
    >>> twill.weft_interlacings, round(twill.room, 3), twill.longest_float
    (2.0, 0.667, 2)
    """
    rows = drawdown(draft)
    columns = tuple(zip(*rows, strict=True))
    crossings = len(rows) * len(columns)
    if not crossings:
        raise InputError(f"draft {draft.name!r}", "must have at least one crossing")
    return Structure(
        ends=len(columns),
        picks=len(rows),
        warp_interlacings=sum(map(_changes, columns)) / len(columns),
        weft_interlacings=sum(map(_changes, rows)) / len(rows),
        warp_float=_longest_float(columns),
        weft_float=_longest_float(rows),
        warp_share=sum(map(sum, rows)) / crossings,
    )


def plain_weave_treadles(draft: Draft) -> tuple[int, int] | None:
    """Find the two treadles that weave plain on this threading: for hems and headers.

    Parameters
    ----------
    draft : Draft

    Returns
    -------
    tuple of 2 int, or None
        Numbers of the treadles; None where the tie-up or the threading has no plain weave.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> plain_weave_treadles(weave_named("point twill"))
    (5, 6)
    >>> plain_weave_treadles(weave_named("basket")) is None
    True
    """
    if len(draft.threading) % 2:
        return None
    sheds = [tuple(shaft in lifted for shaft in draft.threading) for lifted in draft.tie_up]
    every_other = tuple(end % 2 == 0 for end in range(len(draft.threading)))
    others = tuple(not up for up in every_other)
    if every_other in sheds and others in sheds:
        first, second = sorted((sheds.index(every_other) + 1, sheds.index(others) + 1))
        return first, second
    return None
