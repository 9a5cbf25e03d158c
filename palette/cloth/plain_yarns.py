"""Yarn that is not dyed, or black: what a weaver has at hand without a dye pot."""

from __future__ import annotations

__all__ = ["BLACK", "MID_GREY", "NATURAL", "WHITE"]

Lab = tuple[float, float, float]

# CIELAB D65; typical values, common practice without a published source.
WHITE: Lab = (93.0, -0.5, 4.0)
"""Bleached."""
NATURAL: Lab = (86.0, 1.0, 13.0)
"""Undyed, as it comes from the plant or the sheep."""
MID_GREY: Lab = (55.0, 0.0, 1.0)
"""Half way, as a grey fleece can be."""
BLACK: Lab = (18.0, 0.0, -1.0)
"""Dyed black."""
