from dataclasses import replace

import pytest

from palette.errors import InputError
from palette.perception.spaces import hex_to_lab
from palette.stripes.edges import Edge
from palette.stripes.planning import plan_stripes
from palette.stripes.recolouring import recolour
from palette.swatches.palette import Palette, Swatch

AUTUMN = (("ochre", "#c98a2b", 0.5), ("rust", "#a84f28", 0.3), ("ink", "#23262e", 0.2))


@pytest.fixture
def autumn() -> Palette:
    return Palette(
        swatches=tuple(
            Swatch(name=name, hex=code, lab=hex_to_lab(code), share=share)
            for name, code, share in AUTUMN
        )
    )


def test_rank_by_share_puts_the_largest_where_most_picks_are(
    pair: Palette, autumn: Palette
) -> None:
    plan = plan_stripes(pair, length_mm=900, picks_per_cm=8, order="mirrored")
    other = recolour(plan, autumn)
    assert [s.picks for s in other.stripes] == [s.picks for s in plan.stripes]
    assert other.palette == autumn
    assert other.picks_of("ochre") == plan.picks_of("moss")
    assert other.picks_of("rust") == plan.picks_of("sky")
    assert other.warnings == (
        "Not at their shares: ochre 600 picks (400 by its share of 50.0 %), "
        "rust 200 picks (240 by its share of 30.0 %), ink 0 picks (160 by its share of 20.0 %).",
    )


def test_rank_by_lightness_keeps_light_and_dark_in_their_places(
    pair: Palette, autumn: Palette
) -> None:
    plan = plan_stripes(pair, length_mm=900, picks_per_cm=8)
    other = recolour(plan, autumn, by="lightness")
    assert other.picks_of("ochre") == plan.picks_of("sky")
    assert other.picks_of("rust") == plan.picks_of("moss")


def test_colours_can_be_named(pair: Palette, autumn: Palette) -> None:
    plan = plan_stripes(pair, length_mm=900, picks_per_cm=8)
    other = recolour(plan, autumn, colours={"moss": "ink", "sky": "ink"})
    assert other.colours == ("ink",)


def test_hems_follow_unless_they_are_to_stay(pair: Palette, autumn: Palette) -> None:
    plan = plan_stripes(
        pair,
        length_mm=900,
        picks_per_cm=8,
        edges=(Edge(picks=10, colour="linen", hex="#aabbcc"), Edge(picks=4, colour="moss")),
    )
    followed = recolour(plan, autumn).stripes
    assert [s.colour for s in followed[:2]] == ["linen", "ochre"]
    kept = recolour(plan, autumn, edges=False).stripes
    assert [s.colour for s in kept[:2]] == ["linen", "moss"]


def test_too_few_colours_and_unknown_names_are_refused(
    hedge: Palette, pair: Palette, autumn: Palette
) -> None:
    plan = plan_stripes(hedge, length_mm=900, picks_per_cm=8)
    with pytest.raises(InputError, match="must have at least 8 colours, as many as the stripes"):
        recolour(plan, autumn)
    small = plan_stripes(pair, length_mm=900, picks_per_cm=8)
    with pytest.raises(InputError, match=r"must name a colour of the stripes \(.*\); got 'teal'"):
        recolour(small, autumn, colours={"teal": "ink"})
    with pytest.raises(InputError, match=r"must name one of its colours \(ochre, rust, ink\)"):
        recolour(small, autumn, colours={"moss": "teal"})
    with pytest.raises(InputError, match="colourway: must be matched by share or lightness"):
        recolour(small, autumn, by="hue")


def test_another_palette_and_back_is_the_same_cloth(pair: Palette) -> None:
    plan = plan_stripes(pair, length_mm=900, picks_per_cm=8)
    renamed = Palette(swatches=tuple(replace(s, name=f"new {s.name}") for s in pair.swatches))
    assert recolour(recolour(plan, renamed), pair).stripes == plan.stripes
