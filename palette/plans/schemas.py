"""JSON Schemas of the palette and plan files, made from the models.

Run ``python -m palette.plans.schemas`` after a change to a model; the files in this folder are
what other programs read.
"""

from __future__ import annotations

import json
from pathlib import Path

__all__ = ["schema_path", "schema_text"]

_FOLDER = Path(__file__).parent


def schema_path(kind: str) -> Path:
    """Say where the schema of ``palette`` or ``plan`` files is kept.

    Examples
    --------
    >>> schema_path("plan").name
    'plan.schema.json'
    """
    return _FOLDER / f"{kind}.schema.json"


def schema_text(kind: str) -> str:
    """Make the schema of ``palette`` or ``plan`` files from its model (JSON Schema 2020-12)."""
    from pydantic import BaseModel

    from palette.plans.palette_contract import PaletteFile
    from palette.plans.plan_contract import PlanFile

    models: dict[str, type[BaseModel]] = {"palette": PaletteFile, "plan": PlanFile}
    schema = models[kind].model_json_schema(mode="serialization")
    schema = {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def _write_all() -> None:
    for kind in ("palette", "plan"):
        schema_path(kind).write_text(schema_text(kind), encoding="utf-8")


if __name__ == "__main__":
    _write_all()
