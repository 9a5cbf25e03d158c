"""How much more weft a closer beat takes, and how far the yarn at hand allows it to drift."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from palette.errors import InputError
from palette.stripes.plan import StripePlan
from palette.yarn.amounts import YarnAmount

__all__ = ["Drift", "beat_drift"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """What a drift of the beat does to one colour, the cloths as long as planned.

    Attributes
    ----------
    colour : str
    more_per_cm : float
        Picks per cm more than planned.
    extra_picks, extra_length_m, extra_mass_g : float
        More than planned, allowance not counted.
    spare_mass_g : float
        Grams that the allowance leaves for it.
    picks_per_cm_at_most : float
        Picks per cm, of the first cloth in this colour, at which all that is ready is used up.
    """

    colour: str
    more_per_cm: float
    extra_picks: float
    extra_length_m: float
    extra_mass_g: float
    spare_mass_g: float
    picks_per_cm_at_most: float

    @property
    def lasts(self) -> bool:
        """Whether the allowance covers the drift."""
        return self.extra_mass_g <= self.spare_mass_g * (1 + 1e-9)


def beat_drift(
    cloths: Sequence[StripePlan], amounts: Sequence[YarnAmount], *, more_per_cm: float
) -> tuple[Drift, ...]:
    """Work out how much more weft the cloths take if the beat packs closer.

    The cloths stay as long as planned, so every stripe takes more picks in proportion; tails
    and what is carried up the selvedge stay as they are.

    Parameters
    ----------
    cloths : sequence of StripePlan
    amounts : sequence of YarnAmount
        From `palette.yarn.planning.yarn_amounts`; warps are passed over.
    more_per_cm : float
        Picks per cm more than planned: 1 / 2.54 for one pick to the inch.

    Returns
    -------
    tuple of Drift
        One for each weft.

    Raises
    ------
    InputError
        Where `more_per_cm` is not more than 0.
    """
    if not 0 < more_per_cm < math.inf:
        got = f"{more_per_cm} per cm"
        raise InputError("beat drift", "must be more than 0, and finite", got=got)
    return tuple(_drift(cloths, amount, more_per_cm) for amount in amounts if amount.use == "weft")


def _drift(cloths: Sequence[StripePlan], amount: YarnAmount, more_per_cm: float) -> Drift:
    with_colour = [cloth for cloth in cloths if cloth.picks_of(amount.colour)]
    extra_picks = math.fsum(
        cloth.picks_of(amount.colour) * more_per_cm / cloth.picks_per_cm for cloth in with_colour
    )
    extra_mass_g = extra_picks * amount.g_per_pick
    spare_mass_g = amount.mass_g - amount.used_mass_g
    per_unit = extra_mass_g / more_per_cm
    first = with_colour[0].picks_per_cm if with_colour else 0.0
    return Drift(
        colour=amount.colour,
        more_per_cm=more_per_cm,
        extra_picks=extra_picks,
        extra_length_m=extra_mass_g / amount.tex * 1000,
        extra_mass_g=extra_mass_g,
        spare_mass_g=spare_mass_g,
        picks_per_cm_at_most=first + spare_mass_g / per_unit if per_unit else math.inf,
    )
