"""Places to write to: refused in one sentence before the work is done, where they cannot be."""

from __future__ import annotations

import errno
import os
from collections.abc import Collection
from pathlib import Path

from palette.errors import OutputError
from palette.sheets.keeping import check_kept

__all__ = ["check_file", "check_folder", "exists", "refused"]

_REASONS = {
    errno.ENOSPC: ("needs room on the disk", "the disk is full", "Free some space."),
    errno.EDQUOT: ("needs room on the disk", "the quota is used up", "Free some space."),
    errno.EROFS: ("must be in a place that can be written", "a read-only disk", ""),
    errno.EACCES: ("must be in a place that can be written", "permission refused", ""),
    errno.EPERM: ("must be in a place that can be written", "permission refused", ""),
    errno.ENAMETOOLONG: ("must have a name that the disk can hold", "a name too long", ""),
    errno.ENOTDIR: ("must be in a folder", "a path through a file", ""),
    errno.ENOENT: ("must be in a folder that exists", "no such folder", ""),
}
_ELSEWHERE = "Choose another place with --out."


def refused(path: Path, error: OSError | ValueError) -> OutputError:
    """Turn what the system said into one sentence."""
    number, said = (
        (error.errno or 0, (error.strerror or "an error").lower())
        if isinstance(error, OSError)
        else (0, "a name that no system takes")
    )
    rule, got, remedy = _REASONS.get(number, ("must be writable", said, ""))
    return OutputError(str(path), rule, got=got, remedy=remedy or _ELSEWHERE)


def exists(path: Path) -> OutputError:
    """Make the refusal of a file that is there already; the caller raises it."""
    remedy = "Give --force to replace it, or another name with --out."
    return OutputError(str(path), "must not exist yet", got="one that is there", remedy=remedy)


def _may_write(path: Path, *, force: bool) -> None:
    if "\0" in str(path):
        got = repr(str(path))
        raise OutputError("output", "must be a name without a null character", got=got)
    if path.is_dir():
        raise OutputError(str(path), "must be a file", got="a folder", remedy=_ELSEWHERE)
    check_kept(path)
    if os.path.lexists(path) and not force:
        raise exists(path)
    if path.exists() and not path.is_file():
        rule = "must be an ordinary file"
        raise OutputError(str(path), rule, got="a device or pipe", remedy=_ELSEWHERE)
    _check_parent(path)


def check_folder(folder: str | Path, *, force: bool = False, names: Collection[str] = ()) -> None:
    """Refuse a folder that could not be written, before the work for its files is begun.

    Parameters
    ----------
    folder : str or Path
    force : bool
        Whether the folder may exist.
    names : collection of str
        Files that are going to be written into it, as far as they are known.

    Raises
    ------
    OutputError
        If it exists and `force` is false, the folder it is to lie in does not exist, or one of
        the names is a folder or a file that the result is made from.
    """
    place = Path(folder)
    try:
        _may_hold(place, names, force=force)
    except OutputError:
        raise
    except (OSError, ValueError) as error:
        raise refused(place, error) from error


def _may_hold(place: Path, names: Collection[str], *, force: bool) -> None:
    if os.path.lexists(place) and not (force and place.is_dir()):
        raise _folder_exists(place)
    _check_parent(place)
    if place.is_dir():
        for name in names:
            _may_write(place / name, force=force)


def _check_parent(place: Path) -> None:
    """Refuse a place in a folder that is not there."""
    if not place.is_absolute():
        os.getcwd()  # the folder we are in may have been taken away
    if not place.parent.is_dir():
        through_file = any(parent.is_file() for parent in place.parents)
        raise OSError(errno.ENOTDIR if through_file else errno.ENOENT, "")


def check_file(path: str | Path, *, force: bool = False) -> None:
    """Refuse a file that is there already, or cannot be, as `write_whole` would."""
    try:
        _may_write(Path(path), force=force)
    except OutputError:
        raise
    except (OSError, ValueError) as error:
        raise refused(Path(path), error) from error


def _folder_exists(place: Path) -> OutputError:
    got = "one that is there" if place.is_dir() else "a file of that name"
    remedy = "Give --force to replace its files, or another folder with --out."
    return OutputError(
        str(place), "must be a folder that does not exist yet", got=got, remedy=remedy
    )
