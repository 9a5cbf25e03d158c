"""From a photograph to a palette."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from palette.clusters.choosing import Choice, choose
from palette.clusters.grouping import nearest
from palette.clusters.shadows import folded, lit_places
from palette.clusters.threads import one_thread
from palette.errors import InputError
from palette.perception.even import even_to_lab, lab_to_even
from palette.perception.light import Light
from palette.perception.names import colour_names
from palette.perception.spaces import hex_to_lab, lab_to_hex
from palette.photo.photo import Photo
from palette.swatches.palette import Palette, PaletteSource, Swatch
from palette.swatches.taking import Taken, take

__all__ = ["MOST_COLOURS", "extract"]

MOST_COLOURS = 64
_ACCENT_UP_TO = 0.05
_PLACE_POINTS = 20_000  # as many tell where a colour mostly lies

Lab = tuple[float, float, float]
Points = NDArray[np.float64]


def extract(
    photo: Photo | Sequence[Photo],
    colours: int | None = 8,
    *,
    accents: bool = True,
    shadows: str = "keep",
    keep: Sequence[str | Lab] = (),
    leave_out: Sequence[str | Lab] = (),
    light: Light | None = None,
) -> Palette:
    """Take a palette from a photograph, or one palette from several.

    Parameters
    ----------
    photo : Photo or sequence of Photo
        Several photographs have equal parts in the palette, whatever their sizes.
    colours : int or None
        How many swatches, accents and kept colours among them; None: as many as the picture
        has, with the reason in ``palette.source.why``.
    accents : bool
        Whether a small joined patch (0.1 % of the picture or more), or blobs of one colour
        (0.3 % together), far from all other swatches get one of their own; at most about a
        third of the swatches are accents.
    shadows : "keep" or "fold"
        "fold": the dark side of a leaf counts with its lit colour.
    keep : sequence of ``#rrggbb`` or CIELAB
        Colours that the palette must hold, exactly as they are.
    leave_out : sequence of ``#rrggbb`` or CIELAB
        Colours that do not count, with all that is like them.
    light : Light, optional
        The light of the photograph; its cast is taken away.

    Returns
    -------
    Palette
        Largest share first. Fewer swatches than asked are a result, with a sentence in
        ``warnings``. There is no chance in it: the same photograph and settings give the same
        palette whatever the number of threads, and on other machines the same to the last digits
        of their arithmetic.

    Raises
    ------
    InputError
        Where a setting is out of range, or leaves nothing to count.

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.full((2, 3, 3), [93, 115, 58], dtype=np.uint8))
    >>> palette = extract(leaf, 3)
    >>> palette.swatches[0].hex, palette.warnings
    ('#5d733a', ('one colour found; 3 asked',))
    """
    photos = (photo,) if isinstance(photo, Photo) else tuple(photo)
    kept = _colours("keep", keep)
    _check(photos, colours, shadows, kept)
    with one_thread():
        taken = take(photos, light=light, leave_out=_colours("leave out", leave_out))
        fold = shadows == "fold"
        points = lab_to_even(folded(taken.labs)) if fold else taken.even
        locked = np.array(kept).reshape(-1, 3)
        places = lab_to_even(folded(locked) if fold else locked)
        choice = choose(points, taken.weights, taken.maps, colours, locked=places, accents=accents)
        owner, _ = nearest(points, choice.centres)
        if fold:
            labs = lit_places(taken.labs, taken.weights, owner, len(choice.centres))
        else:
            labs = even_to_lab(choice.centres)
        labs[: len(locked)] = locked
        swatches = _swatches(labs, taken, owner, choice, len(locked))
    return Palette(
        swatches=swatches,
        source=PaletteSource(
            photos=tuple(one.name for one in photos),
            width_px=photos[0].width_px,
            height_px=photos[0].height_px,
            colours_asked=colours,
            why=choice.why,
            settings=_settings(photos, accents, shadows, keep, leave_out, light),
        ),
        warnings=(*_warnings(photos, swatches, colours, kept), *_scattered(choice, fold)),
    )


def _check(
    photos: tuple[Photo, ...], colours: int | None, shadows: str, kept: tuple[Lab, ...]
) -> None:
    if not photos:
        raise InputError("photo", "must be given", got="none")
    if colours is not None and not 1 <= colours <= MOST_COLOURS:
        raise InputError(
            "--colours",
            f"must be from 1 to {MOST_COLOURS}, or auto",
            got=f"{colours}",
            remedy="Most cloths have 3 to 9.",
        )
    if colours is not None and len(kept) > colours:
        raise InputError(
            "--keep",
            f"must be at most --colours ({colours})",
            got=f"{len(kept)}",
            remedy="Ask for more colours.",
        )
    if shadows not in ("keep", "fold"):
        raise InputError("--shadows", "must be keep or fold", got=repr(shadows))


def _colours(thing: str, given: Sequence[str | Lab]) -> tuple[Lab, ...]:
    return tuple(hex_to_lab(one) if isinstance(one, str) else _lab(thing, one) for one in given)


def _lab(thing: str, given: Lab) -> Lab:
    """CIELAB of one colour that was given as numbers."""
    values = np.asarray(given, dtype=float)
    if values.shape != (3,) or not np.isfinite(values).all() or not 0 <= values[0] <= 100:
        rule = "must be three finite numbers, the first from 0 to 100"
        raise InputError(thing, rule, got=f"{given}", remedy="Give CIELAB, or #rrggbb.")
    lightness, a, b = values.tolist()
    return lightness, a, b


def _swatches(
    labs: Points, taken: Taken, owner: NDArray[np.intp], choice: Choice, locked: int
) -> tuple[Swatch, ...]:
    """Swatches of the groups that hold something, and of the kept colours; largest first."""
    count = len(labs)
    sums = np.bincount(owner, weights=taken.weights, minlength=count)
    shares = sums / sums.sum()
    places = _places(taken, owner, count)
    rows = [row for row in range(count) if shares[row] > 0 or row < locked]
    rows.sort(key=lambda row: (-shares[row], tuple(labs[row])))
    names = colour_names(labs[rows])
    swatches = []
    for name, row in zip(names, rows, strict=True):
        text, inside = lab_to_hex(labs[row])
        lightness, a, b = (float(value) for value in labs[row])
        swatches.append(
            Swatch(
                name=name,
                lab=(lightness, a, b),
                hex=text,
                share=float(shares[row]),
                accent=bool(choice.accents[row]) and bool(shares[row] < _ACCENT_UP_TO),
                in_srgb=inside,
                place=(float(places[row, 0]), float(places[row, 1])),
            )
        )
    return tuple(swatches)


def _places(taken: Taken, owner: NDArray[np.intp], count: int) -> Points:
    """Mean position (across, down) of each group over all photographs, in [0, 1]."""
    sums, points = np.zeros((count, 2)), np.zeros(count)
    for photo in taken.maps:
        step = max(1, int(np.sqrt(photo.where.size / _PLACE_POINTS)))
        where = photo.where[::step, ::step]
        rows, columns = np.nonzero(where >= 0)
        mine = owner[photo.first + where[rows, columns]]
        height, width = where.shape
        part = np.full(len(mine), 1 / max(len(mine), 1))
        points += np.bincount(mine, weights=part, minlength=count)
        sums[:, 0] += np.bincount(mine, weights=part * (columns + 0.5) / width, minlength=count)
        sums[:, 1] += np.bincount(mine, weights=part * (rows + 0.5) / height, minlength=count)
    return np.where(points[:, None] > 0, sums / np.maximum(points, 1e-12)[:, None], 0.5)


def _settings(
    photos: tuple[Photo, ...],
    accents: bool,
    shadows: str,
    keep: Sequence[str | Lab],
    leave_out: Sequence[str | Lab],
    light: Light | None,
) -> tuple[tuple[str, str], ...]:
    """Whatever decided the palette beside the photographs and the count, in words."""
    settings = [setting for photo in photos for setting in photo.settings]
    settings += [("profile", profile) for profile in sorted({p.profile.name for p in photos})]
    if light is not None:
        settings.append(("light", light.name))
    settings += [("keep", str(one)) for one in keep]
    settings += [("leave out", str(one)) for one in leave_out]
    settings += [("shadows", shadows), ("accents", "yes" if accents else "no")]
    return tuple(settings)


def _warnings(
    photos: tuple[Photo, ...],
    swatches: tuple[Swatch, ...],
    colours: int | None,
    kept: tuple[Lab, ...],
) -> tuple[str, ...]:
    several = len(photos) > 1
    found = [f"{p.name}: {text}" if several else text for p in photos for text in p.warnings]
    if colours is not None and len(swatches) < colours:
        count = "one colour" if len(swatches) == 1 else f"{len(swatches)} colours"
        found.append(f"{count} found; {colours} asked")
    found += [
        f"nothing in the picture is nearest to the kept colour {swatch.name} ({swatch.hex})"
        for swatch in swatches
        if swatch.share == 0 and swatch.lab in kept
    ]
    found += [
        f"{swatch.name} lies outside sRGB: {swatch.hex} is only the nearest a screen can show"
        for swatch in swatches
        if not swatch.in_srgb
    ]
    return tuple(found)


def _scattered(choice: Choice, fold: bool) -> tuple[str, ...]:
    """Say which colours were strewn too thinly to get a swatch."""
    if fold:
        return ()
    hexes = [(lab_to_hex(even_to_lab(place))[0], part) for place, part in choice.scattered]
    return tuple(
        f"{part * 100:.0f} % of the picture is strewn about {text} without settling on a shade, "
        f"so it has no swatch; to have it, keep {text}"
        for text, part in hexes
    )
