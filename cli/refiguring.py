"""What the commands share that take a plan and reckon its warp and yarn anew."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from cli.briefing import brief_from
from cli.output import result, talk, warn

if TYPE_CHECKING:
    from palette.plans.plan import Plan
    from palette.plans.stocking import Fit

__all__ = ["refigured", "show_refigured"]


def refigured(
    path: Path,
    asked: Mapping[str, object],
    *,
    shelf: Path | None = None,
    fit: Fit | None = None,
) -> Plan:
    """Read a plan, and reckon it anew where something was typed; nothing is written yet."""
    from palette.plans.loading import load_plan
    from palette.plans.making import plan_from_stripes
    from palette.plans.stocking import plan_within_shelf
    from palette.swatches.shelf import read_shelf

    plan = load_plan(path)
    brief = brief_from(asked, kept=dict(plan.asked))
    if asked:
        plan = plan_from_stripes(brief, plan.cloths)
    if shelf is not None and fit is not None:
        plan = plan_within_shelf(plan, brief, read_shelf(shelf), fit)
    return plan


def show_refigured(plan: Plan, text: str, *, out: Path | None, force: bool, json_: bool) -> None:
    """Write the plan where asked, say its notes, and print the text, or the plan as JSON.

    Takes the text whole, so that whatever could be refused in it has been.
    """
    from palette.plans.plan_contract import plan_to_json
    from palette.sheets.writing import write_whole

    if out is not None:
        write_whole(out, plan_to_json(plan).encode(), force=force)
        talk(f"Wrote {out}.")
    warn(plan.warnings)
    result(plan_to_json(plan) if json_ else text)
