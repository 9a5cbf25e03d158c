"""Two yarns mixed by area in linear light."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab, lab_to_srgb8, lab_to_xyz
from palette.swatches.match_difference import ranking_difference
from palette.swatches.match_mixes import mix_in_light, nearer_mixes
from palette.swatches.shelf import ShelfYarn

LAB = st.tuples(st.floats(5, 95), st.floats(-50, 50), st.floats(-50, 50))


def yarn(name: str, lab, tex: float | None = None) -> ShelfYarn:
    return ShelfYarn(name=name, lab=tuple(map(float, lab)), hex="#000000", tex=tex)


def half(first: str, second: str) -> list[int]:
    labs = np.array([hex_to_lab(first), hex_to_lab(second)])
    return lab_to_srgb8(mix_in_light(labs[:1], labs[1:], np.array([0.5])))[0].tolist()


def test_light_adds_and_codes_do_not() -> None:
    # Exact arithmetic of IEC 61966-2-1: half black and half white is code 187.5, not 127.5.
    assert set(half("#000000", "#ffffff")) <= {187, 188}
    # (87,108,67) with (214,126,44): (166.5, 117.4, 56.8) against (150.5, 117, 55.5) of the codes.
    assert half("#576c43", "#d67e2c") == pytest.approx([166.5, 117.4, 56.8], abs=0.5)


@settings(deadline=None)
@given(LAB, LAB, st.floats(0, 1))
def test_the_mix_lies_between_and_does_not_care_for_order(first, second, share) -> None:
    one, two = np.array([first]), np.array([second])
    mixed = mix_in_light(one, two, np.array([share]))
    assert mixed == pytest.approx(mix_in_light(two, one, np.array([1 - share])), abs=1e-6)
    ends = np.sort(np.stack([lab_to_xyz(one), lab_to_xyz(two)]), axis=0)
    assert np.all(lab_to_xyz(mixed) >= ends[0] - 1e-9)
    assert np.all(lab_to_xyz(mixed) <= ends[1] + 1e-9)


def test_the_thicker_yarn_shows_more() -> None:
    # Diameter goes as the root of the count (Peirce 1937): four times the tex, twice the width.
    thin, thick = yarn("thin", (20, 0, 0), 50), yarn("thick", (80, 0, 0), 200)
    wanted = mix_in_light(np.array([[20.0, 0, 0]]), np.array([[80.0, 0, 0]]), np.array([1 / 3]))[0]
    mix = nearer_mixes(tuple(wanted), (thin, thick), best_alone=99)[0]
    assert mix.parts == (1, 1)
    assert mix.shares == pytest.approx((1 / 3, 2 / 3))
    assert mix.difference == pytest.approx(0, abs=1e-9)
    unknown = nearer_mixes(tuple(wanted), (yarn("thin", (20, 0, 0)), thick), best_alone=99)[0]
    assert unknown.parts == (1, 2)


def test_a_mix_has_to_be_worth_the_work() -> None:
    yarns = (yarn("dark", (40, 0, 0)), yarn("light", (60, 0, 0)))
    wanted = (50.0, 0.0, 0.0)
    difference = nearer_mixes(wanted, yarns, best_alone=99)[0].difference
    assert nearer_mixes(wanted, yarns, best_alone=difference + 0.9) == ()
    assert len(nearer_mixes(wanted, yarns, best_alone=difference + 1.1)) == 1
    assert nearer_mixes(wanted, yarns[:1], best_alone=99) == ()


@settings(deadline=None, max_examples=60)
@given(LAB, st.lists(LAB, min_size=2, max_size=8, unique=True), st.integers(1, 5))
def test_the_nearest_comes_first_and_the_calmest_next(wanted, labs, how_many) -> None:
    yarns = tuple(yarn(f"yarn {i}", lab) for i, lab in enumerate(labs))
    every = nearer_mixes(wanted, yarns, best_alone=99, how_many=1000)
    mixes = nearer_mixes(wanted, yarns, best_alone=99, how_many=how_many)
    assert mixes == every[:how_many]
    assert len({mix.yarns for mix in every}) == len(every)
    ranks = [float(ranking_difference(mix.lab, wanted)) for mix in every]
    assert ranks[0] == min(ranks, default=0)
    near = [mix.contrast for mix, rank in zip(every, ranks, strict=True) if rank <= ranks[0] + 2]
    if every[0].contrast > min(near):
        assert every[1].contrast == min(near)
        ranks.pop(1)
    assert ranks == sorted(ranks)


def test_another_mixing_law_can_be_given() -> None:
    yarns = (yarn("dark", (40, 0, 0)), yarn("light", (60, 0, 0)))

    def darker(first, second, share):
        return np.minimum(first, second)

    mix = nearer_mixes((40.0, 0.0, 0.0), yarns, best_alone=99, mixer=darker)[0]
    assert mix.lab == (40.0, 0.0, 0.0)


def test_a_large_shelf_keeps_to_the_nearest_yarns() -> None:
    random = np.random.default_rng(4)
    labs = random.uniform([10, -40, -40], [90, 40, 40], (450, 3))
    yarns = tuple(yarn(f"yarn {i}", lab) for i, lab in enumerate(labs))
    wanted = np.array([50.0, 20.0, 20.0])
    mixes = nearer_mixes(tuple(wanted), yarns, best_alone=99)
    nearest = set(np.argsort(ciede2000(labs, wanted))[:400])
    assert {int(name.split()[1]) for mix in mixes for name in mix.yarns} <= nearest
    assert mixes[0].difference < 0.5
