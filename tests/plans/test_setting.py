"""The sett and the picks that are taken where none are given."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.plans.brief import Brief
from palette.plans.setting import usual_densities

COTTON = {"weft": "NeC 8/2", "warp": "NeC 8/2", "fibre": "cotton", "weave": "plain weave"}


@pytest.mark.parametrize(
    ("changes", "sett", "picks"),
    [
        ({}, "8/cm", "8/cm"),
        ({"length": "72 in"}, "20/in", "20/in"),
        ({"weave": "2/2 twill"}, "11/cm", "11/cm"),
        ({"weft": "Nm 2/28", "warp": "Nm 2/28"}, "12/cm", "12/cm"),
        ({"weft": "Nm 2/28", "warp": "Nm 2/28", "fibre": "wool"}, "11/cm", "11/cm"),
        ({"warp": "tex 300", "weft": "tex 2400"}, "3/cm", "3/cm"),
        ({"weft": "tex 20000", "warp": "tex 20000"}, "0.7/cm", "0.7/cm"),
        ({"sett": "7.5/cm"}, "7.5/cm", "7.5/cm"),
        ({"sett": "3/cm"}, "3/cm", "8/cm"),
        ({"picks": "12/cm"}, "8/cm", "12/cm"),
    ],
)
def test_they_follow_the_yarn_and_the_weave(changes, sett, picks):
    """Ashenhurst's rule at 80 %, rounded down; 8/2 cotton in plain weave: 8/cm, 20/in."""
    brief = Brief.of(changes)
    assert (brief.sett.text, brief.picks.text) == (sett, picks)


def test_a_brief_that_is_changed_keeps_its_sett():
    brief = Brief.of({"weave": "2/2 twill"})
    assert brief.changed({"weave": "plain weave"}).sett.text == "11/cm"
    assert brief.changed({"weave": "plain weave", "sett": None}).sett.text == "8/cm"


@pytest.mark.parametrize(
    "fault", [{"weft": "8/2"}, {"weave": "zigzag"}, {"fibre": "plastic"}, {"units": "cubits"}]
)
def test_what_cannot_be_read_is_left_to_the_brief(fault):
    assert usual_densities({**COTTON, **fault}) == ("8/cm", "8/cm")


@given(tex=st.floats(15, 5000), units=st.sampled_from(["metric", "imperial"]))
def test_a_default_is_never_spoken_of(tex, units):
    """Rounded down, but never to what is open."""
    from palette.loom.closeness import OPEN_SHARE
    from palette.measures import parse_density
    from palette.plans.setting import _yarns

    values = {**COTTON, "weft": f"tex {tex:.6g}", "warp": f"tex {tex:.6g}", "units": units}
    usual = _yarns(values).usual_per_cm[0]
    for text in usual_densities(values):
        assert OPEN_SHARE * usual <= parse_density(text).per_cm <= usual * (1 + 1e-3)
