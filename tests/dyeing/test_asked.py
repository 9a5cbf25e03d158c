"""What is asked of a dye day and cannot be had."""

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from palette.errors import InputError
from tests.dyeing.day_yarn import yarn


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"margin": -0.1}, "margin: must be 0 or more, and finite; got -0.1"),
        ({"skein_g": 0.0}, "skein: must be more than 0, and finite; got 0.0"),
        ({"pots_ml": ()}, "pots: must be at least one; got none"),
        ({"pots_ml": (float("nan"),)}, "pot: must be more than 0, and finite; got nan"),
        ({"fill": 1.2}, "fill: must be at most 100 %; got 120 %"),
        (
            {"vinegar_percent": 40.0},
            "vinegar: must be at most 30 % acetic acid; got 40 %. Stronger",
        ),
        ({"vinegar_percent": float("nan")}, "vinegar: must be more than 0, and finite; got nan"),
        ({"liquor_ratio": 0.0}, "liquor ratio: must be more than 0, and finite; got 0.0"),
        ({"depths": (("moss", 40.0),)}, "depth of moss: must be at most 10 % .*got 40 %"),
        ({"depths": (("teal", 1.0),)}, "colour: must be one of the plan; got 'teal'. The plan has"),
        ({"recipes": (("teal", (("blue", 1.0),)),)}, "colour: must be one of the plan; got 'teal'"),
        ({"recipes": (("moss", (("blue", 0.0),)),)}, "blue for moss: must be more than 0, and"),
        ({"recipes": (("moss", (("blue", 20.0),)),)}, "depth of moss: must be at most 10 %"),
        (
            {"recipes": (("moss", (("blue", 1.0),)),), "depths": (("moss", 1.0),)},
            "colour moss: must have a depth or a recipe, not both. The recipe gives the depth.",
        ),
        ({"tartar_percent": -1.0}, "cream of tartar: must be 0 % or more, and finite; got -1.0 %"),
        ({"undyed": ("teal",)}, "colour: must be one of the plan; got 'teal'"),
        ({"fibres": (("moss", "mystery"),)}, "fibre of moss: must be a fibre that is known"),
    ],
)
def test_what_cannot_be_dyed_is_refused(asked: dict, message: str) -> None:
    with pytest.raises(InputError, match=message):
        plan_dye_day((yarn("moss", 90.0),), asked=DyeAsked(fibre="wool", **asked))
