"""A plan of one cloth that a command has made: written, its notes said, its stripes shown."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from cli.output import result, talk, warn
from cli.summaries import cloth_line, stripe_table

if TYPE_CHECKING:
    from palette.plans.plan import Plan

__all__ = ["show_plan"]


def show_plan(
    plan: Plan,
    notes: Iterable[str],
    *,
    below: str = "",
    out: Path | None,
    force: bool,
    json_: bool,
) -> None:
    """Write a plan file and print the stripes, and what is to stand below them.

    With JSON print the plan alone, and write it only where told.
    """
    from palette.plans.plan_contract import plan_to_json
    from palette.sheets.writing import write_whole

    text = plan_to_json(plan)
    target = out or (None if json_ else Path(f"{plan.name}-plan.json"))
    if target is not None:
        write_whole(target, text.encode(), force=force)
        talk(f"Wrote {target}.")
    warn(notes)
    if json_:
        result(text)
        return
    cloth = plan.cloths[0]
    parts = (cloth_line(cloth, plan.units), stripe_table(cloth, plan.units), below)
    result("\n\n".join(filter(None, parts)))
