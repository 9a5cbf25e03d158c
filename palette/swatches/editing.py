"""Changing a palette by hand: merging swatches, ordering them, Munsell notation."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from palette.errors import InputError
from palette.perception.munsell import munsell_notations
from palette.swatches.palette import Palette, Swatch

__all__ = ["in_order", "merge", "with_munsell"]

_ACROSS, _DOWN = "across", "down"


def merge(palette: Palette, groups: Sequence[Sequence[str]]) -> Palette:
    """Palette with some of its swatches made into one.

    The largest of each group gives its colour and name; the shares are added, the place is the
    mean by share.

    Parameters
    ----------
    palette : Palette
    groups : sequence of sequences of str
        Names of swatches that belong together.

    Returns
    -------
    Palette

    Raises
    ------
    InputError
        Where a name is not in the palette, stands in two groups, or a group has one name only.

    Examples
    --------
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.7)
    >>> leaf = Swatch(name="leaf", lab=(60.0, -20.0, 40.0), hex="#7f9d48", share=0.3)
    >>> [s.share for s in merge(Palette(swatches=(moss, leaf)), [["leaf", "moss"]]).swatches]
    [1.0]
    """
    _check(palette, groups)
    swatches = {swatch.name: swatch for swatch in palette.swatches}
    told = list(palette.warnings)
    for names in groups:
        parts = [swatches.pop(name) for name in names]
        parts.sort(key=lambda swatch: (-swatch.share, swatch.lab))
        whole = _joined(parts)
        swatches[whole.name] = whole
        told.append(f"{', '.join(part.name for part in parts[1:])} merged into {whole.name}")
    order = sorted(swatches.values(), key=lambda swatch: (-swatch.share, swatch.lab))
    return replace(palette, swatches=tuple(order), warnings=tuple(told))


def _check(palette: Palette, groups: Sequence[Sequence[str]]) -> None:
    known = [swatch.name for swatch in palette.swatches]
    seen: set[str] = set()
    for names in groups:
        if len(set(names)) < 2:
            raise InputError(
                "--merge", "must name two colours or more", got=f"{', '.join(names) or 'none'}"
            )
        for name in dict.fromkeys(names):
            if name not in known:
                raise InputError(
                    "--merge",
                    "must name colours of the palette",
                    got=repr(name),
                    remedy=f"It has {', '.join(known)}.",
                )
            if name in seen:
                raise InputError("--merge", "must name each colour once", got=f"{name} twice")
        seen.update(names)


def _joined(parts: list[Swatch]) -> Swatch:
    """One swatch out of several, the largest first."""
    share = sum(part.share for part in parts)
    weights = [part.share / share if share else 1 / len(parts) for part in parts]
    across = sum(weight * part.place[0] for weight, part in zip(weights, parts, strict=True))
    down = sum(weight * part.place[1] for weight, part in zip(weights, parts, strict=True))
    return replace(
        parts[0],
        share=min(share, 1.0),
        place=(across, down),
        accent=all(part.accent for part in parts),
    )


def in_order(palette: Palette, direction: str = _DOWN) -> tuple[Swatch, ...]:
    """Swatches as they stand in the photograph, by their mean places.

    Parameters
    ----------
    palette : Palette
    direction : "down" or "across"
        Top to bottom, or left to right. Colours whose places differ by less than a hundredth
        of the picture go from light to dark.

    Returns
    -------
    tuple of Swatch

    Examples
    --------
    >>> sky = Swatch(name="sky", lab=(80.0, -5.0, -20.0), hex="#a9cdee", share=0.5,
    ...              place=(0.5, 0.2))
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.5,
    ...               place=(0.5, 0.8))
    >>> [swatch.name for swatch in in_order(Palette(swatches=(moss, sky)))]
    ['sky', 'moss']
    """
    if direction not in (_ACROSS, _DOWN):
        raise InputError("direction", "must be down or across", got=repr(direction))
    axis = 0 if direction == _ACROSS else 1
    return tuple(
        sorted(
            palette.swatches,
            key=lambda swatch: (round(swatch.place[axis], 2), -swatch.lab[0], swatch.name),
        )
    )


def with_munsell(palette: Palette) -> Palette:
    """Palette with the Munsell notation of every swatch; takes about a second a colour."""
    notations = munsell_notations([swatch.lab for swatch in palette.swatches])
    swatches = tuple(
        replace(swatch, munsell=notation)
        for swatch, notation in zip(palette.swatches, notations, strict=True)
    )
    return replace(palette, swatches=swatches)
