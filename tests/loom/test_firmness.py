"""What is said of a sett and a beat."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import WeavingError
from palette.loom.closeness import Yarns
from palette.loom.drafts import weave_named
from palette.loom.fibres import FIBRES
from palette.loom.firmness import Asked, firmness_notes
from palette.loom.structure import structure_of
from palette.measures import Units, parse_density


def notes(ends, picks, *, tex=147.635, weft_tex=None, weave="plain weave", units=Units.METRIC):
    asked = Asked(ends_per_cm=ends, picks_per_cm=picks, yarn="NeC 8/2", weave=weave, units=units)
    met = Yarns(
        warp_tex=tex,
        weft_tex=weft_tex or tex,
        fibre=FIBRES["cotton"],
        structure=structure_of(weave_named(weave)),
    )
    return firmness_notes(asked, met)


@pytest.mark.parametrize("per_cm", [6, 8, 10])
def test_what_is_usual_is_not_spoken_of(per_cm):
    assert notes(per_cm, per_cm) == ()
    assert notes(per_cm + 2, per_cm + 2, weave="2/2 twill") == ()


def test_an_inch_typed_as_a_centimetre_is_asked_about():
    (note,) = notes(20, 8)
    assert note == (
        "Sett 20/cm is closer than the 10.5/cm of the closest balanced cloth: the cloth will be "
        "warp-faced. A balanced cloth of NeC 8/2 in plain weave is usually set at about 8.4/cm. "
        "Was 20/in meant?"
    )
    (note,) = notes(8 / 2.54, 8, units=Units.IMPERIAL)
    assert note.endswith("is usually set at about 21.3/in. Was 8/cm meant?")


def test_a_beat_closer_than_balanced_is_told_and_woven():
    (note,) = notes(3, 20)
    assert note.startswith("Picks 20/cm are closer than the 10.5/cm of the closest balanced cloth")
    assert "weft-faced, as rugs are" in note


def test_a_net_is_told():
    assert notes(3, 3) == (
        "Sett 3/cm and picks 3/cm are open: a balanced cloth of NeC 8/2 in plain weave is usually "
        "set at about 8.4/cm.",
    )
    assert notes(8, 4) == (
        "Picks 4/cm are open: a balanced cloth of NeC 8/2 in plain weave is usually beaten to "
        "about 8.4/cm.",
    )


def test_what_has_no_room_is_refused_with_the_nearest():
    message = re.escape(
        "sett and picks: must leave the threads room, in plain weave and with NeC 8/2; got sett "
        "300/cm and picks 300/cm. The nearest that can be woven: sett 16.4/cm, picks 16.4/cm. A "
        "balanced cloth of NeC 8/2 in plain weave is usually set at about 8.4/cm."
    )
    with pytest.raises(WeavingError, match=message) as caught:
        notes(300, 300)
    assert caught.value.exit_code == 4


@given(
    ends=st.floats(1, 400),
    picks=st.floats(1, 400),
    weave=st.sampled_from(["plain weave", "2/2 twill", "huck lace"]),
    units=st.sampled_from(Units),
)
def test_the_nearest_as_printed_is_taken(ends, picks, weave, units):
    try:
        notes(ends, picks, weave=weave, units=units)
    except WeavingError as error:
        printed = re.search(r"woven: sett (\S+), picks (\S+)\. ", str(error))
        near = (parse_density(text).per_cm for text in printed.groups())
        notes(*near, weave=weave, units=units)
