"""Opening what a command is given: a palette file, a plan file or a photograph."""

from __future__ import annotations

import os
from pathlib import Path

from palette.errors import ContractError
from palette.plans.json_text import kind_of
from palette.plans.plan import Plan
from palette.swatches.palette import Palette
from palette.text_files import read_text

__all__ = ["is_contract_file", "load_palette", "load_plan", "text_of"]

_MOST_BYTES = 64_000_000  # a plan of 100 000 stripes has under half of this


def is_contract_file(path: Path) -> bool:
    """Whether a path is meant as a palette or plan file, going by its ending."""
    return path.suffix.lower() == ".json"


def text_of(path: Path) -> str:
    """Read a file, or the ``plan.json`` in a folder, as text; raises as `load_plan` does."""
    place = path / "plan.json" if os.path.isdir(path) else path
    return read_text(place, most_bytes=_MOST_BYTES, error=ContractError, form="must be JSON")


def load_plan(path: Path) -> Plan:
    """Read a plan file, or the ``plan.json`` in a plan's folder.

    Raises
    ------
    FileError
        The file is missing or cannot be read.
    ContractError
        The file is no plan, or breaks the contract.
    """
    from palette.plans.plan_contract import plan_from_json

    return plan_from_json(text_of(path), thing=str(path))


def load_palette(path: Path) -> Palette:
    """Read the palette of a palette file or of a plan file; raises as `load_plan` does."""
    from palette.plans.palette_contract import palette_from_json

    text = text_of(path)
    if kind_of(text, thing=str(path)) == "leafweft/plan":
        return load_plan(path).palette
    return palette_from_json(text, thing=str(path))
