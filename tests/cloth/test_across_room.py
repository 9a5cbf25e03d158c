import numpy as np
import pytest

from palette.cloth.across_room import across_room, as_pixels, cloth_face, ends_lab
from palette.cloth.weft_yarns import PlainYarn, VariegatedYarn
from palette.cloth.woven_colour import woven_colour
from palette.errors import InputError
from palette.perception.spaces import hex_to_lab, lab_to_linear_srgb, lab_to_srgb8

NATURAL = (89.0, -3.0, 12.0)
BLACK, WHITE = (0.0, 0.0, 0.0), (100.0, 0.0, 0.0)


def test_stripes_have_their_woven_colour_at_their_place(plan, warp):
    cloth = plan([("moss", 80), ("rust", 80)])  # 9 cm each after washing
    face = cloth_face(cloth, warp, NATURAL, pixels_per_cm=10)
    assert face.shape == (180, 100, 3)
    for rows, code in ((slice(90, None), "#5d733a"), (slice(None, 90), "#a3522b")):
        woven = woven_colour(NATURAL, hex_to_lab(code))[0]
        expected = np.broadcast_to(lab_to_linear_srgb(woven), face[rows].shape)
        assert face[rows] == pytest.approx(expected, abs=1e-9)


def test_thin_picks_are_averaged_as_light(plan, warp):
    # IEC 61966-2-1: half the light of black and white is code 187.5. With all weft on the face,
    # two picks to a row of pixels, black and white in turn, a row is the mean of their cloths.
    cloth = plan([("moss", 1), ("rust", 1)] * 40)
    yarns = {"moss": PlainYarn(lab=BLACK), "rust": PlainYarn(lab=WHITE)}
    face = cloth_face(cloth, warp, WHITE, 0.0, yarns=yarns, pixels_per_cm=40 / 9)
    cloths = lab_to_linear_srgb(woven_colour(WHITE, np.array([BLACK, WHITE]), 0.0))
    assert face == pytest.approx(np.broadcast_to(cloths.mean(axis=0), face.shape), abs=1e-9)
    assert as_pixels(face)[0, 0].tolist() == [188, 188, 188]


def test_the_mean_light_does_not_depend_on_the_size(plan, warp):
    cloth = plan([("moss", 13), ("rust", 8), ("fern", 29)])
    means = [
        cloth_face(cloth, warp, NATURAL, pixels_per_cm=size, distance_m=away).mean(axis=(0, 1))
        for size in (3, 7.7, 20)
        for away in (0.0, 3.0)
    ]
    assert np.ptp(means, axis=0).max() < 0.004


def test_from_afar_single_picks_run_together(plan, warp):
    cloth = plan([("moss", 1), ("rust", 1)] * 40)
    near = cloth_face(cloth, warp, NATURAL, pixels_per_cm=40)
    far = cloth_face(cloth, warp, NATURAL, pixels_per_cm=40, distance_m=5.0)
    assert np.ptp(far[100:-100], axis=0).max() < 0.1 * np.ptp(near, axis=0).max()


def test_a_striped_warp_stands_in_its_place(plan, warp):
    ends = np.tile(np.array([NATURAL]), (warp.ends, 1))
    ends[:40] = hex_to_lab("#336699")  # ends 1 to 40: the right half
    face = cloth_face(plan([("moss", 80)]), warp, ends, pixels_per_cm=10)
    left, right = (
        lab_to_linear_srgb(woven_colour(lab, hex_to_lab("#5d733a"))[0])
        for lab in (NATURAL, hex_to_lab("#336699"))
    )
    assert face[5, 10] == pytest.approx(left)
    assert face[5, 90] == pytest.approx(right)


def test_variegated_yarn_pools(plan, warp):
    # A repeat of exactly two picks: the same colour lies above the same place all the way.
    reed = warp.width_in_reed_mm
    yarn = VariegatedYarn(
        colours_lab=(hex_to_lab("#203060"), hex_to_lab("#f0d080"), hex_to_lab("#203060")),
        lengths_mm=(reed / 2, reed, reed / 2),
        soft_mm=0,
    )
    face = cloth_face(plan([("moss", 80)]), warp, NATURAL, yarns={"moss": yarn}, pixels_per_cm=10)
    assert np.ptp(face[:, 10], axis=0).max() < 1e-9
    assert np.all(face[:, 10] > face[:, 90] + 0.05)


def test_take_up_moves_the_pools(plan, warp):
    yarn = {"moss": VariegatedYarn(colours_lab=(BLACK, WHITE), lengths_mm=(118, 118), soft_mm=0)}
    cloth = plan([("moss", 80)])
    straight = cloth_face(cloth, warp, NATURAL, yarns=yarn)
    crimped = cloth_face(cloth, warp, NATURAL, yarns=yarn, weft_take_up=0.1)
    assert np.abs(straight - crimped).max() > 0.1


def test_the_whole_picture_holds_the_cloth_at_true_proportion(plan, warp):
    cloth = plan([("moss", 160)])  # 18 cm of 10 cm width
    bare = across_room(cloth, warp, NATURAL, fringe=False)
    fringed = across_room(cloth, warp, NATURAL)
    assert fringed.shape[0] - bare.shape[0] == 2 * 24  # 3 cm at each end, 8 pixels to the cm
    assert fringed.shape[1] == bare.shape[1]
    wall = bare[0, 0].astype(int)
    inside = np.abs(bare.astype(int) - wall).sum(axis=2) > 120
    rows, columns = np.flatnonzero(inside.any(axis=1)), np.flatnonzero(inside.any(axis=0))
    assert (np.ptp(rows) + 1, np.ptp(columns) + 1) == (144, 80)
    middle = bare[rows[0] : rows[-1], columns[3] : columns[-3]].reshape(-1, 3).mean(axis=0)
    woven = lab_to_srgb8(woven_colour(NATURAL, hex_to_lab("#5d733a"))[0])
    assert middle == pytest.approx(woven, abs=1.0)


def test_a_fringe_is_of_the_warp(plan, warp):
    red = across_room(plan([("moss", 40)]), warp, hex_to_lab("#c02020"))
    strip = red[16:30].reshape(-1, 3).astype(int)
    assert (strip[:, 0] - strip[:, 1]).max() > 80


def test_turned_the_first_pick_is_at_the_left(plan, warp):
    cloth = plan([("moss", 80), ("rust", 80)])
    upright = across_room(cloth, warp, NATURAL)
    turned = across_room(cloth, warp, NATURAL, turned=True)
    assert np.array_equal(turned, np.rot90(upright, -1))
    height, width = turned.shape[:2]
    moss = lab_to_srgb8(woven_colour(NATURAL, hex_to_lab("#5d733a"))[0]).astype(int)
    assert np.abs(turned[height // 2, width // 2 - 30] - moss).max() < 20


def test_the_same_seed_gives_the_same_picture(plan, warp):
    cloth = plan([("moss", 30)])
    first, second = (across_room(cloth, warp, NATURAL, seed=3) for _ in range(2))
    assert np.array_equal(first, second)
    assert not np.array_equal(first, across_room(cloth, warp, NATURAL, seed=4))


def test_refusals(plan, warp):
    cloth = plan([("moss", 30)])
    with pytest.raises(InputError, match=r"picture of the cloth: must give from 1 to 40000000 pix"):
        cloth_face(cloth, warp, NATURAL, pixels_per_cm=5000)
    with pytest.raises(InputError, match=r"one for each of 80 ends; got shape \(3, 3\)"):
        cloth_face(cloth, warp, np.zeros((3, 3)))
    with pytest.raises(InputError, match=r"warp colours: must be one colour"):
        ends_lab((float("nan"), 0, 0), 80)


@pytest.mark.parametrize(
    ("settings", "message"),
    [
        (
            {"pixels_per_cm": float("nan")},
            "pixels per cm: must be more than 0, and finite; got nan",
        ),
        ({"weft_take_up": 1.0}, "weft take-up: must be from 0 to under 1; got 1.0"),
        ({"distance_m": -3.0}, "distance: must be 0 m or more, and finite; got -3.0"),
    ],
)
def test_numbers_that_no_cloth_has(plan, warp, settings, message):
    with pytest.raises(InputError, match=message):
        cloth_face(plan([("moss", 30)]), warp, NATURAL, **settings)


def test_a_seed_is_never_negative(plan, warp):
    with pytest.raises(InputError, match="seed: must be 0 or more; got -1"):
        across_room(plan([("moss", 30)]), warp, NATURAL, seed=-1)


def test_the_eye_tells_one_minute_of_arc(plan, warp):
    # Normal sight, 1.0 on a Snellen chart, tells gaps of one minute of arc: 1.454 mm at 5 m. A
    # blur of twice that at half its height has a standard deviation of 2 x 1.454 / 2.355 mm.
    cloth = plan([("rust", 200), ("moss", 1), ("rust", 200)])
    near, far = (
        cloth_face(cloth, warp, NATURAL, pixels_per_cm=8 / 0.9, distance_m=away)[:, 0, 1]
        for away in (0.0, 5.0)
    )
    pitch_mm = cloth.true_finished_length_mm / cloth.total_picks
    line = far - near[0]
    places = (np.arange(len(line)) - np.abs(near - near[0]).argmax()) * pitch_mm
    deviation = np.sqrt((line * places**2).sum() / line.sum())
    assert deviation == pytest.approx(2 * 1.454 / 2.355, rel=0.05)
