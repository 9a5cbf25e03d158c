"""The warp: how many ends, how wide in the reed, how long to wind."""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError

__all__ = ["Warp"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Warp:
    """A warp ready to be wound.

    Attributes
    ----------
    ends : int
        Warp threads, selvedges included.
    ends_per_cm : float
        Sett, counted in the reed.
    width_in_reed_mm, woven_width_mm, finished_width_mm : float
        Width in the reed, on the loom after draw-in, and after washing.
    length_mm : float
        Length to wind, everything included.
    cloth_lengths_mm : tuple of float
        Woven length of each cloth on this warp, tension slackened.
    draw_in, shrinkage_width, take_up : float
        Shares in [0, 1): of the reed width, of the woven width, of the warp yarn's own length.
    fringe_mm : float
        At each end of each cloth.
    gap_mm : float
        Left unwoven between one cloth's fringe and the next one's.
    sampling_mm : float
        Woven for sampling before the first cloth.
    loom_waste_mm : float
        Cannot be woven.
    doubled_ends : int
        Ends that run beside another one in the same heddle at the selvedges, both sides
        together; they are counted in `ends`.
    """

    ends: int
    ends_per_cm: float
    width_in_reed_mm: float
    woven_width_mm: float
    finished_width_mm: float
    length_mm: float
    cloth_lengths_mm: tuple[float, ...]
    draw_in: float = 0.0
    shrinkage_width: float = 0.0
    take_up: float = 0.0
    fringe_mm: float = 0.0
    gap_mm: float = 0.0
    sampling_mm: float = 0.0
    loom_waste_mm: float = 0.0
    doubled_ends: int = 0

    def __post_init__(self) -> None:
        """Refuse quantities out of range."""
        if not self.ends >= 1:
            raise InputError("warp", "must have at least 1 end", got=f"{self.ends}")
        for name in ("ends_per_cm", "width_in_reed_mm", "length_mm"):
            if not getattr(self, name) > 0:
                got = f"{getattr(self, name)}"
                raise InputError(f"warp {name}", "must be more than 0", got=got)
        if not 0 <= self.doubled_ends < self.ends:
            got = f"{self.doubled_ends} of {self.ends} ends"
            raise InputError("warp doubled_ends", "must be 0 or more, and not all", got=got)
        for name in ("draw_in", "shrinkage_width", "take_up"):
            if not 0 <= getattr(self, name) < 1:
                got = f"{getattr(self, name)}"
                raise InputError(f"warp {name}", "must be from 0 to under 1", got=got)

    @property
    def working_ends(self) -> int:
        """Ends that need a heddle of their own: a doubled end shares its neighbour's."""
        return self.ends - self.doubled_ends

    @property
    def filled_reed_mm(self) -> float:
        """Width in the reed that the whole number of ends really fills."""
        return self.working_ends / self.ends_per_cm * 10

    @property
    def woven_mm(self) -> float:
        """Everything woven on this warp: the cloths and the sampling."""
        return sum(self.cloth_lengths_mm) + self.sampling_mm

    @property
    def yarn_length_m(self) -> float:
        """Metres of warp yarn for all ends."""
        return self.ends * self.length_mm / 1000
