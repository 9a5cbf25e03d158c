import numpy as np
import pytest

from palette.clusters.patches import SMALLEST_PATCH, ground_of

BOXES = 2


def scene(mask: np.ndarray):
    return ground_of(mask.astype(np.int32), BOXES)


RED = np.array([False, True])


def test_one_piece_of_a_thousandth_is_a_patch() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    mask[50:58, 40:48] = True
    inside = scene(mask).patch(RED)
    assert inside is not None
    assert inside.tolist() == [0, 64]


def test_a_smaller_piece_is_none() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    mask[50:57, 40:47] = True
    assert mask.mean() < SMALLEST_PATCH
    assert scene(mask).patch(RED) is None


def test_a_thin_line_is_none_however_long() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    mask[100:102] = True
    assert scene(mask).patch(RED) is None


def test_strewn_blobs_are_a_patch_together() -> None:
    mask = np.zeros((200, 300), dtype=bool)
    for row in range(10, 190, 20):
        mask[row : row + 5, row : row + 5] = True
    inside = scene(mask).patch(RED)
    assert inside is not None
    assert inside[1] == mask.sum()


@pytest.mark.parametrize("dot", [1, 2])
def test_speckle_is_not_tallied(dot) -> None:
    dots = np.zeros((200, 300), dtype=bool)
    dots[::7, ::9] = True
    dots = dots[: 200 // dot, : 300 // dot].repeat(dot, axis=0).repeat(dot, axis=1)
    assert scene(dots).tally(RED).tolist() == [0, 0]


def test_what_is_no_speckle_is_tallied_whole() -> None:
    mask = np.zeros((40, 50), dtype=bool)
    mask[3:9, 4:20] = True
    mask[0:3, 40:50] = True  # at the edge of the picture
    assert scene(mask).tally(RED).tolist() == [0, 6 * 16 + 3 * 10]


def test_a_large_picture_is_thinned_and_a_patch_stays_its_part() -> None:
    mask = np.zeros((700, 900), dtype=bool)
    mask[100:140, 200:240] = True
    ground = scene(mask)
    inside = ground.patch(RED)
    assert ground.counting < mask.size / 3
    assert inside is not None
    assert inside[1] / ground.counting == pytest.approx(mask.mean(), rel=0.1)


def test_what_does_not_count_is_in_no_patch() -> None:
    where = np.full((200, 300), -1, dtype=np.int32)
    where[:100] = 0
    where[10:30, 10:30] = 1
    ground = ground_of(where, BOXES)
    assert ground.counting == 100 * 300
    inside = ground.patch(np.array([True, True]))
    assert inside is not None
    assert inside.sum() == 100 * 300


@pytest.mark.parametrize(("blobs", "dots", "patch"), [(12, 1200, False), (12, 200, True)])
def test_blobs_among_speckle_must_hold_a_good_part_of_their_colour(blobs, dots, patch) -> None:
    # 12 blobs of 5 x 5 are 300 points; beside 1200 single ones they are chance, beside 200 not.
    mask = np.zeros((200, 300), dtype=bool)
    rows, columns = np.divmod(np.arange(dots) * 4, 300 - 4)
    mask[40 + rows * 4, columns] = True
    for number in range(blobs):
        mask[5:10, 10 + number * 20 : 15 + number * 20] = True
    assert (scene(mask).patch(RED) is not None) == patch


def test_on_a_thinned_map_what_is_two_points_wide_is_no_speckle() -> None:
    # Every second point is looked at, so two of them are four of the picture.
    mask = np.zeros((700, 900), dtype=bool)
    mask[100:600, 200:206] = True
    ground = scene(mask)
    assert ground.core == 2
    assert ground.tally(RED)[1] / ground.counting == pytest.approx(mask.mean(), rel=0.2)
