"""Pair the colours of a palette with the yarns on the shelf: the best pairing overall."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.swatches.match_mixes import Mixer, YarnMix, mix_in_light, nearer_mixes
from palette.swatches.palette import Palette, Swatch
from palette.swatches.shelf import Shelf, ShelfYarn

__all__ = ["NEAR_CIEDE2000", "Pairing", "ShelfMatch", "match_shelf"]

NEAR_CIEDE2000 = 5.0
"""Up to this CIEDE2000 a yarn counts as near a colour.

A palette and a skein that are both photographed are known to about 3 to 5 CIEDE2000 at best
(common practice, no source). A smaller difference may be the camera's, a larger one is the
yarn's. It is no tolerance for matching a dye lot: those are about 1.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing:
    """One colour of the palette and the yarn that stands for it.

    Attributes
    ----------
    colour, colour_hex : str
        The swatch.
    colour_lab : tuple of 3 float
        CIELAB D65.
    yarn : ShelfYarn or None
        Its yarn; None where there were fewer yarns than colours.
    difference : float or None
        CIEDE2000 between the two.
    nearest : ShelfYarn
        The nearest of all the yarns, also where another colour took it.
    nearest_difference : float
        CIEDE2000 to that one.
    near : bool
        Whether the yarn of this pairing is near the colour.
    anything_near : bool
        Whether any yarn on the shelf is.
    mixes : tuple of YarnMix
        Pairs of yarns that come nearer together than any yarn alone, or than the yarn of this
        pairing where another colour took the near one; sought where `near` is false.
    """

    colour: str
    colour_hex: str
    colour_lab: tuple[float, float, float]
    yarn: ShelfYarn | None
    difference: float | None
    nearest: ShelfYarn
    nearest_difference: float
    near: bool
    anything_near: bool
    mixes: tuple[YarnMix, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfMatch:
    """A palette paired with a shelf.

    Attributes
    ----------
    pairings : tuple of Pairing
        One for each colour, in the order of the palette.
    unused : tuple of ShelfYarn
        Yarns in hand that no colour took, in the order of the shelf.
    threshold : float
        CIEDE2000 up to which a yarn counted as near.
    reuse : bool
        Whether one yarn may stand for several colours.
    mean_difference : float
        Mean CIEDE2000 over the colours that have a yarn.
    warnings : tuple of str
        Sentences for the weaver.
    """

    pairings: tuple[Pairing, ...]
    unused: tuple[ShelfYarn, ...]
    threshold: float
    reuse: bool
    mean_difference: float
    warnings: tuple[str, ...] = ()

    def __getitem__(self, colour: str) -> Pairing:
        """Pairing of the colour with this name; KeyError if there is none."""
        for pairing in self.pairings:
            if pairing.colour == colour:
                return pairing
        raise KeyError(colour)

    @property
    def without_near(self) -> tuple[str, ...]:
        """Colours that nothing on the shelf comes near."""
        return tuple(pairing.colour for pairing in self.pairings if not pairing.anything_near)


def match_shelf(
    palette: Palette,
    shelf: Shelf,
    *,
    reuse: bool = False,
    near: float = NEAR_CIEDE2000,
    mixer: Mixer = mix_in_light,
) -> ShelfMatch:
    """Pair each colour with a yarn so that all the differences together are smallest.

    Parameters
    ----------
    palette : Palette
    shelf : Shelf
        Yarns, undyed fleece too; those with 0 g are left out.
    reuse : bool
        Whether one yarn may stand for several colours; then each takes its nearest.
    near : float
        CIEDE2000 up to which a yarn counts as near.
    mixer : callable
        How two yarns mix when plied or alternated; by area in linear light unless given.

    Returns
    -------
    ShelfMatch

    Raises
    ------
    InputError
        A threshold that is not more than 0, or a shelf on which nothing is left.

    Notes
    -----
    The pairing is the optimum of the assignment problem (Crouse 2016, "On implementing 2D
    rectangular assignment algorithms", IEEE Transactions on Aerospace and Electronic Systems 52,
    through scipy) on CIEDE2000 differences. Taking the nearest yarn colour by colour instead can
    leave the last colours with yarns that are far off. With fewer yarns than colours, as many
    colours as there are yarns get one, again so that the sum is smallest.

    Examples
    --------
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.5)
    >>> leaf = Swatch(name="leaf", lab=(55.0, -20.0, 35.0), hex="#748d45", share=0.5)
    >>> yarns = (
    ...     ShelfYarn(name="loden", lab=(46.0, -16.0, 29.0), hex="#5d763e"),
    ...     ShelfYarn(name="pine", lab=(38.0, -12.0, 20.0), hex="#4c6039"),
    ... )
    >>> match = match_shelf(Palette(swatches=(moss, leaf)), Shelf(file="s.csv", yarns=yarns))
    >>> [(pair.colour, pair.yarn.name, round(pair.difference, 1)) for pair in match.pairings]
    [('moss', 'pine', 7.9), ('leaf', 'loden', 9.4)]
    """
    if not near > 0:
        raise InputError("--near", "must be more than 0", got=f"{near}")
    yarns = tuple(yarn for yarn in shelf.yarns if yarn.in_hand)
    if not yarns:
        raise InputError("shelf", "must have a yarn with more than 0 g left", got="none")
    swatches = palette.swatches
    differences = ciede2000(
        np.array([swatch.lab for swatch in swatches])[:, np.newaxis],
        np.array([yarn.lab for yarn in yarns])[np.newaxis],
    )
    chosen = _nearest(differences) if reuse else _assign(differences, yarns)
    pairings = tuple(
        _pairing(swatch, row, yarns, chosen.get(i), near, mixer)
        for i, (swatch, row) in enumerate(zip(swatches, differences, strict=True))
    )
    used = {yarns[j].name for j in chosen.values()}
    return ShelfMatch(
        pairings=pairings,
        unused=tuple(yarn for yarn in yarns if yarn.name not in used),
        threshold=near,
        reuse=reuse,
        mean_difference=float(np.mean([differences[i, j] for i, j in chosen.items()])),
        warnings=(*shelf.warnings, *_warnings(pairings, shelf, near, reuse=reuse)),
    )


def _nearest(differences: NDArray[np.float64]) -> dict[int, int]:
    return {i: int(j) for i, j in enumerate(differences.argmin(axis=1))}


def _assign(differences: NDArray[np.float64], yarns: tuple[ShelfYarn, ...]) -> dict[int, int]:
    """Yarn of each colour; the order of the shelf decides nothing."""
    from scipy.optimize import linear_sum_assignment

    order = sorted(range(len(yarns)), key=lambda j: (yarns[j].lab, yarns[j].name))
    rows, columns = linear_sum_assignment(differences[:, order])
    return {int(i): order[int(j)] for i, j in zip(rows, columns, strict=True)}


def _pairing(
    swatch: Swatch,
    differences: NDArray[np.float64],
    yarns: tuple[ShelfYarn, ...],
    chosen: int | None,
    near: float,
    mixer: Mixer,
) -> Pairing:
    nearest = int(differences.argmin())
    difference = None if chosen is None else float(differences[chosen])
    is_near = difference is not None and difference <= near
    mixes: tuple[YarnMix, ...] = ()
    if not is_near:
        taken = difference is not None and differences[nearest] <= near
        alone = difference if taken and difference is not None else float(differences[nearest])
        mixes = nearer_mixes(swatch.lab, yarns, best_alone=alone, mixer=mixer)
    return Pairing(
        colour=swatch.name,
        colour_hex=swatch.hex,
        colour_lab=swatch.lab,
        yarn=None if chosen is None else yarns[chosen],
        difference=difference,
        nearest=yarns[nearest],
        nearest_difference=float(differences[nearest]),
        near=is_near,
        anything_near=bool(differences[nearest] <= near),
        mixes=mixes,
    )


def _warnings(
    pairings: tuple[Pairing, ...], shelf: Shelf, near: float, *, reuse: bool
) -> tuple[str, ...]:
    """Say what is missing, used up, too few or taken by another colour."""
    said = []
    empty = [yarn.name for yarn in shelf.yarns if not yarn.in_hand]
    if empty:
        said.append(f"Left out, 0 g in hand: {', '.join(empty)}.")
    unpaired = [pairing.colour for pairing in pairings if pairing.yarn is None]
    if unpaired:
        names = ", ".join(unpaired)
        said.append(f"Fewer yarns than colours; without a yarn: {names}.")
    far = [pairing.colour for pairing in pairings if not pairing.anything_near]
    if far:
        names = ", ".join(far)
        said.append(f"Nothing on the shelf comes within CIEDE2000 {near:g} of: {names}.")
    takers = {pairing.yarn.name: pairing.colour for pairing in pairings if pairing.yarn}
    said += [
        f"{pairing.colour}: {pairing.nearest.name} is near (CIEDE2000 "
        f"{pairing.nearest_difference:.1f}) but stands for {takers[pairing.nearest.name]}."
        for pairing in pairings
        if pairing.anything_near and not pairing.near and not reuse
    ]
    return tuple(said)
