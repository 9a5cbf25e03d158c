"""Plans to weigh yarn for."""

import pytest

from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch

GREY = {"hex": "#777777", "lab": (50.0, 0.0, 0.0)}


def make_plan(*runs, picks_per_cm=8.0, **fields):
    """Stripe plan of (colour, picks) or (colour, picks, role) runs."""
    totals = {}
    for colour, picks, *_ in runs:
        totals[colour] = totals.get(colour, 0) + picks
    whole = sum(totals.values())
    stripes, first = [], 1
    for colour, picks, *role in runs:
        stripes.append(
            Stripe(
                colour=colour, picks=picks, first_pick=first, role=(role or ["stripe"])[0], **GREY
            )
        )
        first += picks
    swatches = tuple(Swatch(name=n, share=p / whole, **GREY) for n, p in totals.items())
    return StripePlan(
        palette=Palette(swatches=swatches),
        stripes=tuple(stripes),
        picks_per_cm=picks_per_cm,
        finished_length_mm=whole / picks_per_cm * 10,
        **fields,
    )


@pytest.fixture(scope="session")
def plan_of():
    """Function that makes a stripe plan of runs."""
    return make_plan
