"""The stripe plan: what is thrown, pick by pick, from the first woven to the last."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError, WeavingError
from palette.swatches.palette import Palette
from palette.whole import whole_number

__all__ = ["Role", "Stripe", "StripePlan"]

Role = Literal["stripe", "blend", "hem", "border"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stripe:
    """A run of picks in one colour.

    Attributes
    ----------
    colour : str
        Name of the weft; a swatch's name, or a yarn's own (hem).
    hex : str
        ``#rrggbb`` of the yarn.
    lab : tuple of 3 float
        CIELAB D65 of the yarn.
    picks : int
        At least 1.
    first_pick : int
        Number of its first pick; pick 1 is the first woven.
    role : {"stripe", "blend", "hem", "border"}
        What it is for: a design stripe, part of a soft change, a hem or a border.
    """

    colour: str
    hex: str
    lab: tuple[float, float, float]
    picks: int
    first_pick: int
    role: Role = "stripe"

    def __post_init__(self) -> None:
        """Refuse a stripe without picks, and picks that are not whole."""
        thing = f"stripe at pick {self.first_pick} ({self.colour})"
        object.__setattr__(
            self, "picks", whole_number(f"picks of the {thing}", self.picks, least=1)
        )
        first = whole_number(f"first pick of the {thing}", self.first_pick, least=1)
        object.__setattr__(self, "first_pick", first)

    @property
    def last_pick(self) -> int:
        """Number of its last pick."""
        return self.first_pick + self.picks - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class StripePlan:
    """The weft of one cloth.

    Attributes
    ----------
    palette : Palette
        The colours and the shares that were asked for.
    stripes : tuple of Stripe
        In weaving order, without gaps: each begins where the one before ends.
    picks_per_cm : float
        Counted on the loom.
    finished_length_mm : float
        The finished length that was asked for, fringes not counted.
    shrinkage_length : float
        Share of the woven length lost in washing, in [0, 1).
    step : int
        Picks that every stripe is a multiple of.
    least : int
        Smallest stripe allowed, in picks.
    order : str
        Name of the arrangement.
    seed : int
        What the arrangement's chance was seeded with.
    name : str
        Name of the cloth, or "".
    warnings : tuple of str
        What was moved to make it weavable, as sentences.
    carry_picks : int, optional
        Most picks that a weft is carried up the selvedge before it is cut; None: the usual.
    shuttles : int, optional
        Most shuttles in play at once; None: as many as the stripes ask for.
    repeat_stripes : int, optional
        Stripes in one repeat of a cloth that these were read off; None: none was found.
    """

    palette: Palette
    stripes: tuple[Stripe, ...]
    picks_per_cm: float
    finished_length_mm: float
    shrinkage_length: float = 0.0
    step: int = 2
    least: int = 0
    order: str = "photo"
    seed: int = 0
    name: str = ""
    warnings: tuple[str, ...] = ()
    carry_picks: int | None = None
    shuttles: int | None = None
    repeat_stripes: int | None = None

    def __post_init__(self) -> None:
        """Refuse a plan with gaps, or with quantities out of range."""
        if not self.stripes:
            raise WeavingError("stripe plan", "must hold at least one stripe", got="none")
        if not self.picks_per_cm > 0:
            got = f"{self.picks_per_cm}"
            raise InputError("stripe plan", "picks per cm must be more than 0", got=got)
        if not 0 <= self.shrinkage_length < 1:
            got = f"{self.shrinkage_length}"
            raise InputError("stripe plan", "shrinkage must be from 0 to under 1", got=got)
        expected = 1
        for number, stripe in enumerate(self.stripes, start=1):
            if stripe.first_pick != expected:
                thing = f"stripe {number} ({stripe.colour})"
                rule = f"must begin at pick {expected}, where the one before ends"
                raise InputError(thing, rule, got=f"{stripe.first_pick}")
            expected = stripe.last_pick + 1

    @property
    def total_picks(self) -> int:
        """Picks in the whole cloth."""
        return self.stripes[-1].last_pick

    @property
    def woven_length_mm(self) -> float:
        """Length of the picks on the loom, tension slackened."""
        return self.total_picks / self.picks_per_cm * 10

    @property
    def true_finished_length_mm(self) -> float:
        """Finished length that the whole number of picks really gives."""
        return self.woven_length_mm * (1 - self.shrinkage_length)

    @property
    def colours(self) -> tuple[str, ...]:
        """Names of the wefts, in the order in which they first enter."""
        return tuple(dict.fromkeys(stripe.colour for stripe in self.stripes))

    def picks_of(self, colour: str) -> int:
        """Count the picks thrown in one colour, 0 where it is not used."""
        return sum(stripe.picks for stripe in self.stripes if stripe.colour == colour)
