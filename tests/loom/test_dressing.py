"""The loom dressed for a warp and a weave."""

import pytest

from palette.errors import InputError, WeavingError
from palette.loom.drafts import WEAVES, parse_draft, weave_named
from palette.loom.dressing import dress
from palette.loom.planning import plan_warp
from palette.loom.structure import drawdown, plain_weave_treadles
from palette.measures import Units
from tests.loom.cloths import cloth_of


def warp(**changes):
    usual = {"finished_width_mm": 400, "ends_per_cm": 8, "cloth_lengths_mm": (2000.0,)}
    return plan_warp(**{**usual, **changes})


def test_everything_on_one_card():
    one = warp(selvedge_ends=2)
    dressing = dress(
        one,
        weave_named("point twill"),
        picks=1601,
        picks_per_cm=8,
        reeds_per_cm=(10 / 2.54, 4.0, 5.0),
        heddles_per_shaft_held=200,
        shafts=8,
        treadles=8,
    )
    assert dressing.sley.text == "2"
    assert dressing.sley.dents_per_cm == 4.0
    assert dressing.dents * 2 == one.working_ends
    assert sum(dressing.heddles) == one.working_ends == one.ends - 4
    assert dressing.repeats * 6 + dressing.ends_over == one.working_ends
    assert sum(treadle.lifts for treadle in dressing.treadles) == 1601
    assert dressing.plain_treadles == (5, 6)
    assert dressing.warnings == (
        "The threading of point twill, 6 ends, does not come out even in 380 ends: 379 or 385 "
        "would, the last end closing the point.",
    )


def test_without_reeds_there_is_no_sley():
    dressing = dress(warp(), weave_named("plain weave"), picks=10, picks_per_cm=8)
    assert dressing.sley is None
    assert dressing.dents == 0


@pytest.mark.parametrize(
    ("units", "words"),
    [
        (Units.METRIC, "The nearest reed gives 7.56/cm where 7/cm was asked: 8.0 % closer."),
        (Units.IMPERIAL, "The nearest reed gives 19.2/in where 17.78/in was asked: 8.0 % closer."),
    ],
)
def test_a_reed_that_misses_the_sett_is_pointed_out(units, words):
    """Own: 7 in a reed of 6.3 is 10/9; in at most five dents 6/5 comes nearest."""
    dressing = dress(
        warp(ends_per_cm=7),
        weave_named("plain weave"),
        picks=10,
        picks_per_cm=8,
        reeds_per_cm=(6.3,),
        units=units,
    )
    assert dressing.warnings == (words,)


def test_long_floats_are_pointed_out():
    dressing = dress(warp(ends_per_cm=2), weave_named("huck lace"), picks=10, picks_per_cm=8)
    assert dressing.warnings[-1] == "Weft floats are 2.5 cm long and may catch in use."


def test_a_hem_needs_treadles_for_plain_weave():
    """Four treadles of a 2/2 twill and two for its hem."""
    twill = weave_named("2/2 twill")
    hemmed = {"picks": 60, "picks_per_cm": 8, "cloths": (cloth_of(("hem", 10), ("stripe", 50)),)}
    dressing = dress(warp(), twill, treadles=6, **hemmed)
    assert [treadle.lifts for treadle in dressing.treadles] == [13, 13, 12, 12, 5, 5]
    message = (
        r"hem in 2/2 twill: must find treadles for plain weave \(1\+3 and 2\+4\) among the loom's "
        r"4; got 6 treadles\. Leave out the hem"
    )
    with pytest.raises(WeavingError, match=message):
        dress(warp(), twill, treadles=4, **hemmed)
    dress(warp(), twill, treadles=4, picks=60, picks_per_cm=8, cloths=(cloth_of(("stripe", 60)),))


@pytest.mark.parametrize("draft", WEAVES.values(), ids=WEAVES)
def test_plain_treadles_weave_plain(draft):
    pair = plain_weave_treadles(draft)
    if pair is None:
        assert draft.name == "basket"
        return
    hem = parse_draft(
        "; ".join(
            (
                " ".join(map(str, draft.threading)),
                ", ".join("+".join(map(str, shafts)) for shafts in draft.tie_up),
                f"{pair[0]} {pair[1]}",
            )
        )
    )
    first, second = drawdown(hem)
    assert all(a != b for a, b in zip(first, second, strict=True))
    assert all(first[i] != first[i - 1] for i in range(len(first)))


def test_an_odd_threading_has_no_plain_weave():
    assert plain_weave_treadles(parse_draft("1 2 3; 1+3, 2, 1+2; 1 2 3")) is None


def test_refusals():
    with pytest.raises(WeavingError, match="heddles: each shaft must hold what is threaded on it"):
        dress(
            warp(),
            weave_named("plain weave"),
            picks=10,
            picks_per_cm=8,
            heddles_per_shaft_held=100,
        )
    with pytest.raises(WeavingError, match="must not need more than the loom's 2 shafts"):
        dress(warp(), weave_named("2/2 twill"), picks=10, picks_per_cm=8, shafts=2)
    with pytest.raises(InputError, match="picks: must be more than 0 per cm; got 0"):
        dress(warp(), weave_named("plain weave"), picks=10, picks_per_cm=0)
