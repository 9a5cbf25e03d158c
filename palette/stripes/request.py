"""What is asked of a stripe plan, checked once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from palette.errors import InputError
from palette.measures import Units
from palette.stripes.lines import DIRECTIONS, LINES
from palette.stripes.material import Material
from palette.stripes.orders import Order, order_named
from palette.swatches.palette import Palette, Swatch
from palette.whole import whole_number

__all__ = ["Request"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """Colours, order and limits of the stripes between the hems; lengths in picks.

    Attributes
    ----------
    palette : Palette
    picks : int
        Of the stripes, hems and borders not counted; a multiple of `step`.
    step, least : int
        Picks that every stripe is a multiple of; smallest stripe, rounded up to a step.
    order, inner, direction, ground, swap, seed, repeats
        As in `plan_stripes`.
    most : mapping of str to int
        Most picks of a colour, by name.
    units : Units
        For the figures in messages.
    """

    palette: Palette
    picks: int
    step: int = 2
    least: int = 0
    order: str = "photo"
    inner: str = "photo"
    direction: str = "top-bottom"
    ground: str = ""
    swap: tuple[str, ...] = ()
    seed: int = 0
    repeats: int = 1
    most: Mapping[str, int] = field(default_factory=dict)
    units: Units = Units.METRIC

    def __post_init__(self) -> None:
        """Refuse values out of range, and names that the palette does not have."""
        order_named(self.order)
        for thing, value, known in (
            ("direction", self.direction, DIRECTIONS),
            ("inner order", self.inner, LINES),
        ):
            if value not in known:
                raise InputError(thing, f"must be one of {', '.join(known)}", got=repr(value))
        for thing, number, least in (
            ("step", self.step, 1),
            ("least", self.least, 0),
            ("repeats", self.repeats, 1),
            ("seed", self.seed, 0),
        ):
            object.__setattr__(self, thing, whole_number(thing, number, least=least))
        for thing, name in (
            *((("ground", self.ground),) if self.ground else ()),
            *(("swap", name) for name in self.swap),
            *(("most", name) for name in self.most),
        ):
            if name not in self.names:
                rule = f"must name a colour of the palette ({', '.join(self.names)})"
                raise InputError(thing, rule, got=repr(name))
        if self.swap and (len(self.swap) != 2 or self.swap[0] == self.swap[1]):
            raise InputError("swap", "must name two colours", got=", ".join(self.swap))
        for name, picks in self.most.items():
            if not picks >= 1:
                raise InputError(f"most of {name}", "must be at least 1 pick", got=f"{picks}")

    @property
    def swatches(self) -> tuple[Swatch, ...]:
        """Colours that are woven: those with a share."""
        return tuple(swatch for swatch in self.palette.swatches if swatch.share > 0)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the colours that are woven."""
        return tuple(swatch.name for swatch in self.swatches)

    @property
    def total(self) -> int:
        """Steps of the stripes in all."""
        return self.picks // self.step

    @property
    def narrowest(self) -> int:
        """Steps of the smallest stripe."""
        return max(1, -(-self.least // self.step))

    @property
    def way(self) -> Order:
        """How the colours are arranged."""
        return order_named(self.order)

    @property
    def copies(self) -> int:
        """How many repeats are woven: as asked, or as many as the order has of itself."""
        return self.repeats if self.repeats > 1 else self.way.repeats

    @property
    def on_ground(self) -> bool:
        """Whether the ground is woven between the stripes of an order without one."""
        return bool(self.ground) and not self.way.has_ground

    @property
    def caps(self) -> tuple[int, ...]:
        """Most steps of each colour; the whole where there is no limit."""
        return tuple(
            min(self.total, self.most[name] // self.step) if name in self.most else self.total
            for name in self.names
        )

    def share(self, index: int) -> float:
        """Share of one woven colour among those that are woven."""
        total = math.fsum(swatch.share for swatch in self.swatches)
        return self.swatches[index].share / total

    def material(self) -> Material:
        """Give what the order arranges; the parts are shares, not yet held to limits."""
        count = len(self.swatches)
        return Material(
            names=self.names,
            labs=tuple(swatch.lab for swatch in self.swatches),
            places=tuple(swatch.place for swatch in self.swatches),
            parts=tuple(self.share(i) * self.total for i in range(count)),
            least=(self.narrowest,) * count,
            most=self.caps,
            total=self.total,
            narrowest=self.narrowest,
            direction=self.direction,
            inner=self.inner,
            ground=self._ground(),
            swap=self._swap(),
            seed=self.seed,
        )

    def _ground(self) -> int:
        """Colour that others stand on: as asked, or the one with the largest share."""
        if self.ground:
            return self.names.index(self.ground)
        return max(range(len(self.names)), key=lambda i: (self.swatches[i].share, -i))

    def _swap(self) -> tuple[int, int] | None:
        if not self.swap:
            return None
        one, other = (self.names.index(name) for name in self.swap)
        return (one, other)
