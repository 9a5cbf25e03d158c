"""What the commands share that take a plan and reckon its warp and yarn anew."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from cli.briefing import brief_from
from cli.output import result, talk

if TYPE_CHECKING:
    from palette.plans.plan import Plan
    from palette.plans.stocking import Fit

__all__ = ["refigured"]


def refigured(
    path: Path,
    asked: Mapping[str, object],
    *,
    out: Path | None,
    force: bool,
    json_: bool,
    shelf: Path | None = None,
    fit: Fit | None = None,
) -> Plan:
    """Read a plan, reckon it anew where something was typed, write and print it where asked.

    Its notes are left to the command, which says them once nothing can be refused any more.
    """
    from palette.plans.loading import load_plan
    from palette.plans.making import plan_from_stripes
    from palette.plans.plan_contract import plan_to_json
    from palette.plans.stocking import plan_within_shelf
    from palette.sheets.writing import write_whole
    from palette.swatches.shelf import read_shelf

    plan = load_plan(path)
    brief = brief_from(asked, kept=dict(plan.asked))
    if asked:
        plan = plan_from_stripes(brief, plan.cloths)
    if shelf is not None and fit is not None:
        plan = plan_within_shelf(plan, brief, read_shelf(shelf), fit)
    if out is not None:
        write_whole(out, plan_to_json(plan).encode(), force=force)
        talk(f"Wrote {out}.")
    if json_:
        result(plan_to_json(plan))
    return plan
