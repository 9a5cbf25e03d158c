"""A cloth with the stripes of another plan, in another palette and to another length."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from palette.plans.making import carry_picks_of
from palette.stripes.plan import StripePlan
from palette.stripes.recolouring import colourway, recolour
from palette.stripes.weaving_again import weave_again
from palette.stripes.weft import Weft
from palette.swatches.palette import Palette

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["LikeCloth", "cloth_like", "in_colours_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LikeCloth:
    """A cloth, and what its colours were in the plan that its stripes come from.

    Attributes
    ----------
    cloth : StripePlan
    colours : tuple of (Weft, Weft)
        Each colour of that plan, in the order in which it enters, and the one woven in its
        place; empty where they are the same.
    """

    cloth: StripePlan
    colours: tuple[tuple[Weft, Weft], ...] = ()

    @property
    def not_woven(self) -> tuple[str, ...]:
        """Colours of the palette that have no stripe."""
        woven = self.cloth.colours
        return tuple(s.name for s in self.cloth.palette.swatches if s.name not in woven)


def cloth_like(brief: Brief, palette: Palette, like: StripePlan) -> LikeCloth:
    """Weave the stripes of another plan in this palette, this length and these picks.

    Parameters
    ----------
    brief : Brief
        `repeats` as in `weave_again`.
    palette : Palette
        Where it has the colours of the stripes, they stay what they are.
    like : StripePlan

    Raises
    ------
    InputError, WeavingError
        The palette has too few colours, or the length is too short for the stripes.
    """
    answer = _answer(palette, like)
    coloured = in_colours_of(palette, like)
    cloth = weave_again(
        coloured,
        length_mm=brief.length.mm,
        picks_per_cm=brief.picks.per_cm,
        shrinkage_length=brief.shrinkage_along,
        step=brief.step,
        least=brief.least,
        repeats=brief.repeats,
        units=brief.unit_system,
    )
    carry = carry_picks_of(brief)
    old = {stripe.colour: Weft.of(stripe) for stripe in like.stripes}
    return LikeCloth(
        cloth=replace(
            cloth,
            name=brief.name or "",
            carry_picks=like.carry_picks if carry is None else carry,
            shuttles=like.shuttles if brief.shuttles is None else brief.shuttles,
        ),
        colours=tuple((old[name], Weft.of(palette[new])) for name, new in answer.items()),
    )


def in_colours_of(palette: Palette, like: StripePlan) -> StripePlan:
    """Give the same stripes in the colours of a palette; as they are where it has them all."""
    answer = _answer(palette, like)
    return recolour(like, palette, colours=answer) if answer else replace(like, palette=palette)


def _answer(palette: Palette, like: StripePlan) -> dict[str, str]:
    """Which colour of the palette each of the stripes becomes; empty where it has them all."""
    known = {(swatch.name, swatch.hex) for swatch in palette.swatches}
    if known >= {(s.colour, s.hex) for s in like.stripes if s.role in ("stripe", "blend")}:
        return {}
    return colourway(like, palette)
