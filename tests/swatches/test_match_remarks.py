"""What is said beside the pairs."""

from palette.swatches.match import match_shelf
from palette.swatches.palette import Palette, Swatch
from palette.swatches.shelf import Shelf, ShelfYarn


def test_the_near_the_far_and_the_hopeless_are_told_apart() -> None:
    lightness = (("near", 50), ("far", 70), ("hopeless", 95))
    palette = Palette(
        swatches=tuple(
            Swatch(name=name, lab=(value, 0, 0), hex="#000000", share=1 / 3)
            for name, value in lightness
        )
    )
    yarns = (
        ShelfYarn(name="mid", lab=(52, 0, 0), hex="#000000", mass_g=90.0),
        ShelfYarn(name="pale", lab=(78, 0, 0), hex="#000000", mass_g=10.0),
        ShelfYarn(name="spent", lab=(95, 0, 0), hex="#000000", mass_g=0.0),
    )
    match = match_shelf(palette, Shelf(file="s.csv", yarns=yarns), needed_g={"far": 10.2})
    assert match.warnings == (
        "Left out, 0 g in hand: spent.",
        "Nothing on the shelf comes within CIEDE2000 5 of these; the best there is stands in: "
        "far (pale at 5.9).",
        "Nothing on the shelf is near these, so they are left without a yarn: hopeless (nearest "
        "is pale at 11.0).",
        "pale: 11 g is needed for far, 10 g is in hand.",
    )
