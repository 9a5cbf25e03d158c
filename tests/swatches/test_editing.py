import pytest

from palette.errors import InputError
from palette.swatches.editing import in_order, merge, with_munsell
from palette.swatches.palette import Palette, Swatch


def swatch(name: str, share: float, place=(0.5, 0.5), lab=(50.0, 0.0, 0.0), **more) -> Swatch:
    return Swatch(name=name, lab=lab, hex="#777777", share=share, place=place, **more)


@pytest.fixture
def palette() -> Palette:
    return Palette(
        swatches=(
            swatch("sky", 0.5, (0.5, 0.1), (80.0, -5.0, -20.0)),
            swatch("moss", 0.3, (0.2, 0.9), (45.0, -15.0, 30.0)),
            swatch("leaf", 0.2, (0.8, 0.4), (60.0, -20.0, 40.0), accent=True),
        )
    )


def test_merging_adds_shares_and_keeps_the_larger_colour(palette) -> None:
    merged = merge(palette, [["leaf", "moss"]])
    assert [s.name for s in merged.swatches] == ["moss", "sky"] or [
        s.name for s in merged.swatches
    ] == ["sky", "moss"]
    moss = merged["moss"]
    assert moss.share == pytest.approx(0.5)
    assert moss.lab == (45.0, -15.0, 30.0)
    assert moss.place == pytest.approx((0.44, 0.7))
    assert not moss.accent
    assert merged.warnings == ("leaf merged into moss",)


@pytest.mark.parametrize(
    ("groups", "words"),
    [
        ([["moss"]], "must name two colours or more; got moss"),
        ([["moss", "moss"]], "must name two colours or more; got moss, moss"),
        ([[]], "must name two colours or more; got none"),
        (
            [["moss", "plum"]],
            r"must name colours of the palette; got 'plum'\. It has sky, moss, leaf",
        ),
        ([["moss", "sky"], ["leaf", "sky"]], "must name each colour once; got sky twice"),
    ],
)
def test_merging_what_is_not_there(palette, groups, words) -> None:
    with pytest.raises(InputError, match=f"^--merge: {words}"):
        merge(palette, groups)


def test_order_as_the_colours_stand(palette) -> None:
    assert [s.name for s in in_order(palette)] == ["sky", "leaf", "moss"]
    assert [s.name for s in in_order(palette, "across")] == ["moss", "sky", "leaf"]


def test_colours_at_one_height_go_from_light_to_dark() -> None:
    level = Palette(
        swatches=(
            swatch("dark", 0.5, (0.5, 0.501), (20.0, 0.0, 0.0)),
            swatch("light", 0.5, (0.5, 0.504), (90.0, 0.0, 0.0)),
        )
    )
    assert [s.name for s in in_order(level)] == ["light", "dark"]


def test_an_unknown_direction(palette) -> None:
    with pytest.raises(InputError, match=r"^direction: must be down or across; got 'up'"):
        in_order(palette, "up")


def test_munsell_of_a_grey() -> None:
    grey = Palette(swatches=(swatch("grey", 1.0),))
    assert with_munsell(grey)["grey"].munsell == "N 4.9"
