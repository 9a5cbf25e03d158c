import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.cloth.search import DARKEST, LIGHTEST, nearest_yarn
from palette.cloth.shown_face import planned_face
from palette.cloth.wanted import REACHED, Covers, weft_to_dye
from palette.cloth.woven_colour import woven_colour
from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_hex, srgb8_to_lab

NATURAL = (89.0, -3.0, 12.0)
yarns = st.tuples(*[st.integers(40, 225)] * 3).map(
    lambda code: tuple(float(value) for value in srgb8_to_lab(code))
)


@settings(max_examples=12, deadline=None)
@given(yarns, yarns, st.floats(0.05, 0.75))
def test_the_weft_of_a_cloth_is_found_again(warp, weft, share):
    cloth = tuple(float(value) for value in woven_colour(warp, weft, share)[0])
    answer = weft_to_dye(cloth, warp, share)
    assert answer.reached
    assert answer.difference < 0.1
    assert woven_colour(warp, answer.weft_lab, share)[0] == pytest.approx(answer.cloth_lab)
    assert answer.changes == ()
    assert f"Dye the weft {answer.weft_hex}" in answer.advice


def test_out_of_reach_the_nearest_and_what_helps():
    answer = weft_to_dye((45.0, 50.0, 45.0), NATURAL)
    assert not answer.reached
    assert answer.difference == pytest.approx(
        float(ciede2000(answer.cloth_lab, answer.wanted_lab)), abs=0.05
    )
    helped = [change.difference for change in answer.changes]
    assert helped == sorted(helped)
    assert helped[0] < REACHED
    kinds = " ".join(change.what for change in answer.changes)
    for word in ("warp", "closer beat", "weft-faced sett", "longer weft floats"):
        assert word in kinds
    assert "No weft gives this colour on this warp" in answer.advice
    assert f"is {answer.difference:.1f} off" in answer.advice
    assert f"What helps most: {answer.changes[0].what}" in answer.advice
    assert f"typical error of {answer.typical_error:.1f}" in answer.advice


def test_every_change_brings_what_it_says():
    answer = weft_to_dye((30.0, 10.0, -50.0), NATURAL)
    for change in answer.changes:
        cloth = woven_colour(change.warp_lab, change.weft_lab, change.warp_share)[0]
        assert float(ciede2000(cloth, answer.wanted_lab)) == pytest.approx(
            change.difference, abs=0.05
        )
        assert change.difference < answer.difference


def test_nothing_nearer_is_dyeable():
    # The nearest by a plain search over every sixteenth code.
    wanted = (45.0, 50.0, 45.0)
    codes = range(0, 256, 16)
    grid = srgb8_to_lab([[red, green, blue] for red in codes for green in codes for blue in codes])
    grid = grid[(grid[:, 0] >= DARKEST) & (grid[:, 0] <= LIGHTEST)]
    best = ciede2000(woven_colour(NATURAL, grid), wanted).min()
    assert weft_to_dye(wanted, NATURAL).difference <= best + 0.02


@settings(max_examples=15, deadline=None)
@given(yarns, yarns)
def test_the_weft_can_be_dyed(wanted, warp):
    weft, cloth, difference = nearest_yarn(lambda wefts: woven_colour(warp, wefts), wanted)
    assert DARKEST - 0.05 <= weft[0] <= LIGHTEST + 0.05
    assert lab_to_hex(weft)[1]
    assert float(ciede2000(cloth, wanted)) == pytest.approx(difference, abs=0.5)


def test_the_share_comes_from_the_covers():
    covers = Covers(warp=0.25, weft=0.75)
    answer = weft_to_dye((50.0, 20.0, 20.0), NATURAL, covers=covers)
    assert answer.warp_share == pytest.approx(covers.warp_share)
    assert covers.warp_share < 0.25


def test_covers_of_a_planned_cloth(plan, warp):
    cloth = plan([("moss", 160)])
    covers = Covers.planned(warp, cloth, warp_tex=150, weft_tex=200)
    face = planned_face(warp, cloth, warp_tex=150, weft_tex=200)
    assert covers.warp_share == pytest.approx(face.warp_share)


def test_where_only_warp_shows_no_weft_helps():
    answer = weft_to_dye((40.0, 30.0, 0.0), NATURAL, 1.0)
    assert answer.difference > 20
    assert answer.changes[0].difference < 5


def test_the_search_gives_the_same_answer_every_time():
    def woven(wefts):
        return woven_colour(NATURAL, wefts)

    first, second = (nearest_yarn(woven, (60.0, 0.0, 20.0)) for _ in range(2))
    assert first[2] == second[2]
    assert first[0].tolist() == second[0].tolist()


@settings(max_examples=12, deadline=None)
@given(st.floats(0.05, 3.0), st.floats(0.05, 3.0), st.floats(0.05, 0.95), st.floats(0.0, 1.0))
def test_changes_of_any_cloth_have_a_share_that_can_be(warp, weft, warp_up, share):
    # From open cloth to one where a yarn is covered altogether (covers of 2 and more).
    covers = Covers(warp=warp, weft=weft, warp_up=warp_up)
    answer = weft_to_dye((50.0, 80.0, 60.0), (90.0, 0.0, 0.0), share, covers=covers)
    assert all(0 <= change.warp_share <= 1 for change in answer.changes)


def test_a_warp_that_does_not_show_does_not_matter():
    covers = Covers(warp=0.3, weft=2.4)
    assert covers.warp_share == 0
    one, other = (
        weft_to_dye((95.0, -10.0, 95.0), warp, 0.0, covers=covers) for warp in (NATURAL, (20, 0, 0))
    )
    assert one.weft_lab == pytest.approx(other.weft_lab, abs=0.5)
    assert not one.reached
