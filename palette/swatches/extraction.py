"""From a photograph to a palette."""

from __future__ import annotations

import numpy as np

from palette.clusters.grouping import group, nearest
from palette.errors import InputError
from palette.perception.device import codes_to_lab
from palette.perception.names import colour_names
from palette.perception.spaces import lab_to_hex
from palette.photo.counting import count_colours
from palette.photo.photo import Photo
from palette.swatches.palette import Palette, PaletteSource, Swatch

__all__ = ["extract"]

MOST_COLOURS = 64


def extract(photo: Photo, colours: int | None = 8, *, seed: int = 0) -> Palette:
    """Take a palette from a photograph.

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.full((2, 3, 3), [93, 115, 58], dtype=np.uint8))
    >>> palette = extract(leaf, 3)
    >>> palette.swatches[0].hex, palette.warnings
    ('#5d733a', ('one colour found; 3 asked',))
    """
    if colours is not None and not 1 <= colours <= MOST_COLOURS:
        raise InputError("--colours", f"must be from 1 to {MOST_COLOURS}", got=f"{colours}")
    asked = 8 if colours is None else colours
    counted = count_colours(photo)
    labs = codes_to_lab(photo.profile, counted.codes)
    centres = group(labs, counted.weights, asked, seed=seed)
    owner = nearest(labs, centres)
    shares = np.bincount(owner, weights=counted.weights, minlength=len(centres))
    rows, columns = np.nonzero(counted.where >= 0)
    mine = owner[counted.where[rows, columns]]
    points = np.maximum(np.bincount(mine, minlength=len(centres)), 1)
    height, width = counted.where.shape
    across = np.bincount(mine, weights=(columns + 0.5) / width, minlength=len(centres)) / points
    down = np.bincount(mine, weights=(rows + 0.5) / height, minlength=len(centres)) / points
    names = colour_names(centres)
    swatches = []
    for i in np.argsort(-shares, kind="stable"):
        text, inside = lab_to_hex(centres[i])
        lightness, a, b = (float(value) for value in centres[i])
        swatches.append(
            Swatch(
                name=names[i],
                lab=(lightness, a, b),
                hex=text,
                share=float(shares[i]),
                in_srgb=inside,
                place=(float(across[i]), float(down[i])),
            )
        )
    warnings = list(photo.warnings)
    if len(centres) < asked:
        found = "one colour" if len(centres) == 1 else f"{len(centres)} colours"
        warnings.append(f"{found} found; {asked} asked")
    return Palette(
        swatches=tuple(swatches),
        source=PaletteSource(
            photos=(photo.name,),
            width_px=photo.width_px,
            height_px=photo.height_px,
            colours_asked=colours,
        ),
        warnings=tuple(warnings),
    )
