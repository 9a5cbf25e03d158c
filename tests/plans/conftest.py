"""A small palette that the tests of this stage share."""

import pytest

from palette.perception.spaces import hex_to_lab
from palette.swatches.palette import Palette, Swatch


@pytest.fixture
def hedge() -> Palette:
    """Four colours of a hedge."""
    parts = (("moss", "#5d733a", 0.5), ("straw", "#d9c27a", 0.3), ("rust", "#a4502a", 0.15))
    parts = (*parts, ("chalk", "#ecebe4", 0.05))
    return Palette(
        swatches=tuple(
            Swatch(name=name, lab=hex_to_lab(code), hex=code, share=share, place=(0.5, share))
            for name, code, share in parts
        )
    )
