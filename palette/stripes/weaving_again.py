"""The stripes of a plan woven again: their repeat at its own width, or all scaled to a length."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

from palette.measures import Units, format_length
from palette.stripes.equal_widths import equal_widths
from palette.stripes.lengths import finished_length_mm, picks_for_length
from palette.stripes.motif import Motif, axes_of, body_of, motif_of
from palette.stripes.plan import StripePlan
from palette.stripes.repeat_filling import filled
from palette.stripes.rescaling import rescale
from palette.stripes.weft import Piece, Weft, join_pieces, number_picks

__all__ = ["weave_again"]

_RAISED = 0.5  # steps by which the smallest stripe has to widen a stripe to be told
_TOLD = 0.03  # share by which whole picks have to change a repeat to be told
_AS_IT_WAS = 0.01  # scaled by less: nothing to tell


def weave_again(
    plan: StripePlan,
    *,
    length_mm: float,
    picks_per_cm: float,
    shrinkage_length: float,
    step: int = 2,
    least: int = 0,
    repeats: int | None = None,
    units: Units = Units.METRIC,
) -> StripePlan:
    """Weave the stripes of a plan over another length.

    A plan read off a cloth in which a repeat was found is woven in that repeat, as wide as it
    is in the cloth, as often as the length takes; any other is scaled to the length.

    Parameters
    ----------
    plan : StripePlan
    length_mm, picks_per_cm, shrinkage_length, step, least
        As in `plan_stripes`.
    repeats : int, optional
        So many repeats fill the length, scaled to it; where the plan has no repeat, all its
        stripes are one. 1: all stripes as they stand, scaled to the length. None: as above.
    units : Units
        For lengths in the notes.

    Returns
    -------
    StripePlan
        `warnings` says in one sentence what was done.

    Raises
    ------
    InputError
        A value is out of range.
    WeavingError
        The stripes do not fit; the message names the shortest cloth that holds them.
    """
    motif = motif_of(plan)
    whole = _Cloth(
        plan=plan,
        length_mm=length_mm,
        picks_per_cm=picks_per_cm,
        shrinkage_length=shrinkage_length,
        step=step,
        least=least,
        units=units,
    )
    if repeats is not None and repeats > 1:
        return whole.so_many(motif or _all_of(plan), repeats)
    if repeats is None and motif is not None and plan.repeat_stripes:
        return whole.as_wide_as_it_was(motif)
    return whole.scaled()


def _all_of(plan: StripePlan) -> Motif:
    """All stripes as one repeat; the last is left out where it is the first of the next."""
    body = body_of(plan)
    keys = [(stripe.colour, stripe.picks, stripe.role) for stripe in body]
    if len(body) > 2 and len(body) % 2 and keys == keys[::-1]:
        body = body[:-1]
    return Motif(
        wefts=tuple(map(Weft.of, body)),
        roles=tuple(stripe.role for stripe in body),
        picks=tuple(float(stripe.picks) for stripe in body),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cloth:
    """What is to be woven, and the ways to do it."""

    plan: StripePlan
    length_mm: float
    picks_per_cm: float
    shrinkage_length: float
    step: int
    least: int
    units: Units

    @property
    def mm_per_step(self) -> float:
        """Finished length of one step."""
        return finished_length_mm(self.step, self.picks_per_cm, self.shrinkage_length)

    @property
    def steps_per_pick(self) -> float:
        """Steps that are as long as one pick of the plan, both finished."""
        old = finished_length_mm(1, self.plan.picks_per_cm, self.plan.shrinkage_length)
        return old / self.mm_per_step

    @property
    def room(self) -> int:
        """Steps between the hems."""
        total = picks_for_length(
            self.length_mm,
            self.picks_per_cm,
            shrinkage_length=self.shrinkage_length,
            step=self.step,
        )
        edging = self.plan.total_picks - sum(stripe.picks for stripe in body_of(self.plan))
        return (total - edging) // self.step

    @property
    def name(self) -> str:
        """What the stripes are called in a note."""
        return self.plan.name or "that plan"

    def scaled(self, why: str = "") -> StripePlan:
        """Scale all stripes to the length."""
        body = body_of(self.plan)
        stretch = self.room / (sum(stripe.picks for stripe in body) * self.steps_per_pick)
        note = (
            f"{why}All {len(body)} stripes of {self.name} are woven once, "
            f"{_times(stretch)} as wide as they were."
        )
        if not why and abs(stretch - 1) < _AS_IT_WAS:
            return self._rescaled(self.plan, ())
        return self._rescaled(self.plan, (note,))

    def so_many(self, motif: Motif, repeats: int) -> StripePlan:
        """Fill the length with so many repeats; one that mirrors is closed by its first stripe."""
        axes = axes_of(_keys(motif))
        if axes and 0 not in axes:
            motif = motif.turned(axes[0])
        pieces = [
            Piece(weft, max(1, round(picks)), role)
            for weft, picks, role in zip(motif.wefts, motif.picks, motif.roles, strict=True)
        ]
        body = join_pieces([*pieces * repeats, *pieces[: 1 if axes else 0]])
        once = math.fsum(motif.picks) * self.steps_per_pick
        stretch = self.room / (sum(piece.picks for piece in body) * self.steps_per_pick)
        closed = f", and closed by its first stripe ({motif.wefts[0].name})" if axes else ""
        note = (
            f"The repeat of {self.name} ({len(pieces)} stripes, {self._size(once)}) is woven "
            f"{repeats} times, {_times(stretch)} as wide as it was{closed}."
        )
        return self._rescaled(self._with(body), (note,))

    def as_wide_as_it_was(self, motif: Motif) -> StripePlan:
        """Weave the repeat at its own width as often as it fits, and a part of it."""
        narrowest = max(1, -(-self.least // self.step))
        wished = [picks * self.steps_per_pick for picks in motif.picks]
        units = math.floor(math.fsum(max(part, narrowest) for part in wished) + 0.5)
        steps = equal_widths(
            motif.picks,
            max(units, narrowest * len(wished)),
            least=[narrowest] * len(wished),
            kinds=[weft.name for weft in motif.wefts],
        )
        once = sum(steps)
        if self.room < once:
            size = self._size(once)
            return self.scaled(f"One repeat of {self.name} ({size}) is longer than the cloth. ")
        axes = axes_of(list(zip(_keys(motif), steps, strict=True)))
        runs, how = filled(steps, self.room, narrowest, axes)
        pieces = [Piece(motif.wefts[place], width * self.step) for place, width in runs]
        size, own = self._size(once), self._size(math.fsum(wished))
        came = size if abs(once / math.fsum(wished) - 1) < _TOLD else f"{size}, where it was {own}"
        note = (
            f"The repeat of {self.name} ({len(steps)} stripes, {came}) is woven at "
            f"its own width, {how}. --repeats 1 scales all "
            f"{len(body_of(self.plan))} stripes to the length instead."
        )
        raised = sum(part < narrowest - _RAISED for part in wished)
        if raised:
            stripes = "1 stripe" if raised == 1 else f"{raised} stripes"
            note += f" In each, {stripes} would be under the smallest of {self.least} picks; "
            note += "--least 1 weaves them as they are."
        done = self._with(tuple(pieces))
        return replace(
            done,
            picks_per_cm=self.picks_per_cm,
            finished_length_mm=self.length_mm,
            shrinkage_length=self.shrinkage_length,
            step=self.step,
            least=self.least,
            warnings=(note,),
        )

    def _size(self, steps: float) -> str:
        return format_length(steps * self.mm_per_step, self.units)

    def _with(self, body: tuple[Piece, ...]) -> StripePlan:
        """Give the plan with other stripes between its hems."""
        stripes = self.plan.stripes
        start = list(itertools.takewhile(lambda s: s.role in ("hem", "border"), stripes))
        end = list(itertools.takewhile(lambda s: s.role in ("hem", "border"), stripes[::-1]))[::-1]
        edges = [[Piece(Weft.of(s), s.picks, s.role) for s in side] for side in (start, end)]
        return replace(self.plan, stripes=number_picks([*edges[0], *body, *edges[1]]))

    def _rescaled(self, plan: StripePlan, notes: tuple[str, ...]) -> StripePlan:
        done = rescale(
            plan,
            length_mm=self.length_mm,
            picks_per_cm=self.picks_per_cm,
            shrinkage_length=self.shrinkage_length,
            step=self.step,
            least=self.least,
        )
        return replace(done, warnings=notes)


def _keys(motif: Motif) -> list[tuple[str, float, str]]:
    return [
        (weft.name, round(picks, 6), role)
        for weft, picks, role in zip(motif.wefts, motif.picks, motif.roles, strict=True)
    ]


def _times(factor: float) -> str:
    return f"{factor:.1f} times" if factor >= 1 else f"{factor:.2f} times"
