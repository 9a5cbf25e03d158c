import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.perception.difference import ciede2000
from palette.perception.names import colour_names, survey
from palette.perception.spaces import hex_to_lab


@pytest.mark.parametrize(
    ("code", "name"),
    [("#ffffff", "white"), ("#000000", "black"), ("#e50000", "red"), ("#658b38", "moss green")],
)
def test_names_of_the_survey_name_themselves(code, name) -> None:
    assert colour_names([hex_to_lab(code)]) == (name,)


def test_nothing_rude_and_no_firms() -> None:
    names, _ = survey()
    bad = re.compile(r"poo|shit|puke|vomit|snot|barf|piss|kermit|barney|windows|tiffany|sick|ugly")
    assert not [name for name in names if bad.search(name)]
    assert len(names) > 780
    assert len(set(names)) == len(names)
    assert all(re.fullmatch(r"[a-z' ]+", name) for name in names)


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 64), st.integers(0, 2**32 - 1))
def test_names_are_unique_even_for_like_colours(count, seed) -> None:
    labs = np.array([40.0, -20.0, 30.0]) + np.random.default_rng(seed).normal(0, 1, (count, 3))
    names = colour_names(labs)
    assert len(set(names)) == count


def test_a_name_is_never_far_from_its_colour() -> None:
    labs = np.array([hex_to_lab(code) for code in ("#5d733a", "#6e503c", "#c5410f", "#a9cdee")])
    names, anchors = survey()
    rows = [names.index(name) for name in colour_names(labs)]
    assert ciede2000(labs, anchors[rows]).max() < 8


def test_no_colours_run_together() -> None:
    colours = ("blue", "green", "red", "yellow", "grey", "brown", "purple", "pink", "orange")
    words = {word for name in survey()[0] for word in name.split()}
    for word in words:
        for first in (*colours, "light", "dark", "pale"):
            assert word.removeprefix(first) not in colours or word in colours, word


@pytest.mark.parametrize("seed", range(6))
def test_the_names_are_dealt_out_as_well_as_among_all_of_the_survey(seed) -> None:
    from scipy.optimize import linear_sum_assignment

    chance = np.random.default_rng(seed)
    labs = np.array([45.0, -15, 25]) + chance.normal(0, 2.5, (12, 3))  # greens near each other
    names, anchors = survey()
    cost = ciede2000(labs[:, None], anchors[None])
    rows, columns = linear_sum_assignment(cost)
    dealt = [names.index(name) for name in colour_names(labs)]
    assert cost[np.arange(12), dealt].sum() == pytest.approx(cost[rows, columns].sum(), rel=0.02)


def test_nobody_can_change_the_survey() -> None:
    with pytest.raises(ValueError, match="read-only"):
        survey()[1][0] = 0
