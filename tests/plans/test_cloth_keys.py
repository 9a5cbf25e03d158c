"""What one cloth of several may not set, and the reason that holds."""

import pytest

from palette.errors import BriefError
from palette.plans.brief import Brief
from palette.plans.cloth_keys import CLOTH_KEYS, check_cloth_key
from palette.plans.cloths import cloth_briefs
from palette.plans.options import OPTIONS

APART = (
    "plan this cloth in a brief of its own, with the same warp, and wind one warp for both: the "
    "two lengths and the gap, less one loom waste."
)


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("weft", f"One brief reckons one weft yarn. For another, {APART}"),
        ("weave", f"One brief has one weave. For another treadling of the same threading, {APART}"),
        ("sett", "Set it once, above the cloths: they share the warp."),
        ("fringe", "Set it once, above the cloths: they share the warp."),
        ("tail", "Set it once, above the cloths: the yarn is reckoned alike for all of them."),
        ("paper", "Set it once, above the cloths: the sheets are of all of them."),
        ("lenght", "It may set: name, photo, palette, stripes, like, colours,"),
    ],
)
def test_a_key_is_refused_for_the_reason_that_holds(key: str, said: str) -> None:
    with pytest.raises(BriefError) as refused:
        check_cloth_key("cloth 2", key)
    assert str(refused.value).startswith(f"cloth 2, {key}: is not a key that one cloth of several")
    assert said in str(refused.value)


def test_every_key_is_allowed_or_has_its_reason() -> None:
    for key in OPTIONS:
        if key in CLOTH_KEYS:
            check_cloth_key("cloth 1", key)
        else:
            with pytest.raises(BriefError, match=r"Set it once|One brief"):
                check_cloth_key("cloth 1", key)


def test_a_cloth_in_another_yarn_is_told_the_way_out() -> None:
    brief = Brief.of({"cloth": [{"order": "mirrored"}, {"weft": "NeC 16/2"}]})
    with pytest.raises(BriefError, match=r"cloth 2, weft: .* For another, plan this cloth in a"):
        cloth_briefs(brief)
