"""The draft: a shaft for each end, shafts lifted by each treadle, a treadle for each pick."""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError

__all__ = ["PLAIN_WEAVE", "Draft"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A weave as plain data; threading and treadling repeat across and along the cloth.

    Attributes
    ----------
    name : str
    threading : tuple of int
        Shaft of each end of the repeat; shaft 1 is the one nearest the weaver.
    tie_up : tuple of tuple of int
        Shafts that each treadle lifts (rising shed); treadle 1 first.
    treadling : tuple of int
        Treadle of each pick of the repeat; pick 1 is the first woven.
    """

    name: str
    threading: tuple[int, ...]
    tie_up: tuple[tuple[int, ...], ...]
    treadling: tuple[int, ...]

    def __post_init__(self) -> None:
        """Refuse an empty draft, and treadles that the tie-up does not have."""
        thing = f"draft {self.name!r}"
        if not (self.threading and self.tie_up and self.treadling):
            raise InputError(thing, "must have a threading, a tie-up and a treadling")
        if min(self.threading) < 1 or min(self.treadling) < 1:
            raise InputError(thing, "shafts and treadles are numbered from 1")
        if any(shaft < 1 for treadle in self.tie_up for shaft in treadle):
            raise InputError(thing, "shafts and treadles are numbered from 1")
        if max(self.treadling) > len(self.tie_up):
            rule = f"treadles go up to {len(self.tie_up)} in its tie-up"
            raise InputError(thing, rule, got=f"{max(self.treadling)}")

    @property
    def shafts(self) -> int:
        """Shafts that the draft needs."""
        lifted = (shaft for treadle in self.tie_up for shaft in treadle)
        return max(*self.threading, *lifted)


PLAIN_WEAVE = Draft(name="plain weave", threading=(1, 2), tie_up=((1,), (2,)), treadling=(1, 2))
