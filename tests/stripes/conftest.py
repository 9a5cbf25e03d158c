"""Palettes that several tests of stripes share."""

from dataclasses import replace

import pytest

from palette.perception.spaces import hex_to_lab
from palette.swatches.palette import Palette, Swatch

HEDGE = (  # name, hex, per cent, place in the photograph
    ("moss", "#5d733a", 30, (0.5, 0.6)),
    ("fern", "#8aa34a", 22, (0.4, 0.4)),
    ("bark", "#5b4636", 14, (0.6, 0.8)),
    ("sky", "#b9cdd6", 12, (0.5, 0.05)),
    ("straw", "#d9c98c", 10, (0.3, 0.5)),
    ("plum", "#7c4a6a", 6, (0.7, 0.7)),
    ("primrose", "#f0e36a", 4, (0.2, 0.55)),
    ("white", "#f4f2ea", 2, (0.9, 0.3)),
)


@pytest.fixture
def hedge() -> Palette:
    """Give eight colours of a hedge bank in spring."""
    return Palette(
        swatches=tuple(
            Swatch(name=name, hex=code, lab=hex_to_lab(code), share=part / 100, place=place)
            for name, code, part, place in HEDGE
        )
    )


@pytest.fixture
def pair(hedge: Palette) -> Palette:
    """Give two colours, three to one."""
    moss, _, _, sky, *_ = hedge.swatches
    return Palette(swatches=(replace(moss, share=0.75), replace(sky, share=0.25)))
