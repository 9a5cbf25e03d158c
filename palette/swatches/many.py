"""Palettes of many photographs, several at a time; one bad file does not stop the rest."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from palette.errors import InputError, LeafweftError
from palette.photo.photo import Photo
from palette.photo.reading import read_photo
from palette.swatches.extraction import extract
from palette.swatches.palette import Palette
from palette.swatches.workers import leave_interrupts, make_ready, worker_context

__all__ = ["Outcome", "extract_many", "photo_files"]

ENDINGS = frozenset(
    [
        ".avif",
        ".bmp",
        ".gif",
        ".heic",
        ".heif",
        ".jfif",
        ".jpeg",
        ".jpg",
        ".png",
        ".tif",
        ".tiff",
        ".webp",
    ]
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of one photograph: a palette, or the error that stopped it.

    `made` is what was made of the palette beside it, where that was asked for.
    """

    path: str
    palette: Palette | None = None
    error: LeafweftError | None = None
    made: Any = None


def photo_files(folder: str | Path) -> tuple[Path, ...]:
    """Photographs directly in a folder, by name; hidden files are passed over.

    Raises
    ------
    InputError
        Where there are none.
    """
    place = Path(folder)
    found = sorted(
        path
        for path in place.iterdir()
        if path.is_file() and path.suffix.lower() in ENDINGS and not path.name.startswith(".")
    )
    if not found:
        raise InputError(
            place.name or str(place), "must hold a photograph", got="a folder without one"
        )
    return tuple(found)


def extract_many(
    paths: Sequence[str | Path],
    colours: int | None = 8,
    *,
    jobs: int = 1,
    read: Callable[[str], Photo] = read_photo,
    make: Callable[[str, Palette], Any] | None = None,
    **settings: Any,  # noqa: ANN401  whatever `extract` takes
) -> Iterator[Outcome]:
    """Palette of each photograph, in the order given, as soon as it is there.

    Parameters
    ----------
    paths : sequence of str or Path
    colours : int or None
    jobs : int
        Photographs at the same time, each in a process of its own; the palettes are the same
        whatever the number.
    read : callable
        Opens one photograph from its path; one that another process can be given.
    make : callable, optional
        Makes something of each path and its palette, such as a drawing, in the same process;
        one that another process can be given.
    **settings
        As for `extract`.

    Yields
    ------
    Outcome
        One for each path, with the palette or the error.

    Raises
    ------
    InputError
        Where `jobs` is less than 1.

    Examples
    --------
    >>> [outcome] = extract_many(["no such photo.jpg"])
    >>> outcome.palette is None, str(outcome.error)
    (True, 'no such photo.jpg: must be a file; got nothing by that name. Check the name and the
    folder.')
    """
    if not jobs >= 1:
        raise InputError("--jobs", "must be at least 1", got=f"{jobs}")
    work = partial(_outcome, colours=colours, read=read, make=make, settings=settings)
    names = [str(path) for path in paths]
    if jobs == 1 or len(names) < 2:
        yield from map(work, names)
        return
    make_ready()
    context = worker_context()
    with ProcessPoolExecutor(
        min(jobs, len(names)), mp_context=context, initializer=leave_interrupts
    ) as pool:
        yield from pool.map(work, names)


def _outcome(
    path: str,
    colours: int | None,
    read: Callable[[str], Photo],
    make: Callable[[str, Palette], Any] | None,
    settings: dict[str, Any],
) -> Outcome:
    try:
        palette = extract(read(path), colours, **settings)
        made = None if make is None else make(path, palette)
    except LeafweftError as error:
        return Outcome(path=path, error=error)
    return Outcome(path=path, palette=palette, made=made)
