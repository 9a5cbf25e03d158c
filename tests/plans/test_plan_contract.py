import json

import pytest
from hypothesis import given, settings

from palette.errors import ContractError
from palette.plans.palette_contract import palette_from_json, palette_to_json
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_from_json, plan_to_json
from palette.swatches.palette import Palette
from tests.strategies import palettes, plans


@settings(max_examples=50, deadline=None)
@given(palettes())
def test_palette_survives_its_file(palette: Palette) -> None:
    assert palette_from_json(palette_to_json(palette)) == palette


@settings(max_examples=50, deadline=None)
@given(plans())
def test_plan_survives_its_file(plan: Plan) -> None:
    assert plan_from_json(plan_to_json(plan)) == plan


@settings(max_examples=10, deadline=None)
@given(plans())
def test_same_plan_same_bytes(plan: Plan) -> None:
    assert plan_to_json(plan) == plan_to_json(plan_from_json(plan_to_json(plan)))


@settings(max_examples=1, deadline=None)
@given(plans())
def test_a_stripe_that_does_not_add_up_is_named(plan: Plan) -> None:
    content = json.loads(plan_to_json(plan))
    content["stripes"][0]["last_pick"] += 1
    with pytest.raises(ContractError, match=r"stripe 1 .*last_pick must be"):
        plan_from_json(json.dumps(content))


@settings(max_examples=1, deadline=None)
@given(plans())
def test_a_gap_between_stripes_is_named(plan: Plan) -> None:
    content = json.loads(plan_to_json(plan))
    content["stripes"][0]["first_pick"] = 2
    content["stripes"][0]["last_pick"] += 1
    with pytest.raises(ContractError, match="must begin at pick 1, where the one before ends"):
        plan_from_json(json.dumps(content))


def test_shares_that_do_not_sum_are_refused() -> None:
    text = palette_to_json(
        palette_from_json(
            '{"kind": "leafweft/palette", "version": 1, "colours": [{"name": "moss", '
            '"hex": "#5d733a", "lab": [45.54, -15.88, 29.14], "share": 1.0}]}'
        )
    )
    with pytest.raises(ContractError, match=r"shares must sum to 1; got 0\.900000"):
        palette_from_json(text.replace('"share": 1.0', '"share": 0.9'))


def test_a_hex_that_is_another_colour_is_refused() -> None:
    text = (
        '{"kind": "leafweft/palette", "version": 1, "colours": [{"name": "moss", '
        '"hex": "#ff0000", "lab": [45.54, -15.88, 29.14], "share": 1.0}]}'
    )
    with pytest.raises(ContractError, match="hex and lab must be the same colour"):
        palette_from_json(text)
    clipped = text.replace('"share"', '"in_srgb": false, "share"')
    assert palette_from_json(clipped).swatches[0].in_srgb is False
