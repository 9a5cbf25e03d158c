"""The whole skeins or cones of a plan: one size from the yarn table to the dye day."""

from __future__ import annotations

from palette.measures import format_mass
from palette.plans.plan import Plan
from palette.yarn.count import parse_count
from palette.yarn.packages import Package, Packages, parse_package, whole_packages

__all__ = ["dye_skeins_of", "skein_of", "skein_words", "skeins_of"]


def skein_of(plan: Plan) -> Package | None:
    """Give the size of skein that a plan was made with; None where none was named."""
    size = dict(plan.asked).get("skein")
    return None if size is None else parse_package(str(size), thing="--skein")


def skeins_of(plan: Plan) -> tuple[Packages, ...]:
    """Give the whole skeins of every yarn, in the order of the yarns.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    tuple of Packages
        Empty where the plan names no size.
    """
    skein = skein_of(plan)
    if skein is None:
        return ()
    return tuple(whole_packages(yarn.mass_g, parse_count(yarn.count), skein) for yarn in plan.yarns)


def skein_words(plan: Plan) -> tuple[str, ...]:
    """Put the whole skeins of every yarn in words: ``2 (100 g)``; empty where there is no size."""
    return tuple(
        f"{each.number} ({format_mass(each.mass_g, plan.units)})" for each in skeins_of(plan)
    )


def dye_skeins_of(plan: Plan) -> tuple[tuple[str, float], ...]:
    """Give the grams of yarn in one skein, for the weft and for the warp.

    Returns
    -------
    tuple of (str, float)
        Empty where the plan names no size, or a cone with its core: yarn is not dyed on it. A
        skein measured by its length weighs more in a thicker yarn.
    """
    skein = skein_of(plan)
    if skein is None or skein.tare_g:
        return ()
    grams = {yarn.use: skein.yarn_g(parse_count(yarn.count)) for yarn in plan.yarns}
    return tuple(grams.items())
