"""How the loom is dressed and treadled, in the words that the terminal and every sheet use."""

from __future__ import annotations

from palette.loom.edges import wants_floating_selvedge
from palette.loom.heddles import heddles_per_shaft
from palette.loom.sley import Sley, nearest_reeds
from palette.loom.treadling import TreadleRun, treadle_runs
from palette.measures import format_density, format_length, parse_density
from palette.plans.plan import Plan
from palette.stripes.plan import StripePlan

__all__ = [
    "ends_words",
    "heddle_words",
    "hem_words",
    "plan_sley",
    "reed_named",
    "reed_width_words",
    "reed_words",
    "selvedge_words",
    "treadling_words",
    "weave_words",
]


def plan_sley(plan: Plan) -> Sley | None:
    """Sley order of the plan, or in the best of the reeds that its brief names; else None."""
    if plan.sley is not None:
        return plan.sley
    reeds = [parse_density(text, thing="reed").per_cm for text in _reeds_asked(plan)]
    return nearest_reeds(plan.warp.ends_per_cm, reeds)[0] if reeds else None


def _reeds_asked(plan: Plan) -> tuple[str, ...]:
    asked = dict(plan.asked).get("reed") or ()
    return asked if isinstance(asked, tuple) else (str(asked),)


def reed_named(plan: Plan, sley: Sley) -> str:
    """Name a reed as it was typed, which is how it is sold; else in the plan's units."""
    for text in _reeds_asked(plan):
        if abs(parse_density(text, thing="reed").per_cm - sley.dents_per_cm) < 1e-9:
            return text
    return format_density(sley.dents_per_cm, plan.units)


def reed_words(plan: Plan) -> str:
    """Say reed and sley: ``10/in, 2 to a dent``; nothing without a reed."""
    order = plan_sley(plan)
    return "" if order is None else f"{reed_named(plan, order)}, {order.text} to a dent"


def reed_width_words(plan: Plan) -> str:
    """Say the width in the reed, and in how many dents: ``48.0 cm, 192 dents``."""
    width, order = format_length(plan.warp.width_in_reed_mm, plan.units), plan_sley(plan)
    if order is None:
        return width
    return f"{width}, {order.dents_for(plan.warp.working_ends)} dents"


def heddle_words(plan: Plan) -> str:
    """List the heddles on each shaft: ``1: 117, 2: 117``."""
    needed = heddles_per_shaft(plan.draft, plan.warp.working_ends)
    return ", ".join(f"{shaft}: {count}" for shaft, count in enumerate(needed, start=1))


def ends_words(plan: Plan) -> str:
    """Say how many ends, and how many of them are doubled at the selvedges."""
    warp = plan.warp
    doubled = f", {warp.doubled_ends} of them doubled" if warp.doubled_ends else ""
    return f"{warp.ends}{doubled}"


def selvedge_words(plan: Plan) -> str:
    """Say that the weave wants a floating selvedge; nothing where the weft is always caught.

    Common practice for twills: one end more at each side, in a dent but in no heddle.
    """
    return "1 floating end more each side" if wants_floating_selvedge(plan.draft) else ""


def _row(run: TreadleRun) -> str:
    return " ".join(map(str, run.treadles))


def treadling_words(plan: Plan, cloth: StripePlan) -> str:
    """Say how a cloth is treadled: its weave, and its hems in plain weave with their picks.

    Parameters
    ----------
    plan : Plan
    cloth : StripePlan
        One of the plan's.
    """
    runs = treadle_runs(cloth, plan.draft)
    if len(runs) == 1 and not runs[0].hem:
        return f"{_row(runs[0])}, repeat"
    return "; ".join(
        f"hem {_row(run)} to pick {run.last_pick}"
        if run.hem
        else f"{_row(run)}, repeat, to pick {run.last_pick}"
        for run in runs
    )


def weave_words(plan: Plan) -> str:
    """Say how the plan is treadled, its cloths together: ``1 2 3 4, repeat; hems on 5 and 6``."""
    words = f"{' '.join(map(str, plan.draft.treadling))}, repeat"
    hems = {
        tuple(sorted(run.treadles))
        for cloth in plan.cloths
        for run in treadle_runs(cloth, plan.draft)
        if run.hem
    }
    return "; ".join((words, *(f"hems on {first} and {second}" for first, second in sorted(hems))))


def hem_words(plan: Plan, cloth: StripePlan, first_pick: int) -> str:
    """Name the treadles of the hem that a pick belongs to; nothing where it is in no hem.

    Nothing too where the whole cloth is treadled alike: plain weave, or a weave without any.
    """
    for run in treadle_runs(cloth, plan.draft):
        if run.hem and run.first_pick <= first_pick <= run.last_pick:
            return f"treadles {run.treadles[0]} and {run.treadles[1]}"
    return ""
