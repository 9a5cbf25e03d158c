"""Files written beside the person, in the folder the program was started in."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

__all__ = ["beside"]


def beside(files: Mapping[str, bytes], *, force: bool) -> tuple[Path, ...]:
    """Write files where the program was started: none of them if one is there already.

    Raises
    ------
    OutputError
        If a file exists and `force` is false, or the place cannot be written.
    """
    from palette.errors import OutputError
    from palette.sheets.writing import write_whole

    there = [name for name in files if Path(name).exists()]
    if there and not force:
        remedy = "Give --force to replace it, or a folder with --out."
        got = "one that is there"
        raise OutputError(there[0], "must not exist yet", got=got, remedy=remedy)
    for name, data in files.items():
        write_whole(name, data, force=force)
    return tuple(map(Path, files))
