"""The files that a result is made from: nothing that is written may take their place.

Except what is made to be worked on: a brief, a palette, a plan or a stripes table that was edited
may be followed, with force, by the one that comes of it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

from palette.errors import OutputError

__all__ = ["check_kept", "keeping"]

_KEPT: ContextVar[tuple[Path, ...]] = ContextVar("_KEPT", default=())


@contextmanager
def keeping(paths: Iterable[str | Path]) -> Iterator[None]:
    """Let nothing be written over these files inside the block, not even with force.

    Parameters
    ----------
    paths : iterable of str or Path
        What the results are made from.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     photo = Path(folder, "hedge.png")
    ...     _ = photo.write_bytes(b"a photograph")
    ...     with keeping([photo]):
    ...         check_kept(Path(folder, "hedge.json"))
    """
    more = (Path(path) for path in paths if not os.path.isdir(path))
    token = _KEPT.set((*_KEPT.get(), *(path for path in more if not _worked_on(path))))
    try:
        yield
    finally:
        _KEPT.reset(token)


def check_kept(path: Path) -> None:
    """Refuse a path that is one of the files kept, by whatever name it goes.

    Raises
    ------
    OutputError
    """
    for kept in _KEPT.get():
        if _same(path, kept):
            raise OutputError(
                str(path),
                "must not be a file that the result is made from",
                got=str(kept),
                remedy="Choose another place with --out; --force does not help here.",
            )


def _worked_on(path: Path) -> bool:
    """Whether a file is one of those that are edited and then made anew in their place."""
    place = Path(os.path.realpath(path))
    return place.suffix in (".json", ".toml") or place.name == "stripes.csv"


def _same(path: Path, kept: Path) -> bool:
    """Whether two names lead to one file: links and other spellings included."""
    try:
        return os.path.samefile(path, kept)
    except (OSError, ValueError):  # one of them is not there
        return False
