"""Files written whole or not at all, never over one that is there unless that is wanted."""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

from palette.errors import InputError
from palette.sheets.places import check_file, check_folder, exists, refused

__all__ = ["file_name", "write_beside", "write_folder", "write_whole"]

_LONGEST_NAME = 80
_RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")  # names that Windows refuses


def file_name(text: str, *, default: str = "plan") -> str:
    """Turn a name that a person typed into one that is safe for a file, without its ending.

    Letters and digits of any script stay, everything else becomes a hyphen, so that the name
    can neither leave its folder nor be hidden, and every system can store it.

    Parameters
    ----------
    text : str
        What was typed.
    default : str
        Used where nothing is left.

    Examples
    --------
    >>> file_name("../Hedge bank, spring!"), file_name("...")
    ('Hedge-bank-spring', 'plan')
    """
    name = re.sub(r"[\W_]+", "-", text).strip("-")[:_LONGEST_NAME].strip("-")
    while len(name.encode()) > 2 * _LONGEST_NAME:
        name = name[:-1]
    return f"{name}-" if _RESERVED.fullmatch(name) else name or default


def write_whole(path: str | Path, data: bytes, *, force: bool = False) -> None:
    """Write a file so that it is there complete, or not there at all.

    The bytes go to a temporary file in the same folder, reach the disk, and take the name in
    one step; whatever goes wrong before, the old state stays.

    Parameters
    ----------
    path : str or Path
        Where to; its folder must exist.
    data : bytes
        All of the file.
    force : bool
        Whether a file that is there may be replaced.

    Raises
    ------
    OutputError
        If the file exists and `force` is false, or the place cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_whole(f"{folder}/stripes.csv", b"number,colour")
    ...     Path(folder, "stripes.csv").read_bytes()
    b'number,colour'
    """
    target = Path(path)
    check_file(target, force=force)
    if target.is_symlink():
        target = target.resolve()
    part = target.parent / f".leafweft-{secrets.token_hex(8)}.part"
    try:
        _write_through(part, data)
        _take_name(part, target, force=force)
    except FileExistsError as error:
        raise exists(Path(path)) from error
    except OSError as error:
        raise refused(Path(path), error) from error
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)


def _write_through(path: Path, data: bytes) -> None:
    """Write a new file and wait until the disk has it; the umask decides who may read it."""
    with path.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _take_name(part: Path, target: Path, *, force: bool) -> None:
    """Give the finished file its name; without force it never replaces one made meanwhile."""
    if not force:
        try:
            os.link(part, target)
        except FileExistsError:
            raise
        except OSError:  # a disk without hard links, such as a memory card
            if target.exists():
                raise FileExistsError from None
        else:
            return
    os.replace(part, target)


def write_beside(
    folder: str | Path, files: Mapping[str, bytes], *, force: bool = False
) -> tuple[Path, ...]:
    """Write files into a folder that holds other things: all of them, or none.

    Takes and returns what `write_folder` does.

    Raises
    ------
    OutputError
        If one of the files is there and `force` is false, or the place cannot be written.
    """
    for name in files:
        check_file(Path(folder, name), force=force)
    return write_folder(folder, files, force=True)


def write_folder(
    folder: str | Path, files: Mapping[str, bytes], *, force: bool = False
) -> tuple[Path, ...]:
    """Write a folder of files: all of them, or none.

    Everything is written into a temporary folder first, beside it or in it. A folder that is
    not there yet then takes its name in one step. Into one that is there (`force`) the files
    are moved one by one, others in it stay, and if a move fails the old ones come back.

    Parameters
    ----------
    folder : str or Path
        Its parent must exist.
    files : mapping of str to bytes
        Plain file names and their contents.
    force : bool
        Whether the folder may exist; files of the same names are then replaced.

    Returns
    -------
    tuple of Path
        The files, in the order given.

    Raises
    ------
    InputError
        If a name would leave the folder.
    OutputError
        If the folder exists and `force` is false, or the place cannot be written.
    """
    place = Path(folder)
    for name in files:
        if not name or name != Path(name).name or name in {".", ".."} or {"\\", "\0"} & set(name):
            raise InputError(f"file {name!r}", "must be a plain name inside the folder")
    check_folder(place, force=force, names=tuple(files))
    try:
        near = place if place.is_dir() else place.parent  # a place that may be written
        work = near / f".leafweft-{secrets.token_hex(8)}.part"
        work.mkdir()
    except OSError as error:
        raise refused(place, error) from error
    try:
        for name, data in files.items():
            _write_through(work / name, data)
        _move_all(work, place, tuple(files))
    except OSError as error:
        raise refused(place, error) from error
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return tuple(place / name for name in files)


def _move_all(work: Path, place: Path, names: tuple[str, ...]) -> None:
    """Rename the finished folder, or move its files into the one that is there."""
    if not place.exists():
        os.rename(work, place)
        return
    undo: list[Callable[[], object]] = []
    kept = work / "before"
    kept.mkdir()
    try:
        for name in names:
            new, old, safe = work / name, place / name, kept / name
            if os.path.lexists(old):
                os.rename(old, safe)
                undo.append(lambda old=old, safe=safe: os.replace(safe, old))  # type: ignore[misc]
            os.rename(new, old)
            undo.append(lambda old=old: old.unlink())  # type: ignore[misc]
    except OSError:
        for step in reversed(undo):
            step()
        raise
