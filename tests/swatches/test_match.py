"""The best pairing of a palette with a shelf."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab
from palette.swatches.match import NEAR_CIEDE2000, REACH_IN_NEAR, match_shelf
from palette.swatches.palette import Palette, Swatch
from palette.swatches.shelf import Shelf, ShelfYarn

NEARBY = st.tuples(st.integers(40, 55), st.integers(-12, 12), st.integers(-12, 12))
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
    # Grey steps: colour by colour, 50 would take 52 and leave 57 with nothing within reach.
    match = match_shelf(palette_of((50, 0, 0), (57, 0, 0)), shelf_of((52, 0, 0), (45, 0, 0)))
    assert [pairing.yarn.name for pairing in match.pairings] == ["yarn 2", "yarn 1"]
    assert match["colour 1"].nearest.name == "yarn 1"
    assert match["colour 1"].near
    assert match.warnings == ()


def test_a_hopeless_colour_drags_no_good_pair_apart() -> None:
    """Moss is the olive's yarn and bottle the charcoal's; nothing is left for pine, or magenta."""
    colours = ("#38513b", "#5e7638", "#1a291d", "#d15f92")
    yarns = ("#5d733a", "#24382c", "#9dad88")
    match = match_shelf(palette_of(*map(hex_to_lab, colours)), shelf_of(*map(hex_to_lab, yarns)))
    taken = [pairing.yarn and pairing.yarn.name for pairing in match.pairings]
    assert taken == [None, "yarn 1", "yarn 2", None]
    assert match.mean_difference == pytest.approx((1.4 + 4.8) / 2, abs=0.05)
    assert match.warnings == (
        "Nothing on the shelf is near these, so they are left without a yarn: colour 1 (nearest "
        "is yarn 2 at 8.7), colour 4 (nearest is yarn 3 at 48.2).",
    )


@settings(max_examples=60, deadline=None)
@given(
    st.lists(NEARBY, min_size=1, max_size=4),
    st.lists(st.tuples(NEARBY, st.booleans()), min_size=1, max_size=4),
)
def test_no_other_pairing_costs_less(colours, yarns) -> None:
    """Every pairing is tried; going without costs the reach, of which fleece has half."""
    shelf = Shelf(
        file="shelf.csv",
        yarns=tuple(
            ShelfYarn(name=f"yarn {i}", lab=lab, hex="#000000", kind="fleece" if fleece else "yarn")
            for i, (lab, fleece) in enumerate(yarns, start=1)
        ),
    )
    match = match_shelf(palette_of(*colours), shelf)
    differences = ciede2000(
        np.array(colours, float)[:, None], np.array([lab for lab, _ in yarns], float)[None]
    )
    far = NEAR_CIEDE2000 * REACH_IN_NEAR
    reach = [NEAR_CIEDE2000 if fleece else far for _, fleece in yarns]
    choices = [*range(len(yarns)), *[None] * len(colours)]

    def cost(order) -> float:
        each = [
            far if j is None else differences[i, j] if differences[i, j] <= reach[j] else np.inf
            for i, j in enumerate(order)
        ]
        return sum(each)

    best = min(map(cost, set(itertools.permutations(choices, len(colours)))))
    paired = [pairing for pairing in match.pairings if pairing.yarn]
    total = sum(pairing.difference for pairing in paired)
    assert total + far * (len(colours) - len(paired)) == pytest.approx(best)
    assert all(pairing.difference <= (5 if pairing.fleece else 10) for pairing in paired)
    names = [pairing.yarn.name for pairing in paired]
    assert len(set(names)) == len(names)
    assert {yarn.name for yarn in match.unused}.isdisjoint(names)
    if paired:
        assert match.mean_difference == pytest.approx(total / len(paired))
    else:
        assert match.mean_difference is None


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
    assert match.warnings[-1].startswith(
        "Nothing on the shelf is near these, so they are left without a yarn: colour 1 (nearest "
        "is yarn 1 at "
    )
    assert match.mean_difference == pytest.approx(match["colour 2"].difference)


def test_two_colours_alike_and_one_yarn() -> None:
    match = match_shelf(palette_of((50, 0, 0), (53, 0, 0)), shelf_of((52, 0, 0)))
    assert match.warnings == (
        "colour 1: yarn 1 is near (CIEDE2000 2.0) but stands for colour 2. Without it there is no "
        "yarn for this colour.",
    )


def test_the_same_yarn_may_stand_for_two_colours_when_allowed() -> None:
    palette, shelf = (
        palette_of((50, 0, 0), (53, 0, 0), (90, 0, 0)),
        shelf_of((52, 0, 0), (10, 0, 0)),
    )
    match = match_shelf(palette, shelf, reuse=True)
    assert [pairing.yarn and pairing.yarn.name for pairing in match.pairings] == [
        "yarn 1",
        "yarn 1",
        None,
    ]
    assert [yarn.name for yarn in match.unused] == ["yarn 2"]
    (said,) = match.warnings
    assert "left without a yarn: colour 3" in said


def test_fleece_is_taken_only_where_it_is_near() -> None:
    def shelf(kind: str) -> Shelf:
        return shelf_of((57, 0, 0), kind=kind)

    assert match_shelf(palette_of((50, 0, 0)), shelf("yarn"))["colour 1"].yarn
    for reuse in (False, True):
        far = match_shelf(palette_of((50, 0, 0)), shelf("fleece"), reuse=reuse)["colour 1"]
        assert (far.yarn, far.fleece) == (None, False)
        near = match_shelf(palette_of((54, 0, 0)), shelf("fleece"), reuse=reuse)["colour 1"]
        assert near.fleece


def test_what_is_needed_stands_beside_what_is_in_hand() -> None:
    palette = palette_of((50, 0, 0), (53, 0, 0))
    shelf = shelf_of((52, 0, 0), mass_g=40.0)
    needed = {"colour 1": 30.0, "colour 2": 12.4}
    match = match_shelf(palette, shelf, needed_g=needed)
    assert [pairing.needed_g for pairing in match.pairings] == [30.0, 12.4]
    assert not any("in hand" in said for said in match.warnings)
    match = match_shelf(palette, shelf, needed_g=needed, reuse=True)
    assert match.warnings == ("yarn 1: 43 g is needed for colour 1 and colour 2, 40 g is in hand.",)
    assert match_shelf(palette, shelf)["colour 1"].needed_g is None


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
    assert left.yarn is None
    assert left.mixes[0].difference < NEAR_CIEDE2000 * REACH_IN_NEAR - 1
