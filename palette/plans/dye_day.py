"""The dye day of a plan: what is dyed at all, and by which recipes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_day import DyeDay
from palette.dyeing.planning import plan_dye_day
from palette.dyeing.recipes import recipes_for
from palette.dyeing.samples import DyeSamples
from palette.dyeing.undyed import dyed_yarns
from palette.plans.fibre import fibre_of
from palette.plans.plan import Plan
from palette.plans.skeins import dye_skeins_of

__all__ = ["dye_day_of", "dyed_colours"]

Lab = tuple[float, float, float]


def dyed_colours(plan: Plan, asked: DyeAsked) -> tuple[tuple[str, Lab], ...]:
    """Colours of a plan that are dyed: each name with its CIELAB, in the order of the yarns.

    Parameters
    ----------
    plan : Plan
    asked : DyeAsked
        Its `undyed` colours are left out.

    Returns
    -------
    tuple of (str, tuple of 3 float)
        CIELAB D65 of the palette, also where it lies outside sRGB; of yarn in no palette (a
        striped warp), that of its hex code.
    """
    from palette.perception.spaces import hex_to_lab

    labs: dict[str, Lab] = {}
    for cloth in plan.cloths:
        for swatch in cloth.palette.swatches:
            labs.setdefault(swatch.name, swatch.lab)
    dyed = dict.fromkeys(
        (yarn.colour, yarn.hex) for yarn in dyed_yarns(plan.yarns, asked) if yarn.mass_g > 0
    )
    return tuple((name, labs.get(name) or hex_to_lab(code)) for name, code in dyed)


def _skeins(plan: Plan, wishes: Mapping[str, object]) -> Mapping[str, object]:
    """Give the wishes with the plan's skeins, where they name none for all of the yarn."""
    skeins = dye_skeins_of(plan)
    if "skein_g" in wishes or not skeins:
        return wishes
    if len({grams for _, grams in skeins}) == 1:
        return {"skein_g": skeins[0][1], **wishes}
    named = wishes.get("skeins_g", ())
    return {**wishes, "skeins_g": (*skeins, *named)}  # type: ignore[misc]


def dye_day_of(
    plan: Plan, wishes: Mapping[str, object], *, samples: DyeSamples | None = None
) -> DyeDay:
    """Plan the dye day of a plan.

    Parameters
    ----------
    plan : Plan
        Its fibre and its skeins are used where `wishes` names none.
    wishes : mapping
        Fields of `DyeAsked` that are set otherwise than by default.
    samples : DyeSamples, optional
        A dyer's own samples: every colour without a depth and a recipe of its own gets its
        recipe from them; one that the undyed yarn has already is not dyed.

    Returns
    -------
    DyeDay
        Its warnings begin with what the recipes leave open.

    Raises
    ------
    InputError
        A value out of range, a colour that the plan does not have, nothing to dye, a skein
        that fits no pot, or hot reactive dye on yarn that holds protein.
    TableError
        Too few samples; the message says what is missing.
    """
    asked = DyeAsked(**{"fibre": fibre_of(plan), **_skeins(plan, wishes)})  # type: ignore[arg-type]
    if samples is None:
        return plan_dye_day(plan.yarns, asked=asked)
    given = {name for name, _ in (*asked.depths, *asked.recipes)}
    sought = tuple(each for each in dyed_colours(plan, asked) if each[0] not in given)
    if not sought:
        return plan_dye_day(plan.yarns, asked=asked)
    recipes, said = recipes_for(sought, samples)
    found = {name for name, _ in recipes}
    keeps = tuple(name for name, _ in sought if name not in found)
    if keeps:
        said = (f"Nearest is the undyed yarn, so not dyed: {', '.join(keeps)}.", *said)
    asked = replace(asked, recipes=(*asked.recipes, *recipes), undyed=(*asked.undyed, *keeps))
    day = plan_dye_day(plan.yarns, asked=asked)
    return replace(day, warnings=(*said, *day.warnings))
