"""A striped warp: its stripes in ends, and the chains to wind of each colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.warp import Warp

__all__ = ["ENDS_PER_CHAIN", "Chain", "WarpStripe", "chains", "ends_by_colour", "fill_warp"]

ENDS_PER_CHAIN = 100
"""Most ends in one chain: common practice, more are hard to keep at one tension."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WarpStripe:
    """A run of ends in one colour.

    Attributes
    ----------
    colour : str
    hex : str
        ``#rrggbb`` of the yarn.
    ends : int
        At least 1.
    """

    colour: str
    hex: str
    ends: int

    def __post_init__(self) -> None:
        """Refuse a stripe without ends."""
        if not self.ends >= 1:
            thing = f"warp stripe {self.colour}"
            raise InputError(thing, "must have at least 1 end", got=f"{self.ends}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """One chain to wind.

    Attributes
    ----------
    colour, hex : str
    ends : int
    length_mm : float
        Of every end.
    """

    colour: str
    hex: str
    ends: int
    length_mm: float

    @property
    def yarn_m(self) -> float:
        """Metres of yarn in the chain."""
        return self.ends * self.length_mm / 1000


def fill_warp(
    pattern: Sequence[WarpStripe], ends: int, *, mirrored: bool = False
) -> tuple[WarpStripe, ...]:
    """Repeat a pattern of warp stripes over all ends, centred.

    What does not fill a whole repeat is shared between the two edges, so that the cloth looks
    the same from both; with an odd end over, the right edge has it.

    Parameters
    ----------
    pattern : sequence of WarpStripe
        One repeat, from the right as the weaver sits, end 1 first.
    ends : int
        Ends of the warp, `Warp.ends`.
    mirrored : bool
        Whether every second repeat runs backwards.

    Returns
    -------
    tuple of WarpStripe
        Neighbours differ in colour; the ends sum to `ends`.

    Examples
    --------
    >>> moss = WarpStripe(colour="moss", hex="#5d733a", ends=6)
    >>> rust = WarpStripe(colour="rust", hex="#a3522b", ends=4)
    >>> [(stripe.colour, stripe.ends) for stripe in fill_warp((moss, rust), 24)]
    [('rust', 2), ('moss', 6), ('rust', 4), ('moss', 6), ('rust', 4), ('moss', 2)]
    """
    if not pattern:
        raise InputError("warp stripes", "must be at least one", got="none")
    if not ends >= 1:
        raise InputError("ends", "must be at least 1", got=f"{ends}")
    repeat = [stripe for stripe in pattern for _ in range(stripe.ends)]
    turn = [*repeat, *reversed(repeat)] if mirrored else repeat
    spare = ends % len(turn)
    start = (len(turn) - (spare + 1) // 2) % len(turn)
    row = [turn[(start + end) % len(turn)] for end in range(ends)]
    stripes: list[WarpStripe] = []
    for end in row:
        if stripes and stripes[-1].colour == end.colour:
            last = stripes.pop()
            stripes.append(WarpStripe(colour=last.colour, hex=last.hex, ends=last.ends + 1))
        else:
            stripes.append(WarpStripe(colour=end.colour, hex=end.hex, ends=1))
    return tuple(stripes)


def ends_by_colour(stripes: Sequence[WarpStripe]) -> tuple[WarpStripe, ...]:
    """Sum the ends of each colour, in the order in which the colours first stand.

    Examples
    --------
    >>> stripes = [WarpStripe(colour=c, hex="#777777", ends=n) for c, n in (("a", 4), ("b", 2))]
    >>> [(part.colour, part.ends) for part in ends_by_colour([*stripes, *stripes])]
    [('a', 8), ('b', 4)]
    """
    totals: dict[str, WarpStripe] = {}
    for stripe in stripes:
        before = totals.get(stripe.colour)
        ends = stripe.ends + (before.ends if before else 0)
        hex_code = before.hex if before else stripe.hex
        totals[stripe.colour] = WarpStripe(colour=stripe.colour, hex=hex_code, ends=ends)
    return tuple(totals.values())


def chains(
    stripes: Sequence[WarpStripe], warp: Warp, *, ends_per_chain: int = ENDS_PER_CHAIN
) -> tuple[Chain, ...]:
    """Chains to wind, colour by colour, each of at most `ends_per_chain` ends.

    Parameters
    ----------
    stripes : sequence of WarpStripe
        Of the whole warp.
    warp : Warp
    ends_per_chain : int

    Returns
    -------
    tuple of Chain
        The ends of each colour shared evenly among its chains, in whole pairs where they can be.

    Raises
    ------
    InputError
        Where the stripes do not come to the ends of the warp.
    """
    total = sum(stripe.ends for stripe in stripes)
    if total != warp.ends:
        rule = f"must come to the warp's {warp.ends} ends"
        raise InputError("warp stripes", rule, got=f"{total}")
    if not ends_per_chain >= 2:
        raise InputError("ends in a chain", "must be at least 2", got=f"{ends_per_chain}")
    wound: list[Chain] = []
    for part in ends_by_colour(stripes):
        wound.extend(
            Chain(colour=part.colour, hex=part.hex, ends=ends, length_mm=warp.length_mm)
            for ends in _shared(part.ends, ends_per_chain)
        )
    return tuple(wound)


def _shared(ends: int, most: int) -> tuple[int, ...]:
    """Share ends among as few chains as hold them, pair by pair."""
    most -= most % 2
    count = -(-ends // most)
    pairs, odd = divmod(ends, 2)
    parts = [2 * ((i + 1) * pairs // count - i * pairs // count) for i in range(count)]
    smallest = parts.index(min(parts))
    parts[smallest] += odd
    return tuple(parts)
