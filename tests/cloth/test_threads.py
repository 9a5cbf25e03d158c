import numpy as np
import pytest

from palette.cloth.hanging import WALL, hang
from palette.cloth.threads import lie_of, light_on, shadow_of, streaks, wander


def thread(across, up_here=1.0, up_next=-1.0, part=0.0):
    """One vertical thread over points side by side."""
    across = np.array([across], dtype=np.float32)
    alike = np.ones_like(across)
    return lie_of(
        across=across,
        along=0 * alike,
        up_here=up_here * alike,
        up_next=up_next * alike,
        part=part * alike,
        pitch=4.0,
    )


def test_a_thread_is_highest_along_its_middle():
    lie = thread([-0.9, -0.4, 0.0, 0.4, 0.9])
    assert lie.height[0].argmax() == 2
    assert lie.height[0, 0] == pytest.approx(lie.height[0, 4])
    assert thread([-1.2, 1.2]).height.max() < -5  # beyond its edges it is not there


def test_it_goes_from_over_to_under():
    heights = [float(thread([0.0], part=part).height[0, 0]) for part in (0, 0.25, 0.5, 0.75, 1)]
    assert heights == sorted(heights, reverse=True)
    assert thread([0.0], part=0.5).slope[0, 0] < 0
    assert thread([0.0], part=0.0).slope[0, 0] == 0


def test_light_falls_from_the_upper_left():
    still = np.zeros((1, 2), dtype=np.float32)
    body, gloss = light_on(thread([-0.6, 0.6]), vertical=True, hair=still)
    assert body[0, 0] > 1.1 * body[0, 1]
    # Thrown across the picture, the upper side is the bright one.
    body, gloss = light_on(thread([-0.6, 0.6]), vertical=False, hair=still)
    assert body[0, 0] > 1.1 * body[0, 1]
    assert 0 <= gloss.min() <= gloss.max() < 0.1


def test_the_shadow_lies_beside_a_thread_on_top():
    assert shadow_of(thread([1.1, 2.5]))[0, 0] > 0.5
    assert shadow_of(thread([1.1, 2.5]))[0, 1] < 0.01
    assert shadow_of(thread([1.1], up_here=-1.0, up_next=-1.0))[0, 0] == 0


def test_streaks_run_along_the_thread():
    field = streaks((60, 80), np.random.default_rng(0), vertical=True)
    assert field.shape == (60, 80)
    assert field.std() == pytest.approx(1, abs=0.15)
    assert np.diff(field, axis=0).std() < 0.6 * np.diff(field, axis=1).std()


def test_threads_wander_slowly_by_the_size_asked():
    places = np.linspace(0, 200, 2000)
    lines = wander(300, places, 0.05, np.random.default_rng(0))
    assert lines.shape == (300, 2000)
    assert lines.std() == pytest.approx(0.05, rel=0.15)
    assert np.abs(np.diff(lines, axis=1)).max() < 0.03


def test_the_wall_is_what_is_left_round_a_cloth():
    surface = np.full((60, 40, 3), 0.2)
    light = hang(surface, np.full((30, 3), 0.8), 20, 8.0, np.random.default_rng(0))
    assert light[0, 0] == pytest.approx(WALL, abs=0.02)
    top, left = (light.shape[0] - 60) // 2, (light.shape[1] - 40) // 2
    assert light[top + 30, left + 20] == pytest.approx([0.2] * 3, abs=1e-6)
    # The shadow falls to the right of the cloth, not to its left.
    assert light[top + 30, left + 42, 0] < light[top + 30, left - 3, 0] - 0.05
