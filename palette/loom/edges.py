"""The two edges of a warp: whether the threading comes out even, and whether they are caught."""

from __future__ import annotations

from palette.loom.draft import Draft
from palette.loom.structure import drawdown

__all__ = ["even_ends", "even_note", "wants_floating_selvedge"]

_PLAIN = 2  # a threading of two ends leaves nothing over that shows


def even_ends(draft: Draft, ends: int) -> tuple[int, int]:
    """Numbers of ends at which the threading comes out even: the nearest below, and above.

    A threading that runs to a point and back is even with one end more than whole repeats, so
    that both edges are alike; any other with whole repeats. Both are `ends` where it does.

    Parameters
    ----------
    draft : Draft
    ends : int
        `Warp.working_ends`.

    Returns
    -------
    tuple of 2 int
        The first is 0 where not even one repeat fits.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> even_ends(weave_named("2/2 twill"), 213), even_ends(weave_named("point twill"), 336)
    ((212, 216), (331, 337))
    """
    repeat = draft.threading
    closing = 1 if len(repeat) > _PLAIN and repeat[1:] == repeat[:0:-1] else 0
    over = (ends - closing) % len(repeat)
    if not over:
        return ends, ends
    below = ends - over
    return (below if below > closing else 0), below + len(repeat)


def even_note(draft: Draft, ends: int) -> tuple[str, ...]:
    """Say that a threading does not come out even, and the numbers of ends at which it would.

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> print(*even_note(weave_named("2/2 twill"), 213))
    The threading of 2/2 twill, 4 ends, does not come out even in 213 ends: 212 or 216 would.
    """
    below, above = even_ends(draft, ends)
    if len(draft.threading) <= _PLAIN or below == above:
        return ()
    least = f"{below} or {above}" if below else f"{above}"
    closed = "" if above % len(draft.threading) == 0 else ", the last end closing the point"
    return (
        f"The threading of {draft.name}, {len(draft.threading)} ends, does not come out even in "
        f"{ends} ends: {least} would{closed}.",
    )


def wants_floating_selvedge(draft: Draft) -> bool:
    """Whether the weft can slip past an edge: some turn finds the outermost end unmoved.

    The weft turns round the outermost end only where that end changes sides between two picks.
    Where it does not, one end more at each side, in a dent but in no heddle, is passed over
    going in and under coming out (common practice for twills).

    Examples
    --------
    >>> from palette.loom.drafts import weave_named
    >>> [wants_floating_selvedge(weave_named(name)) for name in ("plain weave", "2/2 twill")]
    [False, True]
    """
    rows = drawdown(draft)
    return any(rows[i][edge] == rows[i - 1][edge] for i in range(len(rows)) for edge in (0, -1))
