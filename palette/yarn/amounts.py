"""How much of each yarn to have ready."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError

__all__ = ["Use", "YarnAmount"]

Use = Literal["weft", "warp"]


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnAmount:
    """What one yarn of a plan comes to.

    Attributes
    ----------
    colour : str
        Name of the colour.
    hex : str
        ``#rrggbb`` of the yarn.
    use : {"weft", "warp"}
    count : str
        Yarn count as it was named: ``NeC 8/2``.
    tex : float
        Resultant linear density, g per 1000 m.
    picks : int
        Picks in this colour; 0 for a warp.
    starts : int
        Times the yarn is started, each with a tail at its start and at its end; 0 for a warp.
    net_length_m : float
        In the cloth, its tails and up the selvedge, before the allowance.
    length_m, mass_g : float
        To have ready, sampling and allowance included.
    tail_length_m, carried_length_m : float
        The parts of `net_length_m` that are tails, and weft carried up the selvedge.
    sampling_length_m : float
        For the sampling before the first cloth; not part of `net_length_m`.
    ends : int
        Ends in this colour; 0 for a weft.
    allowance : float
        Share added on top of what is used: length = (net + sampling) x (1 + allowance).
    """

    colour: str
    hex: str
    use: Use
    count: str
    tex: float
    picks: int
    starts: int
    net_length_m: float
    length_m: float
    mass_g: float
    tail_length_m: float = 0.0
    carried_length_m: float = 0.0
    sampling_length_m: float = 0.0
    ends: int = 0
    allowance: float = 0.0

    def __post_init__(self) -> None:
        """Refuse quantities out of range."""
        thing = f"{self.use} yarn {self.colour}"
        if not self.tex > 0:
            raise InputError(thing, "tex must be more than 0", got=f"{self.tex}")
        quantities = ("picks", "starts", "ends", "net_length_m", "length_m", "mass_g")
        parts = ("tail_length_m", "carried_length_m", "sampling_length_m", "allowance")
        for name in (*quantities, *parts):
            if not getattr(self, name) >= 0:
                raise InputError(thing, f"{name} must be 0 or more", got=f"{getattr(self, name)}")

    @property
    def used_mass_g(self) -> float:
        """Grams that the cloth and the sampling take, without the allowance."""
        return (self.net_length_m + self.sampling_length_m) * self.tex / 1000

    @property
    def g_per_pick(self) -> float:
        """Grams of one pick, without tails; 0 for a warp."""
        if not self.picks:
            return 0.0
        in_picks_m = self.net_length_m - self.tail_length_m - self.carried_length_m
        return in_picks_m * self.tex / 1000 / self.picks
