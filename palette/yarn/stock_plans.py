"""Plans that the shelf allows: the longest cloth, and the one nearest to the wish."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from palette.errors import InputError, WeavingError
from palette.loom.planning import with_cloths
from palette.loom.warp import Warp
from palette.measures import Units, format_mass
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.amounts import YarnAmount
from palette.yarn.fitting import fit_stripes
from palette.yarn.resizing import Layout, scaled_units
from palette.yarn.stock import enough, needed_by_colour, stock_lines
from palette.yarn.stock_notes import change_notes, length_note

__all__ = ["Reckon", "StockPlan", "longest_plan", "nearest_plan"]

Reckon = Callable[[Sequence[StripePlan], Warp], tuple[YarnAmount, ...]]
"""`palette.yarn.planning.yarn_amounts` with its counts, take-up, tails and allowance set."""

_LONGEST_PICKS = 10_000_000  # a shelf that allows more sets no limit


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPlan:
    """A plan that the shelf allows.

    Attributes
    ----------
    cloths : tuple of StripePlan
    warp : Warp
    amounts : tuple of YarnAmount
    changed : bool
        Whether it differs from the wish.
    warnings : tuple of str
        What was changed and why, as sentences.
    """

    cloths: tuple[StripePlan, ...]
    warp: Warp
    amounts: tuple[YarnAmount, ...]
    changed: bool
    warnings: tuple[str, ...] = ()


class _Bench:
    """One cloth of a plan that is tried in other lengths, everything else as it was."""

    def __init__(
        self, cloths: Sequence[StripePlan], warp: Warp, reckon: Reckon, index: int
    ) -> None:
        if not 0 <= index < len(cloths):
            raise InputError("cloth", f"must be from 1 to {len(cloths)}", got=f"{index + 1}")
        self.cloths = tuple(cloths)
        self.warp = warp
        self.reckon = reckon
        self.index = index
        self.cloth = cloths[index]
        self.layout = Layout(self.cloth.stripes, step=self.cloth.step, least=self.cloth.least)

    def with_stripes(self, stripes: tuple[Stripe, ...]) -> StockPlan:
        """Put these stripes into the cloth."""
        cloth = self.cloth
        if stripes != cloth.stripes:
            cloth = replace(self.cloth, stripes=stripes)
            finished = cloth.true_finished_length_mm
            cloth = replace(cloth, finished_length_mm=finished)
        cloths = (*self.cloths[: self.index], cloth, *self.cloths[self.index + 1 :])
        lengths = list(self.warp.cloth_lengths_mm)
        if cloth.total_picks != self.cloth.total_picks:
            lengths[self.index] = cloth.woven_length_mm
        warp = with_cloths(self.warp, tuple(lengths))
        amounts = self.reckon(cloths, warp)
        changed = cloth.stripes != self.cloth.stripes
        return StockPlan(cloths=cloths, warp=warp, amounts=amounts, changed=changed)

    def scaled(self, units: int) -> StockPlan | None:
        """Scale the cloth's stripes to so many units; None where a colour is lost."""
        have = self.layout.units
        stripes = self.layout.resized(scaled_units(have, units, dict.fromkeys(have, units)))
        colours = {stripe.colour for stripe in stripes}
        return self.with_stripes(stripes) if colours == set(self.cloth.colours) else None


def _largest(too_much: Callable[[int], bool], start: int, limit: int) -> int:
    """Largest number that is not too much: doubling from `start`, then halving between."""
    good, bad = 0, max(1, start)
    while bad < limit and not too_much(bad):
        good, bad = bad, 2 * bad
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (good, middle) if too_much(middle) else (middle, bad)
    return good


def longest_plan(
    cloths: Sequence[StripePlan],
    warp: Warp,
    *,
    reckon: Reckon,
    held_g: Mapping[str, float],
    index: int = 0,
    units: Units = Units.METRIC,
) -> StockPlan:
    """Make one cloth as long as the shelf allows, its colours in the shares of the plan.

    Parameters
    ----------
    cloths : sequence of StripePlan
    warp : Warp
    reckon : callable
        Amounts for cloths and a warp.
    held_g : mapping of str to float
        As in `stock_lines`.
    index : int
        Which cloth is made longer or shorter, from 0.
    units : Units
        The system that notes and refusals speak.

    Returns
    -------
    StockPlan
        Never needs more than the shelf holds; its warning says how long the cloth is, and
        which yarn allows no more.

    Raises
    ------
    WeavingError
        Where the shelf does not allow a single stripe, or sets no limit.
    """
    bench = _Bench(cloths, warp, reckon, index)

    def too_much(count: int) -> bool:
        plan = bench.scaled(count)
        return plan is not None and not enough(plan.amounts, held_g)

    limit = _LONGEST_PICKS // bench.cloth.step
    most = _largest(too_much, sum(bench.layout.units.values()), limit)
    if most >= limit // 2:
        rule = "must hold a limited amount of at least one colour of the plan"
        raise WeavingError("shelf", rule, remedy="Weigh the yarns that are on it.")
    plan = bench.scaled(most)
    if plan is None or not enough(plan.amounts, held_g):
        raise _nothing(bench, held_g, units)
    longer = bench.scaled(most + 1)
    ends_it = _short(longer, held_g) if longer is not None else ()
    note = length_note(bench.cloth, plan.cloths[index], ends_it, units)
    return replace(plan, warnings=(note,))


def _short(plan: StockPlan, held_g: Mapping[str, float]) -> tuple[str, ...]:
    """Yarns of which the shelf has less than a plan needs."""
    return tuple(line.colour for line in stock_lines(plan.amounts, held_g) if line.short_g > 0)


def _smallest(bench: _Bench) -> StockPlan | None:
    """Find the smallest cloth that has every colour of the wish."""
    have = sum(bench.layout.units.values())
    return bench.scaled(1 + _largest(lambda count: bench.scaled(count) is not None, 1, have))


def _nothing(bench: _Bench, held_g: Mapping[str, float], units: Units) -> WeavingError:
    """Name the yarns that not even the smallest cloth can be woven with."""
    smallest = _smallest(bench)
    wish = bench.with_stripes(bench.cloth.stripes)
    plan = smallest if smallest is not None and not enough(smallest.amounts, held_g) else wish
    short = ", ".join(
        f"{line.colour} {format_mass(line.held_g, units, held=True)} "
        f"({format_mass(line.needed_g, units)} needed)"
        for line in stock_lines(plan.amounts, held_g)
        if line.short_g > 0
    )
    rule = "must hold enough for one stripe of each colour and the warp"
    return WeavingError("shelf", rule, got=short, remedy="Dye or buy the colours that are short.")


def nearest_plan(
    cloths: Sequence[StripePlan],
    warp: Warp,
    *,
    reckon: Reckon,
    held_g: Mapping[str, float],
    index: int = 0,
    units: Units = Units.METRIC,
) -> StockPlan:
    """Find the plan nearest to the wish that the shelf allows.

    The cloth keeps its order and, if it can, its length. A colour whose yarn is short gets as
    many picks as it allows, the others share the rest in their own proportions; where all are
    short, or the warp's yarn is, the cloth gets shorter.

    Parameters
    ----------
    cloths, warp, reckon, held_g, index, units
        As in `longest_plan`.

    Returns
    -------
    StockPlan
        The wish itself where the shelf is enough; never more than the shelf holds.

    Raises
    ------
    WeavingError
        Where the shelf does not allow a single stripe.
    """
    bench = _Bench(cloths, warp, reckon, index)
    wish = bench.with_stripes(bench.cloth.stripes)
    if enough(wish.amounts, held_g):
        return wish
    goal = _warp_units(bench, held_g)
    if not goal:
        raise _nothing(bench, held_g, units)
    fit = fit_stripes(
        bench.cloth.stripes,
        goal_picks=sum(bench.layout.kept.values()) + goal * bench.cloth.step,
        step=bench.cloth.step,
        least=bench.cloth.least,
        need_g=lambda stripes: _weft_need(bench, stripes),
        have_g=_for_weft(bench, held_g, goal),
        pick_g={
            amount.colour: amount.g_per_pick * (1 + amount.allowance)
            for amount in wish.amounts
            if amount.use == "weft"
        },
    )
    if not fit.stripes:
        raise _nothing(bench, held_g, units)
    plan = bench.with_stripes(fit.stripes)
    changes = change_notes(bench.cloth, plan.cloths[index], held_g, fit.short, units)
    return replace(plan, warnings=changes)


def _weft_need(bench: _Bench, stripes: tuple[Stripe, ...]) -> dict[str, float]:
    plan = bench.with_stripes(stripes)
    return needed_by_colour([amount for amount in plan.amounts if amount.use == "weft"])


def _for_weft(bench: _Bench, held_g: Mapping[str, float], goal: int) -> dict[str, float]:
    """Grams that the warp leaves of each colour."""
    warps = needed_by_colour(_warps(bench, goal))
    return {colour: held - warps.get(colour, 0.0) for colour, held in held_g.items()}


def _warps(bench: _Bench, units: int) -> list[YarnAmount]:
    """Warps of the plan with the cloth at so many units."""
    lengths = list(bench.warp.cloth_lengths_mm)
    if units != sum(bench.layout.units.values()):
        picks = sum(bench.layout.kept.values()) + units * bench.cloth.step
        lengths[bench.index] = picks / bench.cloth.picks_per_cm * 10
    amounts = bench.reckon(bench.cloths, with_cloths(bench.warp, tuple(lengths)))
    return [amount for amount in amounts if amount.use == "warp"]


def _warp_units(bench: _Bench, held_g: Mapping[str, float]) -> int:
    """Units of the cloth for which the warp's yarn is enough, at most those of the wish."""
    wish = sum(bench.layout.units.values())

    def too_much(units: int) -> bool:
        return not enough(_warps(bench, units), held_g)

    return _largest(too_much, 1, wish + 1) if too_much(wish) else wish
