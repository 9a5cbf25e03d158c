"""What a weaver assumes of yarn when she says nothing, each with where it comes from.

A value without a published source says "common practice". Every one of them is an input.
"""

from __future__ import annotations

from palette.loom.defaults import COMMON_PRACTICE, Default, Range

__all__ = [
    "ALLOWANCE",
    "COUNT",
    "TAIL_MM",
    "WEFT_TAKE_UP",
    "Default",
    "Range",
]

COUNT = "NeC 8/2"
"""Yarn count where none is given: two-ply cotton, common practice."""

WEFT_TAKE_UP = Default(
    value=0.0,
    text="0 %",
    label="the width in the reed is the length of a pick (Taylor, Cotton Weaving and Designing; "
    "Brooks, Cotton Manufacturing)",
)
TAIL_MM = Default(
    value=70.0,
    text="7cm",
    label="common practice: 5 to 8 cm at each start and each end of a weft",
)
ALLOWANCE = Default(value=0.10, text="10 %", label=COMMON_PRACTICE)
