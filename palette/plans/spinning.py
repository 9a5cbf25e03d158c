"""What is spun by hand before it is plied: singles and bobbins of every yarn of a plan."""

from __future__ import annotations

from palette.measures import format_mass, format_yarn_length, parse_mass
from palette.plans.plan import Plan
from palette.yarn.amounts import YarnAmount
from palette.yarn.count import parse_count
from palette.yarn.fleece import Bobbins, bobbins_to_fill

__all__ = ["bobbins_of", "spinning_rows"]


def bobbins_of(plan: Plan) -> tuple[tuple[YarnAmount, Bobbins], ...]:
    """Give the singles of every yarn, and the bobbins they fill.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    tuple of (YarnAmount, Bobbins)
        Empty where the plan does not say what a bobbin takes.
    """
    size = dict(plan.asked).get("bobbin")
    if size is None:
        return ()
    bobbin_g = parse_mass(str(size), thing="bobbin").g
    return tuple(
        (yarn, bobbins_to_fill(yarn.length_m, parse_count(yarn.count), bobbin_g=bobbin_g))
        for yarn in plan.yarns
    )


def spinning_rows(plan: Plan) -> list[tuple[str, str, str, str, str, str]]:
    """Put the singles in words: yarn, use, plies, length and mass of each single, bobbins.

    Singles that differ within a yarn have a row each.
    """
    rows: list[tuple[str, str, str, str, str, str]] = []
    for yarn, spun in bobbins_of(plan):
        plies = list(zip(spun.singles_m, spun.singles_g, spun.bobbins, strict=True))
        for single in dict.fromkeys(plies):
            length_m, mass_g, bobbins = single
            times = plies.count(single)
            rows.append(
                (
                    yarn.colour,
                    yarn.use,
                    str(times),
                    format_yarn_length(length_m, plan.units),
                    format_mass(mass_g, plan.units),
                    f"{times} × {bobbins}" if times > 1 else str(bobbins),
                )
            )
    return rows
