"""Cloths of plain numbers for the tests of this stage."""

from palette.stripes.plan import Role, Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch

_MOSS = Swatch(name="moss", lab=(45.0, -15.0, 25.0), hex="#5d733a", share=1.0)


def cloth_of(*parts: tuple[Role, int]) -> StripePlan:
    """A cloth of these parts, each a role and its picks, at 8 picks to the centimetre."""
    stripes, first = [], 1
    for role, picks in parts:
        stripes.append(
            Stripe(
                colour="moss",
                hex="#5d733a",
                lab=_MOSS.lab,
                picks=picks,
                first_pick=first,
                role=role,
            )
        )
        first += picks
    return StripePlan(
        palette=Palette(swatches=(_MOSS,)),
        stripes=tuple(stripes),
        picks_per_cm=8.0,
        finished_length_mm=(first - 1) / 8 * 10,
        step=1,
    )
