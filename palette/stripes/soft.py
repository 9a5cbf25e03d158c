"""Soft changes: from one colour to the next over a passage instead of at a line."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError
from palette.stripes.weft import Piece, Weft, join_pieces

__all__ = ["Soft", "longest_absence", "passage", "soften"]

Way = Literal["alternate", "between"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Soft:
    """A passage between neighbouring stripes.

    Attributes
    ----------
    picks : int
        Length of the passage, half of it taken from each of the two stripes.
    way : {"alternate", "between"}
        Alternate picks of the two colours in a ratio that runs from one to the other, two
        shuttles; or one stripe of a yarn between the two.
    """

    picks: int
    way: Way = "alternate"

    def __post_init__(self) -> None:
        """Refuse a passage without length."""
        if not self.picks >= 1:
            raise InputError("soft change", "must be at least 1 pick long", got=f"{self.picks}")
        if self.way not in ("alternate", "between"):
            rule = "must be made by one of alternate, between"
            raise InputError("soft change", rule, got=repr(self.way))


def _ramp_half(half: int) -> int:
    """Half length of the ramp whose visible part has `half` turns of either colour.

    The first and last turns of a ramp cannot be told from the stripes beside it. A ramp of
    2 H turns begins to show at turn ceil(sqrt(2 H)).
    """
    ramp = half
    while ramp - (math.isqrt(2 * ramp - 1)) < half:
        ramp += 1
    return ramp


def passage(half: int) -> tuple[tuple[int, int], ...]:
    """Give the turns of two colours that run smoothly from the first to the second.

    Up to turn n of a ramp of 2 H turns the second colour has had n^2 / (4 H) of them, rounded:
    its part rises in a straight line from 0 to 1. Read from the other end, the passage is the
    same with the colours exchanged.

    Parameters
    ----------
    half : int
        Turns of either colour, at least 1.

    Returns
    -------
    tuple of (int, int)
        (colour, turns): colour 1 is the second and comes first, colour 0 comes last.

    Examples
    --------
    >>> passage(4)
    ((1, 1), (0, 2), (1, 1), (0, 1), (1, 2), (0, 1))
    """
    ramp = _ramp_half(half)
    count = [(2 * n * n + 4 * ramp) // (8 * ramp) for n in range(2 * ramp + 1)]
    turns = [count[n + 1] - count[n] for n in range(2 * ramp)]
    shown = turns[turns.index(1) : 2 * ramp - turns[::-1].index(0)]
    runs: list[tuple[int, int]] = []
    for turn in shown:
        if runs and runs[-1][0] == turn:
            runs[-1] = (turn, runs[-1][1] + 1)
        else:
            runs.append((turn, 1))
    return tuple(runs)


def longest_absence(half: int) -> int:
    """Give the turns over which one colour of a passage waits for the other, at most."""
    return max(turns for _, turns in passage(half))


def _halves(pieces: Sequence[Piece], wanted: int, step: int, narrowest: int, way: Way) -> list[int]:
    """Give the turns of either colour at each boundary, as many as both its stripes can spare.

    A stripe keeps its smallest width whole, and never less than a third of its picks, or half
    where a yarn between is to take their place; the rest goes to its two boundaries in equal
    parts.
    """
    last = len(pieces) - 1
    gives = []
    for place, piece in enumerate(pieces):
        width = piece.picks // step
        kept = max(narrowest, -(-width // (2 if way == "between" else 3)))
        gives.append((width - kept) // (2 - (place in (0, last))))
    return [max(0, min(wanted, *gives[place : place + 2])) for place in range(last)]


def _between(one: Weft, other: Weft) -> Weft:
    """Yarn midway between two in CIELAB."""
    from palette.perception.spaces import lab_to_hex

    first, second = sorted((one, other))
    lab = tuple((a + b) / 2 for a, b in zip(first.lab, second.lab, strict=True))
    code, _ = lab_to_hex(lab)
    return Weft(f"between {first.name} and {second.name}", code, (lab[0], lab[1], lab[2]))


def soften(
    pieces: Sequence[Piece], soft: Soft, *, step: int, narrowest: int
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """Make the changes between stripes soft.

    Parameters
    ----------
    pieces : sequence of Piece
        Stripes, neighbours in different colours.
    soft : Soft
        The passage; shortened where a stripe is too narrow for it.
    step : int
        Picks of one turn, so that each shuttle comes home.
    narrowest : int
        Smallest stripe in steps; it stays whole between two passages, and at least a third of
        every stripe does.

    Returns
    -------
    pieces : tuple of Piece
        Alternating passages take as much from either colour as they give back; a yarn between
        takes the same number of picks from both.
    notes : tuple of str
        What was shortened, or left hard.
    """
    wanted = max(1, round(soft.picks / (2 * step)))
    halves = _halves(pieces, wanted, step, narrowest, soft.way)
    laid: list[Piece] = []
    for place, piece in enumerate(pieces):
        before = halves[place - 1] if place else 0
        after = halves[place] if place < len(halves) else 0
        laid.append(piece._replace(picks=piece.picks - (before + after) * step))
        if after:
            laid += _passage_pieces(piece.weft, pieces[place + 1].weft, after, step, soft.way)
    return join_pieces(laid), _notes(halves, wanted, step)


def _passage_pieces(one: Weft, other: Weft, half: int, step: int, way: Way) -> list[Piece]:
    if way == "between":
        return [Piece(_between(one, other), 2 * half * step, "blend")]
    return [Piece((one, other)[turn], turns * step, "blend") for turn, turns in passage(half)]


def _notes(halves: Sequence[int], wanted: int, step: int) -> tuple[str, ...]:
    short = [half for half in halves if 0 < half < wanted]
    hard = halves.count(0)
    notes = []
    if short:
        notes.append(
            f"soft changes: {len(short)} of {len(halves)} are shorter than {2 * wanted * step} "
            f"picks, the shortest {2 * min(short) * step}, because the stripes beside them are "
            "too narrow."
        )
    if hard:
        notes.append(
            f"soft changes: {hard} of {len(halves)} stay hard, because a stripe beside them has "
            "no picks to give."
        )
    return tuple(notes)
