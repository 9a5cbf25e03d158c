import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.stripes.lines import LINES, line_of
from palette.stripes.material import Material

LABS = st.tuples(st.floats(0, 100), st.floats(-80, 80), st.floats(-80, 80))
PLACES = st.tuples(st.floats(0, 1), st.floats(0, 1))


def material(
    labs: list[tuple[float, float, float]],
    places: list[tuple[float, float]] | None = None,
    direction: str = "top-bottom",
    inner: str = "photo",
) -> Material:
    count = len(labs)
    return Material(
        names=tuple(f"c{i}" for i in range(count)),
        labs=tuple(labs),
        places=tuple(places or [(0.5, 0.5)] * count),
        parts=(10.0,) * count,
        least=(1,) * count,
        most=(10 * count,) * count,
        total=10 * count,
        direction=direction,
        inner=inner,
    )


@given(st.lists(LABS, min_size=1, max_size=8), st.sampled_from(list(LINES)))
def test_every_colour_stands_in_a_line_once(
    labs: list[tuple[float, float, float]], line: str
) -> None:
    assert sorted(LINES[line](material(labs))) == list(range(len(labs)))


@given(st.lists(PLACES, min_size=1, max_size=8))
def test_photo_order_follows_the_direction(places: list[tuple[float, float]]) -> None:
    labs = [(50.0, 0.0, 0.0)] * len(places)
    for direction, axis, sign in (
        ("top-bottom", 1, 1),
        ("bottom-top", 1, -1),
        ("left-right", 0, 1),
        ("right-left", 0, -1),
    ):
        line = LINES["photo"](material(labs, places, direction))
        along = [sign * places[i][axis] for i in line]
        assert along == sorted(along)


@given(st.lists(LABS, min_size=1, max_size=8))
def test_light_to_dark_never_gets_lighter(labs: list[tuple[float, float, float]]) -> None:
    lightness = [labs[i][0] for i in LINES["light-dark"](material(labs))]
    assert lightness == sorted(lightness, reverse=True)
    assert LINES["dark-light"](material(labs)) == LINES["light-dark"](material(labs))[::-1]


def test_hue_goes_round_from_the_widest_gap_and_ends_in_grey() -> None:
    def at(degrees: float) -> tuple[float, float, float]:
        angle = math.radians(degrees)
        return (50.0, 40 * math.cos(angle), 40 * math.sin(angle))

    labs = [at(10), at(350), at(120), (80.0, 1.0, 0.0), at(60), (20.0, 0.0, 1.0)]
    assert LINES["hue"](material(labs)) == (1, 0, 4, 2, 3, 5)


def test_nearest_begins_at_its_lighter_end() -> None:
    labs = [(60.0, 0.0, 0.0), (20.0, 0.0, 0.0), (90.0, 0.0, 0.0), (40.0, 0.0, 0.0)]
    assert LINES["nearest"](material(labs)) == (2, 0, 3, 1)


def test_unknown_words_are_refused() -> None:
    with pytest.raises(InputError, match="direction: must be one of top-bottom, bottom-top"):
        LINES["photo"](material([(50.0, 0.0, 0.0)], direction="up"))
    with pytest.raises(InputError, match="inner order: must be one of photo, light-dark"):
        line_of(material([(50.0, 0.0, 0.0)], inner="mirrored"))
