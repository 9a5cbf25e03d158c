"""Stripes fitted to the yarn there is: as near to the wish as it allows."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from palette.stripes.plan import Stripe
from palette.yarn.resizing import KEPT_ROLES, Layout, scaled_units

__all__ = ["Fit", "fit_stripes"]

Need = Callable[[tuple[Stripe, ...]], Mapping[str, float]]

_NOISE_G = 1e-6  # grams by which a need may exceed what there is: rounding of the machine


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Stripes that the yarn allows.

    Attributes
    ----------
    stripes : tuple of Stripe
        Numbered from 1; empty where the yarn allows none.
    short : tuple of str
        Colours whose yarn is not enough for the wish.
    """

    stripes: tuple[Stripe, ...]
    short: tuple[str, ...]

    @property
    def picks(self) -> int:
        """Picks altogether."""
        return sum(stripe.picks for stripe in self.stripes)


def _over(need_g: Mapping[str, float], have_g: Mapping[str, float]) -> dict[str, float]:
    """Grams by which each colour's need is more than what there is."""
    return {
        colour: need - have_g.get(colour, 0.0)
        for colour, need in need_g.items()
        if need - have_g.get(colour, 0.0) > _NOISE_G
    }


def _units_of(stripes: Sequence[Stripe], layout: Layout) -> dict[str, int]:
    picks = dict.fromkeys(layout.units, 0)
    for stripe in stripes:
        picks[stripe.colour] += stripe.picks
    return {
        colour: max(0, count - layout.kept[colour]) // layout.step
        for colour, count in picks.items()
    }


def fit_stripes(
    stripes: Sequence[Stripe],
    *,
    goal_picks: int,
    step: int,
    least: int,
    need_g: Need,
    have_g: Mapping[str, float],
    pick_g: Mapping[str, float],
) -> Fit:
    """Widen and narrow stripes until every colour's yarn is enough for them.

    Colours whose yarn is short get as many picks as it allows; the others share the rest in
    their own proportions. Where all are short, the cloth gets shorter.

    Parameters
    ----------
    stripes : sequence of Stripe
        The wish.
    goal_picks : int
        Picks wished for altogether, to the nearest step.
    step, least : int
        Picks that every stripe is a multiple of; the smallest stripe.
    need_g : callable
        Grams of each colour for a sequence of stripes, tails and all.
    have_g : mapping of str to float
        Grams there are; a colour that is not named has none.
    pick_g : mapping of str to float
        Grams of one pick, to know how far to narrow.

    Returns
    -------
    Fit
    """
    for kept_roles in (KEPT_ROLES, ()):
        layout = Layout(stripes, step=step, least=least, kept_roles=kept_roles)
        fit = _fitted(layout, layout.units_for(goal_picks), need_g, have_g, pick_g)
        if fit.stripes:
            break
    return fit


def _fitted(
    layout: Layout,
    goal: int,
    need_g: Need,
    have_g: Mapping[str, float],
    pick_g: Mapping[str, float],
) -> Fit:
    """Tighten what each colour may have until the need of all of them is met.

    Every round lowers at least one cap by a unit, so it ends.
    """
    wish = scaled_units(layout.units, goal, dict.fromkeys(layout.units, goal))
    unit_g = {colour: pick_g[colour] * layout.step for colour in layout.units}
    caps = {colour: _most_units(have_g.get(colour, 0.0), unit_g[colour], goal) for colour in unit_g}
    short = {colour for colour, cap in caps.items() if cap < wish[colour]}
    while True:
        wanted = scaled_units(layout.units, goal, caps)
        stripes = layout.resized(wanted)
        came = _units_of(stripes, layout)
        over = _over(need_g(stripes), have_g) if stripes else {}
        short |= set(over)
        tighter = {
            colour: max(0, came[colour] - _units(grams, unit_g[colour]))
            for colour, grams in over.items()
            if came[colour] > 0
        } or {colour: came[colour] for colour in wanted if came[colour] < wanted[colour]}
        if not tighter:
            break
        caps.update(tighter)
    if over:  # what stays is more than the yarn there is
        return Fit(stripes=(), short=tuple(colour for colour in wish if colour in short))
    return Fit(stripes=stripes, short=tuple(colour for colour in wish if colour in short))


def _units(grams: float, unit_g: float) -> int:
    return max(1, math.ceil(grams / unit_g)) if unit_g > 0 else 1


def _most_units(have_g: float, unit_g: float, goal: int) -> int:
    """Units that there is yarn for, without tails; at most the goal."""
    if math.isinf(have_g) or unit_g <= 0:
        return goal
    return min(goal, math.floor(have_g / unit_g + _NOISE_G))
