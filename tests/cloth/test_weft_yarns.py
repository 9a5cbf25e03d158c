import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.mixing_law import mix_lab
from palette.cloth.weft_shades import weft_shades
from palette.cloth.weft_yarns import MarledYarn, PlainYarn, VariegatedYarn, pick_positions
from palette.errors import InputError

DARK, LIGHT = (30.0, 0.0, 0.0), (80.0, 0.0, 0.0)


def two_colours(first_mm, second_mm, soft_mm=0.0):
    return VariegatedYarn(
        colours_lab=(DARK, LIGHT), lengths_mm=(first_mm, second_mm), soft_mm=soft_mm
    )


def lightness(plan, yarn, **where):
    """Lightness of every pick at every column, (picks, columns)."""
    shades = weft_shades(plan, {"moss": yarn}, **where)
    return shades.labs[shades.numbers][..., 0]


@given(st.floats(50, 800), st.floats(50, 800), st.floats(0, 40))
def test_the_colours_keep_their_lengths(first, second, soft):
    mean = two_colours(first, second, soft).shades_lab()[:, 0].mean()
    assert mean == pytest.approx((30 * first + 80 * second) / (first + second), abs=0.3)


@given(st.floats(0, 5000), st.integers(1, 20))
def test_the_repeat_repeats(place, turns):
    yarn = two_colours(310, 190)
    shade = yarn.shade_at(np.array([place]))
    later = yarn.shade_at(np.array([place + turns * yarn.repeat_mm]))
    assert min((shade - later) % 240, (later - shade) % 240) <= 1


def test_a_repeat_of_two_picks_pools_into_halves(plan):
    # Two picks use 200 mm: dark for the first half and the last half of them, light between.
    yarn = VariegatedYarn(colours_lab=(DARK, LIGHT, DARK), lengths_mm=(50, 100, 50), soft_mm=0)
    seen = lightness(plan([("moss", 20)]), yarn, columns=10, pick_length_mm=100)
    assert np.all(seen[:, :5] == 80)
    assert np.all(seen[:, 5:] == 30)


def test_a_repeat_of_one_pick_stripes_every_other_way(plan):
    # One pick uses the whole repeat, and each comes back the other way.
    seen = lightness(plan([("moss", 6)]), two_colours(50, 50), columns=10, pick_length_mm=100)
    assert np.all(seen[0::2, 5:] == 30)
    assert np.all(seen[1::2, :5] == 30)
    assert np.all(seen[0::2] == seen[1::2, ::-1])


def test_a_long_repeat_stripes_along_the_cloth(plan):
    seen = lightness(plan([("moss", 40)]), two_colours(1000, 1000), columns=4, pick_length_mm=100)
    assert np.all(seen[:10] == 30)
    assert np.all(seen[10:20] == 80)
    assert np.all(seen[20:30] == 30)


def test_a_weft_runs_on_where_it_is_used_again(plan):
    cloth = plan([("moss", 10), ("rust", 7), ("moss", 10)])
    seen = lightness(cloth, two_colours(1000, 1000), columns=4, pick_length_mm=100)
    assert np.all(seen[:10] == 30)
    assert np.all(seen[17:] == 80)
    assert pick_positions(cloth)["moss"].tolist() == [*range(10), *range(17, 27)]


def test_a_part_is_the_same_as_in_the_whole(plan):
    cloth, yarn = plan([("moss", 30)]), two_colours(310, 190)
    whole = lightness(cloth, yarn, columns=40, pick_length_mm=118)
    part = lightness(
        cloth, yarn, columns=10, pick_length_mm=118, first_pick=11, picks=5, left=0.25, right=0.5
    )
    assert np.array_equal(part, whole[10:15, 10:20])


def test_plain_wefts_need_one_column(plan):
    shades = weft_shades(plan([("moss", 4), ("rust", 2)]), columns=50, pick_length_mm=100)
    assert shades.numbers.tolist() == [[0]] * 4 + [[1]] * 2
    assert len(PlainYarn(lab=DARK).plies_lab()) == 0


def test_a_marl_is_both_plies_mixed(plan):
    marl = MarledYarn(first_lab=DARK, second_lab=LIGHT)
    shades = weft_shades(plan([("moss", 4)]), {"moss": marl}, columns=9, pick_length_mm=100)
    assert shades.labs[0] == pytest.approx(mix_lab(DARK, LIGHT))
    assert shades.plies[0].tolist() == [list(DARK), list(LIGHT)]
    assert marl.shade_at(np.array([3.0, 7.0])).tolist() == [0, 0]


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"lengths_mm": (10,)}, r"a length for each of at least two colours; got 2 colours, 1"),
        ({"lengths_mm": (10, 0)}, r"variegated yarn: lengths must be more than 0; got 0"),
        ({"lengths_mm": (10, float("nan"))}, r"lengths must be more than 0; got nan"),
        ({"soft_mm": -1}, r"soft length must be 0 or more; got -1"),
    ],
)
def test_variegated_yarn_refuses(values, message):
    with pytest.raises(InputError, match=message):
        VariegatedYarn(**{"colours_lab": (DARK, LIGHT), "lengths_mm": (10, 10), **values})


def test_wefts_that_the_cloth_does_not_have(plan):
    message = r"weft yarns: must be wefts of the cloth \(moss\); got plum"
    with pytest.raises(InputError, match=message):
        weft_shades(
            plan([("moss", 4)]), {"plum": PlainYarn(lab=DARK)}, columns=5, pick_length_mm=100
        )
    with pytest.raises(InputError, match=r"pick length: must be more than 0; got 0"):
        weft_shades(plan([("moss", 4)]), columns=5, pick_length_mm=0)


@pytest.mark.parametrize("part", [0.1, 0.2])
def test_soft_changes_are_as_long_as_asked(part):
    # Two changes in a repeat, each over its part of it: so many steps are neither dark nor light.
    shades = two_colours(250, 250, soft_mm=500 * part).shades_lab()[:, 0]
    between = np.mean((shades > 30.01) & (shades < 79.99))
    assert between == pytest.approx(2 * part, abs=0.02)
