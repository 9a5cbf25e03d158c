"""JSON by contract: one way of writing it, one way of refusing it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, TypeVar

from palette.errors import ContractError
from palette.plain_text import whole_characters
from palette.plans.nesting import MOST_NESTED, too_deep

if TYPE_CHECKING:
    from pydantic import BaseModel, ValidationError
    from pydantic_core import ErrorDetails

    Model = TypeVar("Model", bound=BaseModel)

__all__ = ["json_text", "kind_of", "parsed", "plain_rule"]


def json_text(model: BaseModel) -> str:
    """Write a model as indented JSON with a final newline; numbers survive the round trip."""
    text = json.dumps(model.model_dump(mode="json"), indent=2, ensure_ascii=False) + "\n"
    return whole_characters(text)


def kind_of(text: str, *, thing: str) -> str:
    """Read the kind of a file: ``leafweft/palette`` or ``leafweft/plan``.

    Raises ContractError where the text is not JSON or holds no kind.
    """
    content = _content(text, thing)
    kind = content.get("kind") if isinstance(content, dict) else None
    if not isinstance(kind, str):
        rule = "must say its kind, leafweft/palette or leafweft/plan"
        raise ContractError(thing, rule, got="none")
    return kind


def _content(text: str, thing: str) -> object:
    """Read JSON that is nested no deeper than such files are."""
    try:
        content = json.loads(text)
    except ValueError as error:
        raise ContractError(thing, "must be JSON", got=_said(text, error)) from None
    except RecursionError:
        content = None
    else:
        if not too_deep(content):
            return content
    rule = f"must nest its lists at most {MOST_NESTED} deep"
    raise ContractError(thing, rule, got="deeper ones")


def _said(text: str, error: ValueError) -> str:
    """Say in plain words what stands there instead of JSON."""
    if not text.strip():
        return "an empty file"
    line = getattr(error, "lineno", None)
    return f"something else in line {line}" if line else "something else"


def parsed(model: type[Model], text: str, *, thing: str) -> Model:
    """Read a model from JSON.

    Raises
    ------
    ContractError
        Not JSON, another kind, an unknown version, or a value that breaks the contract;
        the message names the key.
    """
    from pydantic import ValidationError

    expected = model.model_fields["kind"].default
    kind = kind_of(text, thing=thing)
    if kind != expected:
        raise ContractError(thing, f"must be a {expected} file", got=kind)
    version = json.loads(text).get("version")
    if version != 1:
        remedy = "It was written by another version of the program; use that one, or make it anew."
        raise ContractError(thing, "version must be 1", got=repr(version), remedy=remedy)
    try:
        return model.model_validate_json(text)
    except ValidationError as error:
        raise _plainly(error, thing) from None


def _plainly(error: ValidationError, thing: str) -> ContractError:
    fault = error.errors()[0]
    where = " ".join(
        f"number {part + 1}" if isinstance(part, int) else str(part) for part in fault["loc"]
    )
    rule = plain_rule(fault)
    return ContractError(
        f"{thing}, {where}" if where else thing, rule, got=repr(fault["input"])[:80]
    )


def plain_rule(fault: ErrorDetails) -> str:
    """Say the rule that a value of a file breaks, as a clause: "must be a whole number"."""
    facts = fault.get("ctx", {})
    rules = {
        "missing": "must be there",
        "extra_forbidden": "is not a key of such a file",
        "too_short": f"must hold at least {facts.get('min_length')}",
        "int_type": "must be a whole number",
        "int_parsing": "must be a whole number",
        "int_from_float": "must be a whole number",
        "float_type": "must be a number",
        "float_parsing": "must be a number",
        "finite_number": "must be a finite number",
        "string_type": "must be text",
        "tuple_type": "must be a list",
        "dict_type": "must be a group of keys and values",
        "json_invalid": "must be JSON whose texts are whole characters",
        "bool_type": "must be true or false",
        "greater_than": f"must be more than {facts.get('gt')}",
        "greater_than_equal": f"must be at least {facts.get('ge')}",
        "less_than": f"must be less than {facts.get('lt')}",
        "less_than_equal": f"must be at most {facts.get('le')}",
        "literal_error": f"must be {facts.get('expected')}",
    }
    said = str(fault["msg"])
    return rules.get(fault["type"], f"{said[0].lower()}{said[1:]}")
