"""Opening what a command is given: a palette file, a plan file or a photograph."""

from __future__ import annotations

from pathlib import Path

from palette.errors import ContractError, FileError
from palette.plans.json_text import kind_of
from palette.plans.plan import Plan
from palette.swatches.palette import Palette

__all__ = ["is_contract_file", "load_palette", "load_plan", "text_of", "unreadable"]

_MOST_BYTES = 64 * 2**20  # a plan of 100 000 stripes has under half of this


def is_contract_file(path: Path) -> bool:
    """Whether a path is meant as a palette or plan file, going by its ending."""
    return path.suffix.lower() == ".json"


def text_of(path: Path) -> str:
    """Read a file, or the ``plan.json`` in a folder, as text; raises as `load_plan` does."""
    try:
        if path.is_dir():
            path = path / "plan.json"
        if path.stat().st_size > _MOST_BYTES:
            raise ContractError(
                str(path), "must be under 64 MB", got=f"{path.stat().st_size} bytes"
            )
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        raise ContractError(str(path), "must be JSON", got="bytes that are no text") from None
    except OSError as error:
        raise unreadable(path, error) from None


def unreadable(path: Path, error: OSError) -> FileError:
    """Say in plain words why a file cannot be opened."""
    if isinstance(error, FileNotFoundError):
        remedy = "Check the name and the folder."
        return FileError(str(path), "must be a file", got="nothing by that name", remedy=remedy)
    if isinstance(error, IsADirectoryError):
        return FileError(str(path), "must be a file", got="a folder")
    return FileError(str(path), "must be a file that can be read", got=FileError.why(error))


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
