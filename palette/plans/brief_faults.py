"""What is wrong with a brief, in the sentence form of every other refusal."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from typing import TYPE_CHECKING

from palette.errors import BriefError, LeafweftError
from palette.plans.json_text import plain_rule
from palette.plans.options import OPTIONS

if TYPE_CHECKING:
    from pydantic import ValidationError
    from pydantic_core import ErrorDetails

__all__ = ["fault_of", "said"]


def fault_of(error: ValidationError, where: Callable[[str], str]) -> LeafweftError:
    """Give the first fault of a brief in the one sentence form.

    Parameters
    ----------
    error : ValidationError
    where : callable
        From a key to how a message names it: the option, or the line of a file.
    """
    fault = error.errors()[0]
    key = str(fault["loc"][0])
    original = fault.get("ctx", {}).get("error")
    if isinstance(original, LeafweftError):
        rule, got, remedy = original.rule, original.got, original.remedy
        return type(original)(where(key), rule, got=got, remedy=remedy)
    if fault["type"] == "extra_forbidden":
        near = _nearest_key(key)
        remedy = f"Did you mean {near}?" if near else "See leafweft plan --help for the names."
        return BriefError(where(key), "is not a key of a brief", got=repr(key), remedy=remedy)
    return BriefError(where(key), _rule(key, fault), got=said(fault["input"]))


def said(value: object) -> str:
    """Show a value as it stands in a brief: text in quotes, a date as a date."""
    return repr(value) if isinstance(value, str | int | float | list | tuple) else str(value)


def _rule(key: str, fault: ErrorDetails) -> str:
    """Say the rule that a value breaks, as a clause."""
    if key == "cloth":
        return "must be a group under [[cloth]], with two brackets, for each cloth"
    if key == "colours":
        return "must be a whole number from 1 to 64, or auto"
    if fault["type"] == "string_type":
        return "must be text, in quotes"
    return plain_rule(fault)


def _nearest_key(key: str) -> str:
    near = difflib.get_close_matches(key.replace("_", "-"), [*OPTIONS, "photo", "cloth"], n=1)
    return near[0] if near else ""
