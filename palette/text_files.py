"""Text files that people give: read whole, within a limit, and only where they are ordinary files.

A byte order mark, as some editors put first, is left out.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from palette.errors import FileError

__all__ = ["ordinary_file", "read_file", "read_text"]

_CHECK = "Check the name and the folder."


def ordinary_file(
    path: Path, *, error: type[FileError] = FileError, thing: str = "", rule: str = "must be a file"
) -> int:
    """Give the size of a file in bytes, once it is sure that it is one that can be read whole.

    Parameters
    ----------
    path : Path
    error : type of FileError
        Raised where it is not.
    thing : str
        How the message names the file; without it: by its path.
    rule : str
        The rule that is broken where there is no such file.

    Raises
    ------
    FileError
        Of the kind `error`: nothing by that name, a folder, a device or a pipe, which may never
        end.

    Examples
    --------
    >>> ordinary_file(Path("no such file.csv"))
    Traceback (most recent call last):
    palette.errors.FileError: no such file.csv: must be a file; got nothing by that name. Check
    the name and the folder.
    """
    named = thing or str(path)
    try:
        found = path.stat()
    except OSError as problem:
        got = "a link that leads nowhere" if os.path.islink(path) else error.why(problem)
        raise error(named, rule, got=got, remedy=_CHECK) from None
    except ValueError:  # a null character in the name
        raise error(named, rule, got="nothing by that name", remedy=_CHECK) from None
    if stat.S_ISDIR(found.st_mode):
        raise error(named, rule, got="a folder")
    if not stat.S_ISREG(found.st_mode):
        rule = "must be an ordinary file"
        raise error(named, rule, got="a pipe or a device", remedy="Save it as a file first.")
    return found.st_size


def read_file(
    path: Path,
    *,
    most_bytes: int,
    error: type[FileError] = FileError,
    thing: str = "",
    rule: str = "must be a file",
) -> bytes:
    """Read a file of at most `most_bytes`; takes and raises what `ordinary_file` does.

    Raises
    ------
    FileError
        Of the kind `error`; where the file is larger or may not be read, too.
    """
    named = thing or str(path)
    size = ordinary_file(path, error=error, thing=thing, rule=rule)
    try:
        with path.open("rb") as file:
            data = file.read(most_bytes + 1)
    except OSError as problem:
        rule = "must be a file that can be read"
        raise error(named, rule, got=error.why(problem)) from None
    if len(data) > most_bytes:
        got = f"{max(size, len(data)) / 1e6:.1f} MB"
        raise error(named, f"must be under {most_bytes / 1e6:g} MB", got=got)
    return data


def read_text(
    path: Path,
    *,
    most_bytes: int,
    error: type[FileError] = FileError,
    thing: str = "",
    rule: str = "must be a file",
    form: str = "must be text",
) -> str:
    r"""Read a text file in UTF-8, with or without a byte order mark; line ends become one kind.

    Takes and raises what `read_file` does; `form` is the rule that bytes break that are no text.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder, "brief.toml")
    ...     _ = path.write_bytes(b"\xef\xbb\xbfseed = 1")
    ...     read_text(path, most_bytes=100)
    'seed = 1'
    """
    data = read_file(path, most_bytes=most_bytes, error=error, thing=thing, rule=rule)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise error(thing or str(path), form, got="bytes that are no text") from None
    return text.replace("\r\n", "\n").replace("\r", "\n")
