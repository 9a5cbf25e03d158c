"""Metres and grams of a plan."""

from palette.loom.planning import plan_warp
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts


def plan_of(*runs, picks_per_cm=8.0, **fields):
    """Stripe plan of (colour, picks) runs."""
    totals = {}
    for colour, picks in runs:
        totals[colour] = totals.get(colour, 0) + picks
    whole = sum(totals.values())
    swatches = tuple(
        Swatch(name=name, lab=(50.0, 0.0, 0.0), hex="#777777", share=picks / whole)
        for name, picks in totals.items()
    )
    stripes, first = [], 1
    for colour, picks in runs:
        stripes.append(
            Stripe(
                colour=colour, hex="#777777", lab=(50.0, 0.0, 0.0), picks=picks, first_pick=first
            )
        )
        first += picks
    return StripePlan(
        palette=Palette(swatches=swatches),
        stripes=tuple(stripes),
        picks_per_cm=picks_per_cm,
        finished_length_mm=whole / picks_per_cm * 10,
        **fields,
    )


def test_the_integrated_case_to_the_last_digit():
    """Own arithmetic from the definitions: 8/2 cotton scarf, 20 x 20 to the inch."""
    warp = plan_warp(
        finished_width_mm=250,
        ends_per_cm=20 / 2.54,
        cloth_lengths_mm=(1800 / 0.9,),
        shrinkage_width=0.10,
        draw_in=0.06,
        take_up=0.08,
        fringe_mm=150,
        loom_waste_mm=750,
    )
    cotton = parse_count("NeC 8/2")
    plan = plan_of(("moss", 1575), picks_per_cm=20 / 2.54, step=1)
    weft, warp_yarn = yarn_amounts(
        (plan,), warp, weft=cotton, warp_yarn=cotton, weft_take_up=0, tail_mm=0, allowance=0
    )
    assert f"{warp.woven_width_mm / 10:.3f}" == "27.778"
    assert f"{warp.width_in_reed_mm / 10:.3f}" == "29.551"
    assert f"{warp.cloth_lengths_mm[0] / 10:.1f}" == "200.0"
    assert warp.ends == 234
    assert f"{warp.length_mm / 10:.2f}" == "322.39"
    assert f"{warp_yarn.length_m:.2f}" == "754.40"
    assert f"{warp_yarn.mass_g:.2f}" == "111.38"
    assert f"{weft.length_m:.2f}" == "465.43"
    assert f"{weft.mass_g:.2f}" == "68.71"
