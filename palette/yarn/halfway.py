"""A cloth that is half woven: its stripes cut at a pick, and what its yarn really takes."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from palette.errors import InputError
from palette.measures import G_PER_OUNCE, Units
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.amounts import YarnAmount
from palette.yarn.resizing import renumbered
from palette.yarn.wefts import Weaving, weft_uses

__all__ = ["NOISE_G", "ODD_RATIO", "WEIGHED_G", "OnLoom", "Tally", "cut_stripes", "tally_of"]

WEIGHED_G = 5.0
"""A colour is judged by its own use from this many grams on: common practice, a kitchen scale
shows whole grams. Below it, and where it was not weighed, it is reckoned as planned; beside that
stands what it would be with the use of all the weighed colours together, where that is more: a
saving in one yarn is not counted on in another."""

ODD_RATIO = 1.5
"""Use that is this many times more or less than planned is asked about: common practice."""

NOISE_G = 1e-6
"""Grams that are rounding of the machine."""


def cut_stripes(plan: StripePlan, picks: int) -> tuple[tuple[Stripe, ...], tuple[Stripe, ...]]:
    """Cut the stripes at a pick; the stripe that it falls into is cut in two."""
    woven, rest = [], []
    for stripe in plan.stripes:
        inside = min(max(picks - stripe.first_pick + 1, 0), stripe.picks)
        if inside:
            woven.append(replace(stripe, picks=inside))
        if inside < stripe.picks:
            first = stripe.first_pick + inside
            rest.append(replace(stripe, picks=stripe.picks - inside, first_pick=first))
    return tuple(woven), tuple(rest)


class OnLoom:
    """The cloth on the loom: what was woven, and grams for any way to go on.

    Grams of a colour are the plan's, times what it was found to take more or less than planned.
    """

    def __init__(
        self,
        plan: StripePlan,
        woven: tuple[Stripe, ...],
        weaving: Weaving,
        tex: Mapping[str, float],
        picks_per_cm: float,
    ) -> None:
        self._plan = replace(plan, picks_per_cm=picks_per_cm)
        self._woven = woven
        self.picks_per_cm = picks_per_cm
        self.weaving = weaving
        self._tex = tex
        self.so_far_g = self._planned_g(woven)

    def _planned_g(self, stripes: Sequence[Stripe]) -> dict[str, float]:
        grams = dict.fromkeys(self._tex, 0.0)
        if stripes:
            whole = replace(self._plan, stripes=renumbered(stripes))
            for colour, use in weft_uses(whole, self.weaving).items():
                grams[colour] = use.length_m * self._tex[colour] / 1000
        return grams

    def need_g(self, rest: Sequence[Stripe], ratio: Mapping[str, float]) -> dict[str, float]:
        """Reckon grams of each colour for the rest, tails of wefts that begin in it counted."""
        whole = self._planned_g((*self._woven, *rest))
        return {
            colour: max(0.0, whole[colour] - self.so_far_g[colour]) * ratio[colour]
            for colour in whole
        }

    def runs_out(
        self, rest: tuple[Stripe, ...], colour: str, left_g: float, ratio: Mapping[str, float]
    ) -> int:
        """Count the picks of the rest that can be woven before a colour is used up."""
        pick_g = self.weaving.pick_mm / 1000 * self._tex[colour] / 1000 * ratio[colour]
        for place, stripe in enumerate(rest):
            if stripe.colour != colour:
                continue
            after = self.need_g(rest[: place + 1], ratio)[colour]
            if after > left_g + NOISE_G:
                can = stripe.picks - math.ceil((after - left_g) / pick_g)
                return stripe.first_pick - rest[0].first_pick + max(0, can)
        return sum(stripe.picks for stripe in rest)


def _exact(g: float, units: Units) -> str:
    """Put a mass in words as it was typed, not rounded to whole grams."""
    return f"{g / G_PER_OUNCE:.4g} oz" if units is Units.IMPERIAL else f"{g:.4g} g"


def _read_left(
    amounts: Mapping[str, YarnAmount],
    left_g: Mapping[str, float],
    had_g: Mapping[str, float],
    units: Units,
) -> None:
    unknown = sorted((set(left_g) | set(had_g)) - set(amounts))
    if unknown:
        near = difflib.get_close_matches(unknown[0], amounts, n=1)
        remedy = f"Did you mean {near[0]}?" if near else ""
        rule = f"must be a weft of the plan: {', '.join(amounts)}"
        raise InputError("yarn left", rule, got=", ".join(unknown), remedy=remedy)
    for colour, grams in left_g.items():
        had = had_g.get(colour, math.inf)
        if not 0 <= grams <= had + NOISE_G:
            known = math.isfinite(had)
            rule = f"must be from 0 g to the {_exact(had, units)} there was"
            remedy = "Say how much there was at the start, if it was more." if known else ""
            rule = rule if known else "must be 0 g or more"
            raise InputError(f"yarn left, {colour}", rule, got=_exact(grams, units), remedy=remedy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """Grams of every colour, by its name.

    Attributes
    ----------
    had : dict of str to float
        At the start; a colour of which it is not known is not in it.
    skeins : tuple of str
        Colours of which the start is taken to be the plan's whole skeins.
    denied : tuple of str
        Colours that were weighed and cannot have begun with the plan's whole skeins.
    left : dict of str to float
        Now; what was not weighed is reckoned from the plan's use.
    planned_used : dict of str to float
        What the plan has for the picks woven so far, earlier cloths and sampling too.
    ratio : dict of str to float
        What a colour was found to take for each gram that the plan has; 1 where it was not.
    own : tuple of str
        Colours that were found to take so much.
    borrowed : float
        What all those that were weighed take together, at least 1.
    reserved : dict of str to float
        For the cloths still to come, as planned.
    """

    had: dict[str, float]
    skeins: tuple[str, ...]
    denied: tuple[str, ...]
    left: dict[str, float]
    planned_used: dict[str, float]
    ratio: dict[str, float]
    own: tuple[str, ...]
    borrowed: float
    reserved: dict[str, float]

    def left_at(self, ratio: float, colour: str, ready_g: float) -> float:
        """Reckon what is left of a colour that was not weighed, had it taken so much so far."""
        had = self.had.get(colour, ready_g)
        return max(0.0, had - self.planned_used[colour] * ratio)


def _ratios(
    planned_g: Mapping[str, float], used_g: Mapping[str, float]
) -> tuple[dict[str, float], float]:
    """Reckon what each weighed colour takes for a planned gram, and all of them together."""
    planned = math.fsum(planned_g[colour] for colour in used_g)
    together = max(1.0, math.fsum(used_g.values()) / planned) if planned >= WEIGHED_G else 1.0
    own = {}
    for colour, grams in used_g.items():
        if planned_g[colour] < WEIGHED_G:
            continue
        if not grams > 0:
            about = planned_g[colour]
            rule = f"must be less than at the start: about {about:.0f} g should be in the cloth"
            remedy = "Say how much there was at the start, if it was more."
            raise InputError(f"yarn left, {colour}", rule, got="none used", remedy=remedy)
        own[colour] = grams / planned_g[colour]
    return own, together


def _cloths_g(
    cloths: Sequence[StripePlan], weaving: Weaving, tex: Mapping[str, float]
) -> dict[str, float]:
    """Grams of each colour in whole cloths, as planned."""
    grams = dict.fromkeys(tex, 0.0)
    for cloth in cloths:
        for colour, use in weft_uses(cloth, weaving).items():
            grams[colour] += use.length_m * tex[colour] / 1000
    return grams


def _cannot_be(skeins_g: float, left_g: float, planned_g: float) -> bool:
    """Whether so much is hardly left of the plan's skeins alone, so much being in the cloth.

    To take them for all there was would make the yarn seem to go far further than planned.
    """
    used_g = skeins_g - left_g
    return used_g < -NOISE_G or (planned_g >= WEIGHED_G and used_g < planned_g / ODD_RATIO)


def tally_of(
    on_loom: OnLoom,
    wefts: Mapping[str, YarnAmount],
    *,
    left_g: Mapping[str, float],
    had_g: Mapping[str, float],
    skeins_g: Mapping[str, float],
    done: Sequence[StripePlan],
    later: Sequence[StripePlan],
    units: Units = Units.METRIC,
) -> Tally:
    """Set what was used beside what was planned, colour by colour.

    Raises
    ------
    InputError
        A colour that the plan does not have, or more left than there was.
    """
    _read_left(wefts, left_g, had_g, units)
    tex = {colour: amount.tex for colour, amount in wefts.items()}
    before = _cloths_g(done, on_loom.weaving, tex)
    planned = {
        colour: on_loom.so_far_g[colour]
        + before[colour]
        + amount.sampling_length_m * amount.tex / 1000
        for colour, amount in wefts.items()
    }
    whole = {colour: grams for colour, grams in skeins_g.items() if colour not in had_g}
    denied = tuple(
        colour
        for colour, grams in whole.items()
        if colour in left_g and _cannot_be(grams, left_g[colour], planned[colour])
    )
    had = {colour: grams for colour, grams in whole.items() if colour not in denied} | dict(had_g)
    used = {colour: had[colour] - grams for colour, grams in left_g.items() if colour in had}
    own, together = _ratios(planned, used)
    tally = Tally(
        had=had,
        skeins=tuple(colour for colour in whole if colour not in denied),
        denied=denied,
        left={},
        planned_used=planned,
        ratio=dict.fromkeys(wefts, 1.0) | own,
        own=tuple(own),
        borrowed=together,
        reserved=_cloths_g(later, on_loom.weaving, tex),
    )
    left = {
        colour: left_g[colour] if colour in left_g else tally.left_at(1.0, colour, amount.mass_g)
        for colour, amount in wefts.items()
    }
    return replace(tally, left=left)
