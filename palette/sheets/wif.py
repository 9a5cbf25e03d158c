"""The Weaving Information File: drawdowns exchanged with other tools.

After the Weaving Information File Specification, version 1.1, April 20, 1997, an open
interchange format: text in sections, ``[NAME]`` and ``key=value``. The key names here are from
memory, none of the specification's text was at hand; a file is read generously for that reason
(names in any case, missing sections allowed, unknown ones kept).
"""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import ContractError

__all__ = ["Rows", "WeavingFile", "significant"]

_FIGURES = 9
Rows = tuple[tuple[str, str], ...]
"""Keys and values of a section as text, in order."""


def significant(value: float) -> float:
    """Round to the nine figures that a density keeps in a file, where it is written as spacing.

    Examples
    --------
    >>> significant(1 / 0.12700025400050801)
    7.874
    """
    return float(f"{value:.{_FIGURES}g}")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeavingFile:
    """What a weaving information file says, its defaults filled in.

    Attributes
    ----------
    title : str
    rising : bool
        Whether the tie-up names the shafts that rise; else the ones that sink.
    threading : tuple of tuple of int
        Shafts of each end; end 1 first. Empty where the file has none.
    tie_up : tuple of tuple of int
        Shafts of each treadle; treadle 1 first.
    treadling : tuple of tuple of int
        Treadles of each pick; pick 1 first.
    lift_plan : tuple of tuple of int
        Shafts of each pick, for looms without treadles.
    colours : tuple of str
        ``#rrggbb``; colour 1 first.
    names : tuple of str
        Names of the colours, "" where the file gives none; a section of our own.
    warp_colours, weft_colours : tuple of int
        Colour of each end and each pick, from 1.
    ends_per_cm, picks_per_cm : float
        From the spacing; 0 where the file gives none.
    others : tuple of (str, Rows)
        Sections that are not read, as they stand.
    """

    title: str = ""
    rising: bool = True
    threading: tuple[tuple[int, ...], ...] = ()
    tie_up: tuple[tuple[int, ...], ...] = ()
    treadling: tuple[tuple[int, ...], ...] = ()
    lift_plan: tuple[tuple[int, ...], ...] = ()
    colours: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    warp_colours: tuple[int, ...] = ()
    weft_colours: tuple[int, ...] = ()
    ends_per_cm: float = 0.0
    picks_per_cm: float = 0.0
    others: tuple[tuple[str, Rows], ...] = ()

    def __post_init__(self) -> None:
        """Refuse colours that the table does not have."""
        for thing, used in (("WARP COLORS", self.warp_colours), ("WEFT COLORS", self.weft_colours)):
            worst = next((c for c in used if not 1 <= c <= len(self.colours)), None)
            if worst is not None:
                rule = f"colours go from 1 to {len(self.colours)} in the color table"
                raise ContractError(f"weaving file [{thing}]", rule, got=f"{worst}")

    @property
    def shafts(self) -> int:
        """Highest shaft that is named anywhere, 0 where none is."""
        rows = (*self.threading, *self.tie_up, *self.lift_plan)
        return max((shaft for row in rows for shaft in row), default=0)

    @property
    def treadles(self) -> int:
        """Treadles of the tie-up."""
        return len(self.tie_up)
