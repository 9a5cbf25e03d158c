"""How far the stripes of a plan stand from the shares of its palette; nothing is corrected."""

from __future__ import annotations

import math
from collections import Counter

from palette.measures import format_share
from palette.stripes.plan import StripePlan

__all__ = ["share_differences", "share_notes"]


def share_differences(plan: StripePlan) -> tuple[tuple[str, int, float], ...]:
    """Compare picks with shares, hems and borders left out.

    Parameters
    ----------
    plan : StripePlan

    Returns
    -------
    tuple of (str, int, float)
        Colour, its picks, and the picks that its share asks for; colours of the palette in its
        order, then others (0 asked) in the order in which they enter.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, Weft, number_picks
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.5)
    >>> rust = Swatch(name="rust", lab=(45.0, 35.0, 40.0), hex="#a84f28", share=0.5)
    >>> plan = StripePlan(palette=Palette(swatches=(moss, rust)), picks_per_cm=8,
    ...     stripes=number_picks((Piece(Weft.of(moss), 30), Piece(Weft.of(rust), 10))),
    ...     finished_length_mm=50)
    >>> share_differences(plan)
    (('moss', 30, 20.0), ('rust', 10, 20.0))
    """
    counts: Counter[str] = Counter()
    for stripe in plan.stripes:
        if stripe.role in ("stripe", "blend"):
            counts[stripe.colour] += stripe.picks
    body = counts.total()
    whole = math.fsum(swatch.share for swatch in plan.palette.swatches)
    asked = {swatch.name: swatch.share / whole * body for swatch in plan.palette.swatches}
    names = dict.fromkeys((*asked, *(name for name in plan.colours if counts[name])))
    return tuple((name, counts[name], asked.get(name, 0.0)) for name in names)


def share_notes(plan: StripePlan) -> tuple[str, ...]:
    """Say in one note what is more than one step from its share, with figures.

    Parameters
    ----------
    plan : StripePlan

    Returns
    -------
    tuple of str
    """
    known = {swatch.name: swatch.share for swatch in plan.palette.swatches}
    moved = [
        f"{name} {picks} picks ({asked:.0f} by its share of {format_share(known[name])})"
        for name, picks, asked in share_differences(plan)
        if name in known and abs(picks - asked) > plan.step + 1e-6
    ]
    added = [
        f"{name} {picks} picks"
        for name, picks, _ in share_differences(plan)
        if name not in known and picks
    ]
    return (
        *([f"Not at their shares: {', '.join(moved)}."] if moved else []),
        *([f"Not in the palette: {', '.join(added)}."] if added else []),
    )
