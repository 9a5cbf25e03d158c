"""The best pairing of a palette with a shelf."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab
from palette.swatches.match import NEAR_CIEDE2000, match_shelf
from palette.swatches.palette import Palette, Swatch
from palette.swatches.shelf import Shelf, ShelfYarn

LAB = st.tuples(st.integers(5, 95), st.integers(-60, 60), st.integers(-60, 60))


def palette_of(*labs: tuple[float, float, float]) -> Palette:
    swatches = [
        Swatch(name=f"colour {i}", lab=lab, hex="#000000", share=1 / len(labs))
        for i, lab in enumerate(labs, start=1)
    ]
    return Palette(swatches=tuple(swatches))


def shelf_of(*labs: tuple[float, float, float], **more) -> Shelf:
    yarns = [
        ShelfYarn(name=f"yarn {i}", lab=lab, hex="#000000", **more)
        for i, lab in enumerate(labs, start=1)
    ]
    return Shelf(file="shelf.csv", yarns=tuple(yarns))


def test_the_pairing_is_best_overall_and_not_greedy() -> None:
    # Grey steps: colour by colour, 50 would take 52 and leave 60 with the yarn at 30.
    match = match_shelf(palette_of((50, 0, 0), (60, 0, 0)), shelf_of((52, 0, 0), (30, 0, 0)))
    assert [pairing.yarn.name for pairing in match.pairings] == ["yarn 2", "yarn 1"]
    assert match["colour 1"].nearest.name == "yarn 1"
    assert match.warnings == (
        "Nothing on the shelf comes within CIEDE2000 5 of: colour 2.",
        "colour 1: yarn 1 is near (CIEDE2000 2.0) but stands for colour 2.",
    )


@settings(max_examples=40, deadline=None)
@given(st.lists(LAB, min_size=1, max_size=4), st.lists(LAB, min_size=1, max_size=5))
def test_no_other_pairing_is_nearer(colours, yarns) -> None:
    match = match_shelf(palette_of(*colours), shelf_of(*yarns))
    differences = ciede2000(np.array(colours, float)[:, None], np.array(yarns, float)[None])
    paired = min(len(colours), len(yarns))
    best = min(
        sum(differences[i, j] for i, j in zip(some, order, strict=True))
        for some in itertools.combinations(range(len(colours)), paired)
        for order in itertools.permutations(range(len(yarns)), paired)
    )
    total = sum(pairing.difference for pairing in match.pairings if pairing.difference is not None)
    assert total == pytest.approx(best)
    names = [pairing.yarn.name for pairing in match.pairings if pairing.yarn]
    assert len(set(names)) == len(names) == paired
    assert {yarn.name for yarn in match.unused}.isdisjoint(names)
    assert match.mean_difference == pytest.approx(best / paired)


@settings(max_examples=30, deadline=None)
@given(st.lists(LAB, min_size=2, max_size=6, unique=True), st.randoms())
def test_the_order_of_the_shelf_decides_nothing(labs, random) -> None:
    shelf = shelf_of(*labs)
    shuffled = list(shelf.yarns)
    random.shuffle(shuffled)
    palette = palette_of(*labs[:2])
    one = match_shelf(palette, shelf)
    other = match_shelf(palette, Shelf(file=shelf.file, yarns=tuple(shuffled)))
    assert one.pairings == other.pairings


def test_a_shelf_that_holds_the_palette_is_found_again() -> None:
    labs = ((45.0, -15.0, 30.0), (40.0, 30.0, 35.0), (90.0, 1.0, 8.0))
    match = match_shelf(palette_of(*labs), shelf_of(*reversed(labs)))
    assert [pairing.yarn.lab for pairing in match.pairings] == list(labs)
    assert all(pairing.difference == pytest.approx(0) for pairing in match.pairings)
    assert match.without_near == ()
    assert match.unused == ()
    assert match.warnings == ()


def test_fewer_yarns_than_colours_leave_the_farthest_without() -> None:
    match = match_shelf(palette_of((20, 0, 0), (50, 0, 0), (80, 0, 0)), shelf_of((52, 0, 0)))
    assert [pairing.yarn and pairing.yarn.name for pairing in match.pairings] == [
        None,
        "yarn 1",
        None,
    ]
    assert match["colour 1"].difference is None
    assert match["colour 1"].nearest.name == "yarn 1"
    assert "Fewer yarns than colours; without a yarn: colour 1, colour 3." in match.warnings


def test_the_same_yarn_may_stand_for_two_colours_when_allowed() -> None:
    palette, shelf = palette_of((50, 0, 0), (53, 0, 0)), shelf_of((52, 0, 0), (10, 0, 0))
    match = match_shelf(palette, shelf, reuse=True)
    assert [pairing.yarn.name for pairing in match.pairings] == ["yarn 1", "yarn 1"]
    assert [yarn.name for yarn in match.unused] == ["yarn 2"]
    assert match.warnings == ()


def test_the_threshold_is_what_a_camera_can_tell() -> None:
    # A realistic floor for camera colour is 3 to 5 CIEDE2000: common practice, from memory.
    assert NEAR_CIEDE2000 == 5.0
    palette, shelf = palette_of((50, 0, 0)), shelf_of((54, 0, 0))
    assert match_shelf(palette, shelf)["colour 1"].near
    assert not match_shelf(palette, shelf, near=2)["colour 1"].near
    for bad in (0, -1, float("nan")):
        with pytest.raises(InputError, match="--near: must be more than 0; got"):
            match_shelf(palette, shelf, near=bad)


def test_yarns_that_are_used_up_are_left_out() -> None:
    empty = shelf_of((50, 0, 0), mass_g=0.0)
    with pytest.raises(InputError, match="shelf: must have a yarn with more than 0 g left"):
        match_shelf(palette_of((50, 0, 0)), empty)
    left = ShelfYarn(name="left", lab=(60, 0, 0), hex="#000000", mass_g=4.0)
    match = match_shelf(palette_of((50, 0, 0)), Shelf(file="shelf.csv", yarns=(*empty.yarns, left)))
    assert match["colour 1"].yarn == left
    assert "Left out, 0 g in hand: yarn 1." in match.warnings


def test_undyed_fleece_counts_as_a_yarn_but_is_not_plied() -> None:
    white = ShelfYarn(name="white", lab=(92, 0, 8), hex="#eee7d8", kind="fleece", undyed=True)
    black = ShelfYarn(name="black", lab=(15, 0, 0), hex="#262626")
    match = match_shelf(
        palette_of((90, 1, 8), (60, 0, 0)), Shelf(file="shelf.csv", yarns=(white, black))
    )
    assert match["colour 1"].yarn == white
    assert match["colour 2"].mixes == ()


def test_two_yarns_come_nearer_where_none_is_near() -> None:
    # 50/50 of sRGB (87,108,67) and (214,126,44) in linear light: (166.5, 117.4, 56.8).
    wanted = hex_to_lab("#a67539")
    shelf = shelf_of(hex_to_lab("#576c43"), hex_to_lab("#d67e2c"), (5, 0, 0))
    mix = match_shelf(palette_of(wanted), shelf)["colour 1"].mixes[0]
    assert (mix.yarns, mix.parts) == (("yarn 1", "yarn 2"), (1, 1))
    assert mix.difference < 0.5
    assert mix.contrast == pytest.approx(float(ciede2000(shelf.yarns[0].lab, shelf.yarns[1].lab)))
    assert mix.words == (
        "ply 1 strand of yarn 1 with 1 of yarn 2, or throw 1 pick of yarn 1 and 1 of yarn 2 in turn"
    )


def test_no_mix_is_offered_for_a_colour_that_has_a_near_yarn() -> None:
    match = match_shelf(palette_of((50, 0, 0)), shelf_of((52, 0, 0), (40, 0, 0), (60, 0, 0)))
    assert match["colour 1"].mixes == ()
    with pytest.raises(KeyError):
        match["colour 9"]


def test_a_mix_has_to_beat_the_nearest_yarn_even_where_that_is_taken() -> None:
    palette = palette_of((50, 10, 0), (50, 70, 0))
    shelf = shelf_of((50, 40, 0), (90, 0, -40), (10, 0, 40))
    match = match_shelf(palette, shelf)
    assert match.without_near == ("colour 1", "colour 2")
    for pairing in match.pairings:
        assert all(mix.difference <= pairing.nearest_difference - 1 for mix in pairing.mixes)


def test_where_the_near_yarn_is_taken_a_mix_that_beats_the_other_is_offered() -> None:
    palette = palette_of((50, 0, 0), (51, 0, 0))
    match = match_shelf(palette, shelf_of((50, 0, 0), (70, 0, 0), (30, 0, 0)))
    left = next(pairing for pairing in match.pairings if not pairing.near)
    assert left.anything_near
    assert left.mixes[0].difference < left.difference - 1
