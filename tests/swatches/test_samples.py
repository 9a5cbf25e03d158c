"""Palettes of the rendered samples against the colours and areas they were made with."""

import json
from pathlib import Path

import pytest

from palette.perception.difference import ciede2000
from palette.photo.reading import read_photo
from palette.swatches.extraction import extract

SAMPLES = Path(__file__).parents[2] / "sample_images"
TRUTH = json.loads((SAMPLES / "truth.json").read_text(encoding="utf-8"))


def found(name: str) -> list[tuple[str, float, float, float]]:
    """Name, true share, difference and share of the nearest swatch, for colours of 3 % or more."""
    swatches = extract(read_photo(SAMPLES / name), 8).swatches
    rows = []
    for colour in TRUTH[name]["colours"]:
        if colour["share"] < 0.03:
            continue
        far = ciede2000(colour["lab"], [swatch.lab for swatch in swatches])
        best = int(far.argmin())
        rows.append((colour["name"], colour["share"], float(far[best]), swatches[best].share))
    return rows


@pytest.mark.parametrize("name", ["striped-cloth.jpg"])
def test_every_colour_of_the_cloth_with_its_share(name) -> None:
    for colour, share, difference, share_found in found(name):
        assert difference < 5, colour
        assert share_found == pytest.approx(share, abs=0.03), colour


@pytest.mark.parametrize(
    ("name", "missed"), [("autumn-hedge-bank.jpg", 1), ("spring-hedge-bank.jpg", 1)]
)
def test_the_colours_of_the_hedge_banks(name, missed) -> None:
    # Leaves in half shade run from one true colour into the next, so one of them may end in
    # a neighbour, a little over 5 away from its own middle.
    rows = found(name)
    assert sum(difference >= 5 for _, _, difference, _ in rows) <= missed
    assert all(difference < 8 for _, _, difference, _ in rows)


def test_the_campion_in_the_hedge_is_an_accent() -> None:
    campion = next(c for c in TRUTH["spring-hedge-bank.jpg"]["colours"] if c["name"] == "campion")
    swatches = extract(read_photo(SAMPLES / "spring-hedge-bank.jpg"), 8).swatches
    assert any(s.accent and ciede2000(s.lab, campion["lab"]) < 3 for s in swatches)
