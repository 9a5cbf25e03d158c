"""One palette for each of many photographs, as a brief asks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from palette.errors import InputError
from palette.perception.colour_text import parse_colour
from palette.plans.taking import photos_of
from palette.swatches.many import Outcome, extract_many

if TYPE_CHECKING:
    from palette.photo.photo import Photo
    from palette.plans.brief import Brief
    from palette.swatches.palette import Palette

__all__ = ["palettes_of_each"]


def palettes_of_each(
    paths: Sequence[Path],
    brief: Brief,
    *,
    jobs: int = 1,
    make: Callable[[str, Palette], Any] | None = None,
) -> Iterator[Outcome]:
    """Take one palette for each photograph, in order, as soon as it is there.

    Parameters
    ----------
    paths : sequence of Path
    brief : Brief
        Region, mask, light, kept and left-out colours are the same for all.
    jobs : int
        Photographs at the same time.
    make : callable, optional
        Makes something of each path and its palette, where the palette is taken.

    Yields
    ------
    Outcome
        With the palette or the error; one bad file does not stop the rest.

    Raises
    ------
    InputError
        A neutral place is given: it is another one in every photograph.
    """
    from palette.perception.light import parse_light

    if brief.neutral is not None:
        rule = "must be used on one photograph at a time"
        raise InputError("--neutral", rule, got=f"{len(paths)} photographs")
    return extract_many(
        paths,
        None if brief.colours == "auto" else brief.colours,
        jobs=jobs,
        read=partial(_opened, brief),
        make=make,
        shadows=brief.shadows,
        keep=tuple(parse_colour(text, thing="keep") for text in brief.keep),
        leave_out=tuple(parse_colour(text, thing="leave-out") for text in brief.leave_out),
        light=None if brief.light is None else parse_light(brief.light),
    )


def _opened(brief: Brief, path: str) -> Photo:
    """Open one photograph; at the top of a module so that another process can call it."""
    (photo,) = photos_of((Path(path),), brief)
    return photo
