"""What the tests of this stage share: the measured cloths, a plan and a warp."""

from pathlib import Path

import pytest

from palette.cloth.fitting import Cloths, read_cloths
from palette.cloth.own_samples import WovenSample
from palette.loom.warp import Warp
from palette.perception.spaces import hex_to_lab
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch

MEASURED = Path(__file__).parents[1] / "data" / "handwoven_plain_weave_lab.csv"

COLOURS = {"moss": "#5d733a", "rust": "#a3522b", "fern": "#9db15c"}


@pytest.fixture(scope="session")
def samples_of():
    """Make samples that a weaver could have: measured cloths, seen by a camera with a cast."""

    def make(measured, rows, shift=(0.0, 0.0, 0.0)):
        return tuple(
            WovenSample(
                warp_lab=tuple(map(float, measured.warp_lab[row])),
                weft_lab=tuple(map(float, measured.weft_lab[row])),
                cloth_lab=tuple(map(float, measured.cloth_lab[row] + shift)),
            )
            for row in rows
        )

    return make


@pytest.fixture
def plan():
    """Make a plan from pairs of colour name and picks."""
    return plan_of


def plan_of(runs, picks_per_cm=8.0, shrinkage=0.1) -> StripePlan:
    """A plan from pairs of colour name and picks."""
    swatches = [
        Swatch(name=name, hex=code, lab=hex_to_lab(code), share=1 / len(COLOURS))
        for name, code in COLOURS.items()
    ]
    stripes, first = [], 1
    for name, picks in runs:
        code = COLOURS[name]
        stripes.append(
            Stripe(colour=name, hex=code, lab=hex_to_lab(code), picks=picks, first_pick=first)
        )
        first += picks
    return StripePlan(
        palette=Palette(swatches=tuple(swatches)),
        stripes=tuple(stripes),
        picks_per_cm=picks_per_cm,
        finished_length_mm=(first - 1) / picks_per_cm * 10 * (1 - shrinkage),
        shrinkage_length=shrinkage,
    )


@pytest.fixture(scope="session")
def measured() -> Cloths:
    """500 cloths of 25 yarns, doi:10.5281/zenodo.23205538."""
    return read_cloths(MEASURED)


@pytest.fixture
def warp() -> Warp:
    """A warp that comes out 10 cm wide."""
    return Warp(
        ends=80,
        ends_per_cm=7.0,
        width_in_reed_mm=118.0,
        woven_width_mm=111.0,
        finished_width_mm=100.0,
        length_mm=1000.0,
        cloth_lengths_mm=(200.0,),
        fringe_mm=30.0,
    )
