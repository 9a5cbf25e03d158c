"""Pictures of known colours, made afresh in every format."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

LEAF, EARTH = (93, 115, 58), (110, 80, 60)


@pytest.fixture
def two_colours() -> np.ndarray:
    """Upper half leaf green, lower half earth, 40 x 30."""
    pixels = np.empty((30, 40, 3), dtype=np.uint8)
    pixels[:15], pixels[15:] = LEAF, EARTH
    return pixels


@pytest.fixture
def saved(tmp_path: Path, two_colours: np.ndarray):
    """Function that saves the two colours and gives the path."""

    def save(name: str, mode: str = "RGB", **options) -> Path:
        path = tmp_path / name
        Image.fromarray(two_colours).convert(mode).save(path, **options)
        return path

    return save
