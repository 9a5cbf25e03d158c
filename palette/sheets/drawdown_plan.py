"""A drawdown file of another program as a plan."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from palette.loom.drafts import draft_text
from palette.plans.making import plan_from_stripes
from palette.plans.options import OPTIONS
from palette.plans.plan import Plan
from palette.sheets.wif_plan import draft_of_wif, stripe_plan_of_wif
from palette.sheets.wif_reading import read_wif

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["is_drawdown", "plan_of_drawdown"]


def is_drawdown(path: Path) -> bool:
    """Whether a path is meant as a weaving information file, going by its ending.

    Examples
    --------
    >>> is_drawdown(Path("towel.WIF")), is_drawdown(Path("towel.json"))
    (True, False)
    """
    return path.suffix.lower() == ".wif"


def plan_of_drawdown(
    path: Path, brief: Brief, *, picks_given: bool = False, sett_given: bool = False
) -> Plan:
    """Make a plan of a weaving information file: its weft colours as they are, and its draft.

    Parameters
    ----------
    path : Path
    brief : Brief
        Warp and yarn are reckoned by it.
    picks_given : bool
        Whether the brief's picks are wanted; else those of the file, where it has them.
    sett_given : bool
        Whether the brief's sett is wanted; else the usual one of the yarn in the file's weave.

    Raises
    ------
    ContractError
        A file that is no weaving information file, or has no weft colours.
    InputError, WeavingError
        As the stages do.
    """
    file = read_wif(path)
    density = None if file.picks_per_cm > 0 and not picks_given else brief.picks.per_cm
    cloth = stripe_plan_of_wif(
        file,
        picks_per_cm=density,
        shrinkage_length=brief.shrinkage_along,
        source=path.name,
    )
    draft = draft_of_wif(file) if file.threading else None
    said: tuple[str, ...] = ()
    if draft is not None:
        if brief.weave != OPTIONS["weave"].default:
            said = ("Not used: weave (the draft is that of the drawdown).",)
        own = {} if sett_given else {"sett": None}
        brief = brief.changed({"weave": draft_text(draft), **own})
    plan = plan_from_stripes(brief, (replace(cloth, name=brief.name or ""),))
    return replace(plan, warnings=(*said, *plan.warnings))
