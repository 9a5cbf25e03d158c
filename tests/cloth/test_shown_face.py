import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.shown_face import face_from_cover, planned_face, shown_face, warp_up_share
from palette.errors import InputError
from palette.loom.draft import PLAIN_WEAVE, Draft

TWO_TWO = Draft(
    name="2/2 twill",
    threading=(1, 2, 3, 4),
    tie_up=((1, 2), (2, 3), (3, 4), (1, 4)),
    treadling=(1, 2, 3, 4),
)
ONE_THREE = Draft(
    name="1/3 twill",
    threading=(1, 2, 3, 4),
    tie_up=((1,), (2,), (3,), (4,)),
    treadling=(1, 2, 3, 4),
)
PER_INCH = 1 / 2.54
NEC_1_TEX = 590.541

covers = st.floats(0.05, 1.9)


@pytest.mark.parametrize(
    ("ends", "picks", "warp_count", "weft_count", "cover"),
    [
        # Peirce, J. Text. Inst. 28 (1937) T45: K1 + K2 - K1 K2 / 28, as a share of 28.
        (64, 64, 30, 36, 0.639),
        (20, 20, 4, 4, 0.587),
        (16.17, 16.17, 1, 1, 0.8214),  # the jammed square plain cloth
    ],
)
def test_what_is_not_gap_is_the_cover_of_peirce(ends, picks, warp_count, weft_count, cover):
    face = shown_face(
        ends_per_cm=ends * PER_INCH,
        picks_per_cm=picks * PER_INCH,
        warp_tex=NEC_1_TEX / warp_count,
        weft_tex=NEC_1_TEX / weft_count,
    )
    assert 1 - face.gap == pytest.approx(cover, abs=6e-4)


@pytest.mark.parametrize(
    ("warp_cover", "weft_cover", "share"),
    [
        # Own arithmetic from the formulas in the module; 8/2 cotton of 1/52.7 inch.
        (20 / 52.7, 20 / 52.7, 0.50),
        (20 / 52.7, 10 / 52.7, 0.69),
        (0.75, 0.25, 0.81),
    ],
)
def test_share_of_the_warp(warp_cover, weft_cover, share):
    assert face_from_cover(warp_cover, weft_cover).warp_share == pytest.approx(share, abs=0.005)


@given(covers, covers, st.floats(0, 1))
def test_parts_sum_to_one(warp_cover, weft_cover, warp_up):
    face = face_from_cover(warp_cover, weft_cover, warp_up)
    assert face.warp + face.weft + face.gap == pytest.approx(1)
    assert min(face.warp, face.weft, face.gap) >= -1e-12


@given(covers, covers, st.floats(0, 1))
def test_turning_the_cloth_round_swaps_the_shares(warp_cover, weft_cover, warp_up):
    face = face_from_cover(warp_cover, weft_cover, warp_up)
    turned = face_from_cover(weft_cover, warp_cover, 1 - warp_up)
    assert (face.warp, face.weft) == pytest.approx((turned.weft, turned.warp))


@given(covers, covers, st.floats(0.01, 0.1))
def test_a_closer_beat_shows_more_weft(warp_cover, weft_cover, more):
    before = face_from_cover(warp_cover, weft_cover)
    after = face_from_cover(warp_cover, weft_cover + more)
    assert after.warp_share <= before.warp_share + 1e-9


def test_a_weft_faced_cloth_hides_its_warp():
    face = face_from_cover(0.3, 2.0)
    assert face.warp_share == pytest.approx(0)
    assert face.kind == "weft-faced"
    assert face_from_cover(2.0, 0.3).kind == "warp-faced"
    assert face_from_cover(0.5, 0.5).kind == "balanced"


def test_longer_weft_floats_show_more_weft():
    cloth = {"ends_per_cm": 9, "picks_per_cm": 9, "warp_tex": 300, "weft_tex": 300}
    plain = shown_face(**cloth, draft=PLAIN_WEAVE).warp_share
    assert shown_face(**cloth, draft=TWO_TWO).warp_share == pytest.approx(plain)
    assert shown_face(**cloth, draft=ONE_THREE).warp_share < plain - 0.05
    assert warp_up_share(ONE_THREE) == 0.25


def test_loftier_yarn_closes_the_cloth():
    cloth = {"ends_per_cm": 6, "picks_per_cm": 6, "warp_tex": 150, "weft_tex": 150}
    assert shown_face(**cloth, volume_cm3_per_g=2.2).gap < shown_face(**cloth).gap


def test_a_planned_cloth_is_counted_after_washing(warp, plan):
    face = planned_face(warp, plan([("moss", 160)]), warp_tex=148, weft_tex=148)
    counted = shown_face(ends_per_cm=8.0, picks_per_cm=8 / 0.9, warp_tex=148, weft_tex=148)
    assert face.warp_share == pytest.approx(counted.warp_share)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((0, 0.5), r"warp cover: must be more than 0, and finite; got 0"),
        ((0.5, float("nan")), r"weft cover: must be more than 0, and finite; got nan"),
        ((0.5, 0.5, 1.5), r"share of crossings with the warp up: must be from 0 to 1; got 1.5"),
    ],
)
def test_refusals(arguments, message):
    with pytest.raises(InputError, match=message):
        face_from_cover(*arguments)
