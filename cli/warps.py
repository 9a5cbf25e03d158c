"""The warp of a plan as the commands print it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cli.output import table
from palette.measures import format_density, format_length, format_share, format_yarn_length

if TYPE_CHECKING:
    from palette.loom.sett import SettAdvice
    from palette.plans.plan import Plan

__all__ = ["dressing_text", "warp_table"]


def warp_table(plan: Plan) -> str:
    """Set out the figures of the warp."""
    warp, units = plan.warp, plan.units
    rows = [
        ("ends", str(warp.ends)),
        ("sett", format_density(warp.ends_per_cm, units)),
        ("width in the reed", format_length(warp.width_in_reed_mm, units)),
        *_filled(plan),
        ("width on the loom", format_length(warp.woven_width_mm, units)),
        ("finished width", format_length(warp.finished_width_mm, units)),
        ("length to wind", format_length(warp.length_mm, units)),
        ("yarn in the warp", format_yarn_length(warp.yarn_length_m, units)),
    ]
    return table(("warp", ""), rows)


def _filled(plan: Plan) -> list[tuple[str, str]]:
    """Say what whole dents fill, where no reed is chosen that makes it the width in the reed."""
    if plan.sley is not None:
        return []
    return [("filled by whole dents", format_length(plan.warp.filled_reed_mm, plan.units))]


def dressing_text(plan: Plan, wraps: str | None = None) -> str:
    """Say how the loom is dressed: sley, heddles, tie-up, lifts, chains, and the sett offered."""
    setts = [_sett(plan), *([_sett_from_wraps(plan, wraps)] if wraps else [])]
    return "\n".join((*_reed(plan), *_harness(plan), *_chains(plan), *setts))


def _reed(plan: Plan) -> list[str]:
    from palette.plans.loom_words import plan_sley, reed_named

    order = plan_sley(plan)
    if order is None:
        return ["Reed: none named; give those you own with --reed."]
    named, shown = reed_named(plan, order), format_density(order.dents_per_cm, plan.units)
    return [
        f"Reed: {named if named == shown else f'{named} ({shown})'}, sleyed {order.text}, "
        f"{order.dents_for(plan.warp.working_ends)} dents for {plan.warp.ends} ends."
    ]


def _harness(plan: Plan) -> list[str]:
    from palette.loom.drafts import draft_text
    from palette.loom.heddles import heddles_per_shaft
    from palette.loom.treadling import lifts_in
    from palette.plans.loom_words import selvedge_words, weave_words

    draft = plan.draft
    heddles = heddles_per_shaft(draft, plan.warp.working_ends)
    edge = selvedge_words(plan)
    return [
        f"Weave: {draft.name}; threading; tie-up; treadling: {draft_text(draft)}",
        "Heddles: " + ", ".join(f"shaft {shaft} {count}" for shaft, count in enumerate(heddles, 1)),
        f"Treadling: {weave_words(plan)}.",
        "Treadles: "
        + "; ".join(
            f"{each.number} lifts {'+'.join(map(str, each.shafts))}, {each.lifts} times"
            for each in lifts_in(plan.cloths, draft)
        ),
        *([f"Selvedge: {edge}, in a dent but no heddle (common practice)."] if edge else []),
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
