"""Accents in the rendered samples; their other colours are held against the truth elsewhere."""

import json
from pathlib import Path

import pytest

from palette.perception.difference import ciede2000
from palette.photo.reading import read_photo
from palette.swatches.extraction import extract

SAMPLES = Path(__file__).parents[2] / "sample_images"
TRUTH = json.loads((SAMPLES / "truth.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("flower", ["campion", "stitchwort", "celandine"])
def test_the_flowers_in_the_hedge_are_accents_among_eight(flower) -> None:
    truth = next(c for c in TRUTH["spring-hedge-bank.jpg"]["colours"] if c["name"] == flower)
    swatches = extract(read_photo(SAMPLES / "spring-hedge-bank.jpg"), 8).swatches
    [found] = [s for s in swatches if s.accent and ciede2000(s.lab, truth["lab"]) < 3]
    assert found.share == pytest.approx(truth["share"], abs=0.005)


def test_the_berries_of_autumn_are_accents_among_twelve() -> None:
    swatches = extract(read_photo(SAMPLES / "autumn-hedge-bank.jpg"), 12).swatches
    for name in ("rose hips", "spindle berries"):
        truth = next(c for c in TRUTH["autumn-hedge-bank.jpg"]["colours"] if c["name"] == name)
        assert any(s.accent and ciede2000(s.lab, truth["lab"]) < 3 for s in swatches), name


def test_the_cloth_has_no_accent() -> None:
    swatches = extract(read_photo(SAMPLES / "striped-cloth.jpg"), 8).swatches
    assert not any(swatch.accent for swatch in swatches)
