"""The numbers that colours go by on every sheet, so that no sheet needs colour to be read."""

from __future__ import annotations

from dataclasses import dataclass

from palette.plans.plan import Plan
from palette.stripes.plan import Stripe, StripePlan

__all__ = ["LegendEntry", "cloth_title", "legend", "number_of", "stripe_key"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendEntry:
    """One weft colour of a plan.

    Attributes
    ----------
    number : int
        From 1, the same on every sheet of the plan.
    name, hex : str
    wanted : tuple of float or None
        Share asked for in each cloth; None where that cloth's palette lacks it.
    picks : tuple of int
        Picks in each cloth.
    in_srgb : bool
        False where the colour is stronger than a screen can show.
    """

    number: int
    name: str
    hex: str
    wanted: tuple[float | None, ...]
    picks: tuple[int, ...]
    in_srgb: bool = True


def legend(plan: Plan) -> tuple[LegendEntry, ...]:
    """Colours of a plan by number: palettes first, in their order, then other wefts.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    tuple of LegendEntry
    """
    found: dict[tuple[str, str], bool] = {}
    for cloth in plan.cloths:
        for swatch in cloth.palette.swatches:
            found.setdefault((swatch.name, swatch.hex), swatch.in_srgb)
    for cloth in plan.cloths:
        for stripe in cloth.stripes:
            found.setdefault((stripe.colour, stripe.hex), True)
    shares = [_shares(cloth) for cloth in plan.cloths]
    counts = [_picks(cloth) for cloth in plan.cloths]
    return tuple(
        LegendEntry(
            number=number,
            name=key[0],
            hex=key[1],
            wanted=tuple(share.get(key) for share in shares),
            picks=tuple(count.get(key, 0) for count in counts),
            in_srgb=in_srgb,
        )
        for number, (key, in_srgb) in enumerate(found.items(), start=1)
    )


def _shares(cloth: StripePlan) -> dict[tuple[str, str], float]:
    return {(swatch.name, swatch.hex): swatch.share for swatch in cloth.palette.swatches}


def _picks(cloth: StripePlan) -> dict[tuple[str, str], int]:
    counts: dict[tuple[str, str], int] = {}
    for stripe in cloth.stripes:
        key = (stripe.colour, stripe.hex)
        counts[key] = counts.get(key, 0) + stripe.picks
    return counts


def number_of(entries: tuple[LegendEntry, ...]) -> dict[tuple[str, str], int]:
    """Look up the number of each colour by its name and hex."""
    return {(entry.name, entry.hex): entry.number for entry in entries}


def cloth_title(plan: Plan, index: int) -> str:
    """Name of one cloth: its own, or its number where there are several."""
    cloth = plan.cloths[index]
    if cloth.name:
        return cloth.name
    return f"Cloth {index + 1}" if len(plan.cloths) > 1 else plan.name


def stripe_key(stripe: Stripe) -> tuple[str, str]:
    """By what a stripe's colour is found in the legend."""
    return stripe.colour, stripe.hex
