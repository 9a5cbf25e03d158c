"""What a weaver assumes of warp and loom when she says nothing, each with where it comes from.

A value without a published source says "common practice". Every one of them is an input.
"""

from __future__ import annotations

from dataclasses import dataclass

from palette.errors import InputError

__all__ = [
    "COMMON_PRACTICE",
    "DRAW_IN",
    "ENDS_PER_CM",
    "FRINGE_MM",
    "GAP_MM",
    "LOOM_WASTE_MM",
    "SAMPLING_MM",
    "SELVEDGE_ENDS",
    "SHRINKAGE_LENGTH",
    "SHRINKAGE_RANGES",
    "SHRINKAGE_WIDTH",
    "SLEY_REPEAT",
    "TAKE_UP",
    "WORKING_SHARE",
    "Default",
    "Range",
]

COMMON_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Default:
    """A value used when none is given.

    Attributes
    ----------
    value : float
        In the unit of the constant's name; shares in [0, 1].
    text : str
        The same as it is printed; typed, it needs no blank before its unit.
    label : str
        "common practice", or the source.
    """

    value: float
    text: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A range of shares that is usual for a fibre or a kind of loom.

    Attributes
    ----------
    low, high : float
        In the unit of the table's name; shares in [0, 1].
    label : str
        "common practice", or the source.
    """

    low: float
    high: float
    label: str

    def __post_init__(self) -> None:
        """Refuse a range that runs backwards."""
        if not self.low <= self.high:
            raise InputError("range", "must run upwards", got=f"{self.low} to {self.high}")

    @property
    def middle(self) -> float:
        """Halfway between the two."""
        return (self.low + self.high) / 2


ENDS_PER_CM = Default(value=8.0, text="8/cm", label="common practice for 8/2 cotton, plain weave")
SHRINKAGE_WIDTH = Default(value=0.10, text="10 %", label=COMMON_PRACTICE)
SHRINKAGE_LENGTH = Default(value=0.10, text="10 %", label=COMMON_PRACTICE)
DRAW_IN = Default(
    value=0.06,
    text="6 %",
    label="5 to 6 % in the reed for cotton (Brooks, Cotton Manufacturing: 38 in for 36 in)",
)
TAKE_UP = Default(
    value=0.08,
    text="8 %",
    label="common practice; Brooks has about 6 % for cotton, a handwoven towel warp gave 8.7 %",
)
FRINGE_MM = Default(value=150.0, text="15cm", label=COMMON_PRACTICE)
GAP_MM = Default(value=0.0, text="0cm", label="common practice: the fringes are cut apart")
SAMPLING_MM = Default(value=0.0, text="0cm", label="common practice: ask for it")
LOOM_WASTE_MM = Default(
    value=750.0,
    text="75cm",
    label="common practice on a floor loom, 70 to 90 cm",
)
SLEY_REPEAT = Default(value=2, text="2", label="common practice: two ends in a dent")
SELVEDGE_ENDS = Default(value=0, text="0", label=COMMON_PRACTICE)
WORKING_SHARE = Default(
    value=0.80,
    text="80 %",
    label="common practice: ordinary cloth at 80 % of the closest sett, 75 % where it should drape",
)

SHRINKAGE_RANGES: dict[str, Range] = {
    "wool": Range(low=0.10, high=0.20, label=COMMON_PRACTICE),
    "wool, fulled": Range(low=0.20, high=0.35, label=COMMON_PRACTICE),
    "alpaca": Range(low=0.10, high=0.15, label=COMMON_PRACTICE),
    "cotton": Range(low=0.05, high=0.15, label=COMMON_PRACTICE),
    "linen": Range(low=0.05, high=0.10, label=COMMON_PRACTICE),
    "silk": Range(low=0.03, high=0.08, label=COMMON_PRACTICE),
}
"""Share of the loom size lost in washing, by fibre."""
