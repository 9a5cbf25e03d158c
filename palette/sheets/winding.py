"""A winding: the palette as whole turns of yarn round a card."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from palette.errors import InputError
from palette.swatches.palette import Palette

__all__ = ["Winding", "WindingTurns", "plan_winding"]

_DUST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class WindingTurns:
    """Turns of one yarn.

    Attributes
    ----------
    colour, hex : str
    share : float
        That the palette asks for.
    turns : int
    wraps_per_cm : float
        Of the yarn: turns side by side in 1 cm.
    first_turn : int
        Number of its first turn on the card, from 1; 0 where it has none.
    """

    colour: str
    hex: str
    share: float
    turns: int
    wraps_per_cm: float
    first_turn: int

    @property
    def width_mm(self) -> float:
        """Width of its turns on the card."""
        return self.turns / self.wraps_per_cm * 10

    @property
    def last_turn(self) -> int:
        """Number of its last turn."""
        return self.first_turn + self.turns - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Winding:
    """A card wound with a palette.

    Attributes
    ----------
    card_width_mm : float
        The width that was to be filled.
    yarns : tuple of WindingTurns
        In palette order, as they are wound.
    notes : tuple of str
        What was moved so that every colour is seen, as sentences.
    """

    card_width_mm: float
    yarns: tuple[WindingTurns, ...]
    notes: tuple[str, ...] = ()

    @property
    def turns(self) -> int:
        """Turns on the card."""
        return sum(yarn.turns for yarn in self.yarns)

    @property
    def width_mm(self) -> float:
        """Width that the whole turns really fill."""
        return math.fsum(yarn.width_mm for yarn in self.yarns)


def plan_winding(
    palette: Palette,
    *,
    card_width_mm: float,
    wraps_per_cm: float | Mapping[str, float],
    least: int = 1,
) -> Winding:
    """Share the width of a card out as whole turns.

    Largest remainder (Hamilton's method) on turns: each yarn first gets the whole turns of its
    share of the width, then the width that is left goes turn by turn to the largest remainders.
    With one wraps figure for all, the turns sum to the card's.

    Parameters
    ----------
    palette : Palette
    card_width_mm : float
    wraps_per_cm : float or mapping of str to float
        Turns side by side in 1 cm, for all yarns or by colour name.
    least : int
        Fewest turns of a colour, so that an accent is seen; taken from the widest.

    Returns
    -------
    Winding

    Raises
    ------
    InputError
        If a figure is not more than 0, a colour has no wraps, or the card is too narrow for
        `least` turns of each.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> parts = (("moss", "#5d733a", 0.7), ("rust", "#a4502a", 0.3))
    >>> swatches = tuple(
    ...     Swatch(name=name, lab=(45.0, 0.0, 30.0), hex=code, share=share)
    ...     for name, code, share in parts)
    >>> winding = plan_winding(Palette(swatches=swatches), card_width_mm=50, wraps_per_cm=9)
    >>> [yarn.turns for yarn in winding.yarns]
    [32, 13]
    """
    if not 0 < card_width_mm < math.inf:
        raise InputError("card width", "must be more than 0", got=f"{card_width_mm} mm")
    if not least >= 0:
        raise InputError("fewest turns", "must be 0 or more", got=f"{least}")
    wraps = _wraps(palette, wraps_per_cm)
    turns = _largest_remainder(palette, card_width_mm, wraps)
    wished = list(turns)
    _lift(turns, wraps, least, card_width_mm)
    notes = tuple(
        f"{swatch.name} gets {_turns(now)}, not the {before} of its share, so that it is seen."
        for swatch, now, before in zip(palette.swatches, turns, wished, strict=True)
        if now > before
    )
    yarns, first = [], 1
    for swatch, count, wrap in zip(palette.swatches, turns, wraps, strict=True):
        yarns.append(
            WindingTurns(
                colour=swatch.name,
                hex=swatch.hex,
                share=swatch.share,
                turns=count,
                wraps_per_cm=wrap,
                first_turn=first if count else 0,
            )
        )
        first += count
    return Winding(card_width_mm=card_width_mm, yarns=tuple(yarns), notes=notes)


def _turns(count: int) -> str:
    return "1 turn" if count == 1 else f"{count} turns"


def _wraps(palette: Palette, wraps_per_cm: float | Mapping[str, float]) -> list[float]:
    found = []
    for swatch in palette.swatches:
        if isinstance(wraps_per_cm, Mapping):
            if swatch.name not in wraps_per_cm:
                remedy = "Give a figure for each colour, or one for all."
                raise InputError(f"wraps of {swatch.name}", "must be given", remedy=remedy)
            value = wraps_per_cm[swatch.name]
        else:
            value = wraps_per_cm
        if not 0 < value < math.inf:
            rule = "must be more than 0 per cm"
            raise InputError(f"wraps of {swatch.name}", rule, got=f"{value}")
        found.append(value)
    return found


def _largest_remainder(palette: Palette, width_mm: float, wraps: list[float]) -> list[int]:
    quotas = [
        swatch.share * width_mm / 10 * wrap
        for swatch, wrap in zip(palette.swatches, wraps, strict=True)
    ]
    turns = [math.floor(quota + _DUST) for quota in quotas]
    used = math.fsum(count / wrap for count, wrap in zip(turns, wraps, strict=True))
    left = width_mm / 10 - used
    order = sorted(range(len(quotas)), key=lambda i: (-round(quotas[i] - turns[i], 9), i))
    for index in order:
        if quotas[index] - turns[index] > _DUST and left + _DUST >= 1 / wraps[index]:
            turns[index] += 1
            left -= 1 / wraps[index]
    return turns


def _lift(turns: list[int], wraps: list[float], least: int, width_mm: float) -> None:
    """Give every colour its fewest turns, taking width from the widest."""
    needed = math.fsum(least / wrap for wrap in wraps)
    if needed > width_mm / 10 + _DUST:
        rule = f"must hold {least} of each colour: {math.ceil(needed * 10)} mm"
        raise InputError("card width", rule, got=f"{width_mm:g} mm")
    for index, count in enumerate(turns):
        turns[index] = max(count, least)
    while math.fsum(c / w for c, w in zip(turns, wraps, strict=True)) > width_mm / 10 + _DUST:
        spare = [i for i, count in enumerate(turns) if count > least]
        widest = max(spare, key=lambda i: (turns[i] / wraps[i], -i))
        turns[widest] -= 1
