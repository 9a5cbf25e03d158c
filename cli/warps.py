"""The warp of a plan as the commands print it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table
from palette.measures import format_density, format_length, format_share, format_yarn_length

if TYPE_CHECKING:
    from palette.loom.sett import SettAdvice
    from palette.loom.sley import Sley
    from palette.plans.plan import Plan

__all__ = ["dressing_text", "warp_table"]


def warp_table(plan: Plan) -> str:
    """Set out the figures of the warp."""
    warp, units = plan.warp, plan.units
    rows = [
        ("ends", str(warp.ends)),
        ("sett", format_density(warp.ends_per_cm, units)),
        ("width in the reed", format_length(warp.width_in_reed_mm, units)),
        ("filled by whole sley repeats", format_length(warp.filled_reed_mm, units)),
        ("width on the loom", format_length(warp.woven_width_mm, units)),
        ("finished width", format_length(warp.finished_width_mm, units)),
        ("length to wind", format_length(warp.length_mm, units)),
        ("yarn in the warp", format_yarn_length(warp.yarn_length_m, units)),
    ]
    return table(("warp", ""), rows)


def dressing_text(plan: Plan, wraps: str | None = None) -> str:
    """Say how the loom is dressed: sley, heddles, tie-up, lifts, chains, and the sett offered."""
    setts = [_sett(plan), *([_sett_from_wraps(plan, wraps)] if wraps else [])]
    return "\n".join((*_reed(plan), *_harness(plan), *_chains(plan), *setts))


def _reed(plan: Plan) -> list[str]:
    sley = plan.sley
    if sley is None:
        return ["Reed: none named; give those you own with --reed."]
    text = (
        f"Reed: {_reed_named(plan, sley)}, sleyed {sley.text}, "
        f"{sley.dents_for(plan.warp.working_ends)} dents for {plan.warp.ends} ends."
    )
    if abs(sley.difference) > 1e-9:
        asked = format_density(sley.ends_per_cm_asked, plan.units)
        text += f" That is {sley.difference * 100:+.1f} % from the {asked} asked."
    return [text]


def _reed_named(plan: Plan, sley: Sley) -> str:
    """Name a reed as it was typed; in the plan's units too where those are others."""
    from palette.measures import parse_density

    shown = format_density(sley.dents_per_cm, plan.units)
    asked = dict(plan.asked).get("reed")
    for text in asked if isinstance(asked, tuple) else ():
        typed = parse_density(text)
        if abs(typed.per_cm - sley.dents_per_cm) < 1e-9:
            return text if typed.units is plan.units else f"{text} ({shown})"
    return shown


def _harness(plan: Plan) -> list[str]:
    from palette.loom.drafts import draft_text
    from palette.loom.heddles import heddles_per_shaft, lifts_per_treadle

    draft = plan.draft
    heddles = heddles_per_shaft(draft, plan.warp.working_ends)
    picks = sum(cloth.total_picks for cloth in plan.cloths)
    lifts = lifts_per_treadle(draft, picks)
    return [
        f"Weave: {draft.name}; threading; tie-up; treadling: {draft_text(draft)}",
        "Heddles: " + ", ".join(f"shaft {shaft} {count}" for shaft, count in enumerate(heddles, 1)),
        "Treadles: "
        + "; ".join(
            f"{each.number} lifts {'+'.join(map(str, each.shafts))}, {each.lifts} times"
            for each in lifts
        ),
    ]


def _chains(plan: Plan) -> list[str]:
    from palette.loom.chains import WarpStripe, chains

    one = (WarpStripe(colour="warp", hex=plan.warp_hex, ends=plan.warp.ends),)
    wound = chains(plan.warp_stripes or one, plan.warp)
    length = format_length(plan.warp.length_mm, plan.units)
    listed = ", ".join(f"{chain.ends} ends {chain.colour}" for chain in wound)
    return [f"Chains to wind, each {length} long: {listed}."]


def _sett(plan: Plan) -> str:
    from palette.loom.sett import sett_from_count
    from palette.plans.fibre import fibre_of, sett_fibre

    fibre = sett_fibre(fibre_of(plan))
    tex = next(yarn.tex for yarn in plan.yarns if yarn.use == "warp")
    advice = sett_from_count(tex, plan.draft, fibre=fibre)
    return f"Sett offered for this yarn as {fibre.name} in this weave: {_offered(plan, advice)}"


def _sett_from_wraps(plan: Plan, wraps: str) -> str:
    from palette.loom.sett import sett_from_wraps
    from palette.measures import parse_density

    tex = next(yarn.tex for yarn in plan.yarns if yarn.use == "warp")
    per_cm = parse_density(wraps, thing="--wraps").per_cm
    return (
        f"Sett offered from wraps: {_offered(plan, sett_from_wraps(per_cm, plan.draft, tex=tex))}"
    )


def _offered(plan: Plan, advice: SettAdvice) -> str:
    """Say a sett with its reduction, its rule, and how closely it covers."""
    offered, most = (
        format_density(value, plan.units, decimals=1)
        for value in (advice.ends_per_cm, advice.closest_per_cm)
    )
    share = format_share(advice.working_share, decimals=0)
    text = f"{offered}, {share} of the closest, {most}. Rule: {advice.source}."
    if advice.cover is not None:
        cover = format_share(advice.cover.cloth_share, decimals=0)
        text += f" Woven square it would cover {cover} (Peirce's rule of 1937)."
    return text
