"""What ``leafweft palette`` does beside taking one palette: merging, notation, many photographs."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from cli.output import result, talk

if TYPE_CHECKING:
    from palette.plans.brief import Brief
    from palette.swatches.palette import Palette

__all__ = ["alone", "each_palette", "edited", "settled"]


def edited(palette: Palette, merges: Sequence[str], *, munsell: bool) -> Palette:
    """Merge the colours that were named, and add Munsell notation where it is wanted."""
    from palette.swatches.editing import merge, with_munsell

    if merges:
        palette = merge(palette, [[part.strip() for part in text.split("+")] for text in merges])
    return with_munsell(palette) if munsell else palette


def alone(option: str) -> None:
    """Refuse an option that works on one palette where there are several; "" is none."""
    from palette.errors import InputError

    if option:
        remedy = "Leave it out, or name one photograph."
        rule = "must go with one palette at a time"
        raise InputError(option, rule, got="several", remedy=remedy)


def settled(asked: Mapping[str, object], path: Path) -> None:
    """Refuse options of taking colours where a palette file has them already."""
    from palette.errors import InputError

    if asked:
        rule = "must go with a photograph; a palette file has its colours already"
        raise InputError(f"--{next(iter(asked))}", rule, got=str(path))


def each_palette(
    places: Sequence[Path],
    brief: Brief,
    *,
    jobs: int,
    out: Path | None,
    force: bool,
    json_: bool,
) -> None:
    """Take one palette for each photograph; one that fails does not stop the rest.

    Ends with the list of those that failed, and the exit code of the first of them.
    """
    from palette.plans.each import palettes_of_each
    from palette.plans.palette_contract import palette_to_json
    from palette.sheets.keeping import keeping
    from palette.sheets.writing import write_beside

    paths = [path for place in places for path in _photos(place)]
    folder = out or (None if json_ else Path("palettes"))
    if folder is not None:
        _make(folder)
    names = _names(paths)
    made: dict[str, object] = {}
    failed: list[tuple[str, Exception]] = []
    make = None if folder is None else partial(_files, names)
    taken = palettes_of_each(paths, brief, jobs=jobs, make=make)
    bar = typer.progressbar(taken, length=len(paths), file=sys.stderr)
    with bar as outcomes:
        for path, outcome in zip(paths, outcomes, strict=True):
            if outcome.palette is None:
                failed.append((str(path), outcome.error or ValueError("no palette")))
                continue
            try:
                if folder is not None:
                    with keeping(paths):
                        write_beside(folder, outcome.made, force=force)
            except OSError as error:
                failed.append((str(path), error))
                continue
            made[str(path)] = json.loads(palette_to_json(outcome.palette))
    if json_:
        result(json.dumps(made, indent=2, ensure_ascii=False))
    else:
        result("\n".join(made))
    talk(f"{len(made)} of {len(paths)} photographs; {len(failed)} could not be used.")
    for _, reason in failed:
        talk(f"leafweft: {reason}")
    if failed:
        raise typer.Exit(getattr(failed[0][1], "exit_code", 3))


def _files(names: Mapping[Path, str], path: str, palette: Palette) -> dict[str, bytes]:
    """Contents of the files of one palette; at the top of a module so that workers find it."""
    from palette.sheets.palette_files import palette_files

    return palette_files(palette, Path(f"{names[Path(path)]}-palette.json"))


def _make(folder: Path) -> None:
    from palette.errors import OutputError

    remedy = "Choose another place with --out."
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise OutputError(str(folder), "must be a folder", got="a file", remedy=remedy) from None
    except OSError as error:
        rule = "must be a folder that can be made"
        got = OutputError.why(error)
        raise OutputError(str(folder), rule, got=got, remedy=remedy) from None


def _photos(place: Path) -> Iterable[Path]:
    from palette.swatches.many import photo_files

    return photo_files(place) if place.is_dir() else (place,)


def _names(paths: Sequence[Path]) -> dict[Path, str]:
    """Names of the palette files: the photograph's, with its ending where two share it."""
    stems = [path.stem for path in paths]
    return {
        path: path.stem if stems.count(path.stem) == 1 else path.name.replace(".", "-")
        for path in paths
    }
