import json

import jsonschema
import pytest
from hypothesis import given, settings

from palette.plans.palette_contract import palette_to_json
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_to_json
from palette.plans.schemas import schema_path, schema_text
from palette.swatches.palette import Palette
from tests.strategies import palettes, plans


@pytest.mark.parametrize("kind", ["palette", "plan"])
def test_schema_file_is_what_the_models_say(kind: str) -> None:
    assert schema_path(kind).read_text(encoding="utf-8") == schema_text(kind)


@settings(max_examples=25, deadline=None)
@given(palettes())
def test_every_palette_file_follows_its_schema(palette: Palette) -> None:
    schema = json.loads(schema_text("palette"))
    jsonschema.validate(json.loads(palette_to_json(palette)), schema)


@settings(max_examples=25, deadline=None)
@given(plans())
def test_every_plan_file_follows_its_schema(plan: Plan) -> None:
    jsonschema.validate(json.loads(plan_to_json(plan)), json.loads(schema_text("plan")))


def test_the_schema_refuses_a_plan_without_stripes() -> None:
    with pytest.raises(jsonschema.ValidationError, match="required"):
        jsonschema.validate({"kind": "leafweft/plan"}, json.loads(schema_text("plan")))
