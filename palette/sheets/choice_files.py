"""The files of ``leafweft choices``: the sheet of arrangements as PDF and PNG."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from palette.sheets.choices_card import choices_pdf, choices_png
from palette.sheets.places import check_folder
from palette.sheets.writing import write_folder
from palette.stripes.choices import Choice

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["write_choices"]


def write_choices(
    choices: Sequence[Choice], brief: Brief, folder: Path, *, force: bool = False
) -> tuple[Path, ...]:
    """Write the sheet of arrangements into a folder; raises OutputError as `write_folder` does."""
    check_folder(folder, force=force)
    title = f"{brief.name}: choices" if brief.name else "Choices"
    width, paper = brief.width.mm, brief.paper
    pictures = choices_png(choices, finished_width_mm=width, title=title, paper=paper)
    files = {"choices.pdf": choices_pdf(choices, finished_width_mm=width, title=title, paper=paper)}
    for number, picture in enumerate(pictures, 1):
        files[f"choices-{number}.png" if len(pictures) > 1 else "choices.png"] = picture
    return write_folder(folder, files, force=force)
