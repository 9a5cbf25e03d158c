"""Everything of a plan in one archive, the same bytes every time."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping

from palette.errors import InputError

__all__ = ["archive_bytes"]

_THEN = (1980, 1, 1, 0, 0, 0)  # the earliest date that an archive can hold
_PACKED = frozenset({".png", ".jpg", ".jpeg", ".pdf", ".zip"})
_UNIX = 3
_READ_ALL = 0o100644 << 16


def archive_bytes(files: Mapping[str, bytes], *, folder: str = "") -> bytes:
    """Pack files into a zip archive without dates.

    Parameters
    ----------
    files : mapping of str to bytes
        Plain file names and their contents; kept in order.
    folder : str
        Folder inside the archive that holds them, "" for none.

    Returns
    -------
    bytes

    Raises
    ------
    InputError
        If a name would leave the archive's folder.

    Examples
    --------
    >>> archive_bytes({"a.txt": b"moss"}) == archive_bytes({"a.txt": b"moss"})
    True
    """
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        for name, data in files.items():
            for part in (name, folder or "folder"):
                if "/" in part or "\\" in part or part in {"", ".", ".."}:
                    raise InputError(f"file {part!r}", "must be a plain name inside the archive")
            entry = zipfile.ZipInfo(f"{folder}/{name}" if folder else name, date_time=_THEN)
            entry.create_system = _UNIX
            entry.external_attr = _READ_ALL
            packed = any(name.lower().endswith(ending) for ending in _PACKED)
            method = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
            archive.writestr(entry, data, compress_type=method)
    return stream.getvalue()
