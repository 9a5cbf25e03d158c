"""The usual cautions."""

from dataclasses import replace

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.cautions import CAUTIONS, DATA_SHEET
from palette.dyeing.planning import plan_dye_day
from tests.dyeing.day_yarn import yarn


def test_cautions_name_what_can_hurt_and_no_maker() -> None:
    text = " ".join(caution.text for caution in CAUTIONS)
    for word in (
        "breathed in",
        "mask",
        "gloves",
        "never go back to food",
        "acid into water",
        "scald",
        "data sheet",
        "Local codes",
        "allergic",
    ):
        assert word in text
    assert all(caution.source for caution in CAUTIONS)
    day = plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool"))
    assert day.cautions[-1].text == DATA_SHEET
    with pytest.raises(KeyError):
        day["teal"]


@pytest.mark.parametrize(
    ("vinegar", "said"), [(5.0, False), (9.9, False), (10.0, True), (25.0, True)]
)
def test_strong_vinegar_has_a_caution_of_its_own(vinegar: float, said: bool) -> None:
    """Irritates from 10 %, burns from 25 %: Regulation (EC) 1272/2008, Annex VI, from memory."""
    asked = DyeAsked(fibre="wool", acid="vinegar", vinegar_percent=vinegar)
    day = plan_dye_day((yarn("moss", 90.0),), asked=asked)
    assert ("strong acid" in {caution.matter for caution in day.cautions}) is said
    citric = plan_dye_day((yarn("moss", 90.0),), asked=replace(asked, acid="citric"))
    assert "strong acid" not in {caution.matter for caution in citric.cautions}
