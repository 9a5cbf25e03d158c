"""The edges of a warp: what comes out even, and what the weft catches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.loom.draft import Draft
from palette.loom.drafts import WEAVES, weave_named
from palette.loom.edges import even_ends, even_note, wants_floating_selvedge
from palette.loom.heddles import heddles_per_shaft


@pytest.mark.parametrize(
    ("weave", "ends", "even"),
    [
        ("2/2 twill", 213, (212, 216)),
        ("huck lace", 426, (420, 430)),
        ("point twill", 336, (331, 337)),
        ("point twill", 337, (337, 337)),
        ("basket", 2, (0, 4)),
    ],
)
def test_the_numbers_of_ends_that_come_out_even(weave, ends, even):
    assert even_ends(weave_named(weave), ends) == even


@given(ends=st.integers(8, 900), name=st.sampled_from(sorted(WEAVES)))
def test_what_comes_out_even_is_even(ends, name):
    """A straight threading then fills its shafts alike; a point begins and ends alike."""
    draft = weave_named(name)
    for even in filter(None, even_ends(draft, ends)):
        assert even_note(draft, even) == ()
        threaded = [draft.threading[i % len(draft.threading)] for i in range(even)]
        if name == "point twill":
            assert threaded == threaded[::-1]
        elif name != "huck lace":
            assert len(set(heddles_per_shaft(draft, even))) == 1


def test_the_note_names_the_numbers():
    assert even_note(weave_named("plain weave"), 213) == ()
    assert even_note(weave_named("point twill"), 336) == (
        "The threading of point twill, 6 ends, does not come out even in 336 ends: 331 or 337 "
        "would, the last end closing the point.",
    )
    assert even_note(weave_named("huck lace"), 6) == (
        "The threading of huck lace, 10 ends, does not come out even in 6 ends: 10 would.",
    )


def test_twills_want_a_floating_selvedge():
    """Common practice: twills do, plain weave does not."""
    wanting = {name for name, draft in WEAVES.items() if wants_floating_selvedge(draft)}
    assert {"2/2 twill", "1/3 twill", "3/1 twill", "point twill"} <= wanting
    assert "plain weave" not in wanting
    assert "huck lace" not in wanting  # its edges are plain
    still = Draft(name="rib", threading=(1, 2), tie_up=((1,), (2,)), treadling=(1, 1, 2, 2))
    assert wants_floating_selvedge(still)
