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
        In the cloth and its tails, before the allowance.
    length_m, mass_g : float
        To have ready, allowance included.
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

    def __post_init__(self) -> None:
        """Refuse quantities out of range."""
        thing = f"{self.use} yarn {self.colour}"
        if not self.tex > 0:
            raise InputError(thing, "tex must be more than 0", got=f"{self.tex}")
        for name in ("picks", "starts", "net_length_m", "length_m", "mass_g"):
            if not getattr(self, name) >= 0:
                raise InputError(thing, f"{name} must be 0 or more", got=f"{getattr(self, name)}")
