"""Pair the colours of a palette with the yarns on the shelf: the best pairing overall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.swatches.match_assignment import best_pairs, nearest_pairs
from palette.swatches.match_mixes import Mixer, YarnMix, mix_in_light, nearer_mixes
from palette.swatches.match_remarks import match_remarks
from palette.swatches.palette import Palette, Swatch
from palette.swatches.shelf import Shelf, ShelfYarn

__all__ = ["NEAR_CIEDE2000", "REACH_IN_NEAR", "Pairing", "ShelfMatch", "match_shelf"]

NEAR_CIEDE2000 = 5.0
"""Up to this CIEDE2000 a yarn counts as near a colour.

A palette and a skein that are both photographed are known to about 3 to 5 CIEDE2000 at best
(common practice, no source). A smaller difference may be the camera's, a larger one is the
yarn's. It is no tolerance for matching a dye lot: those are about 1.
"""

REACH_IN_NEAR = 2.0
"""A yarn stands in for a colour up to so many times what counts as near, fleece up to once.

Twice the error of the two photographs: farther off it is another colour for certain, and to pair
them says nothing (common practice, no source).
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
        Its yarn; None where none comes within reach, or others have those that do.
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
    needed_g : float or None
        Grams that the plan needs of this colour; None where no plan says.
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
    needed_g: float | None = None

    @property
    def fleece(self) -> bool:
        """Whether it is fleece, still to be spun."""
        return self.yarn is not None and self.yarn.kind == "fleece"


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
    mean_difference : float or None
        Mean CIEDE2000 over the colours that have a yarn; None where none has.
    warnings : tuple of str
        Sentences for the weaver.
    """

    pairings: tuple[Pairing, ...]
    unused: tuple[ShelfYarn, ...]
    threshold: float
    reuse: bool
    mean_difference: float | None
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
    needed_g: Mapping[str, float] | None = None,
) -> ShelfMatch:
    """Pair each colour with a yarn within reach so that all differences together are smallest.

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
    needed_g : mapping of str to float, optional
        Grams that a plan needs of each colour.

    Returns
    -------
    ShelfMatch

    Raises
    ------
    InputError
        A threshold that is not more than 0, or a shelf on which nothing is left.

    Notes
    -----
    The pairing is the optimum of an assignment problem (`best_pairs`) on CIEDE2000 differences in
    which no colour costs more than `REACH_IN_NEAR` times `near`, the price of going without. Taking
    the nearest yarn colour by colour instead can leave the last colours with nothing; giving every
    colour some yarn would break near pairs for the sake of colours that nothing comes near.

    Examples
    --------
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.5)
    >>> leaf = Swatch(name="leaf", lab=(55.0, -20.0, 35.0), hex="#748d45", share=0.5)
    >>> yarns = (
    ...     ShelfYarn(name="loden", lab=(46.0, -16.0, 29.0), hex="#5d763e"),
    ...     ShelfYarn(name="pine", lab=(38.0, -12.0, 20.0), hex="#4c6039"),
    ... )
    >>> match = match_shelf(Palette(swatches=(moss, leaf)), Shelf(file="s.csv", yarns=yarns))
    >>> [(pair.colour, pair.yarn and pair.yarn.name) for pair in match.pairings]
    [('moss', 'loden'), ('leaf', None)]
    >>> round(match["moss"].difference, 1), match["leaf"].nearest.name
    (1.3, 'loden')
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
    chosen = _chosen(differences, yarns, near, reuse=reuse)
    needed = needed_g or {}
    pairings = tuple(
        _pairing(swatch, row, yarns, chosen.get(i), near, mixer, needed.get(swatch.name))
        for i, (swatch, row) in enumerate(zip(swatches, differences, strict=True))
    )
    used = {yarns[j].name for j in chosen.values()}
    return ShelfMatch(
        pairings=pairings,
        unused=tuple(yarn for yarn in yarns if yarn.name not in used),
        threshold=near,
        reuse=reuse,
        mean_difference=_mean([float(differences[i, j]) for i, j in chosen.items()]),
        warnings=(*shelf.warnings, *match_remarks(pairings, shelf, near)),
    )


def _mean(differences: list[float]) -> float | None:
    return float(np.mean(differences)) if differences else None


def _chosen(
    differences: NDArray[np.float64], yarns: tuple[ShelfYarn, ...], near: float, *, reuse: bool
) -> dict[int, int]:
    """Yarn of each colour that has one; the order of the shelf decides nothing."""
    order = sorted(range(len(yarns)), key=lambda j: (yarns[j].lab, yarns[j].name))
    far = near * REACH_IN_NEAR
    reach = np.array([near if yarns[j].kind == "fleece" else far for j in order])
    sorted_differences = differences[:, order]
    if reuse:
        pairs = nearest_pairs(sorted_differences, reach)
    else:
        pairs = best_pairs(sorted_differences, reach, alone=far)
    return {i: order[j] for i, j in pairs.items()}


def _pairing(
    swatch: Swatch,
    differences: NDArray[np.float64],
    yarns: tuple[ShelfYarn, ...],
    chosen: int | None,
    near: float,
    mixer: Mixer,
    needed_g: float | None,
) -> Pairing:
    nearest = int(differences.argmin())
    difference = None if chosen is None else float(differences[chosen])
    is_near = difference is not None and difference <= near
    mixes: tuple[YarnMix, ...] = ()
    if not is_near:
        taken = differences[nearest] <= near
        instead = near * REACH_IN_NEAR if difference is None else difference
        alone = instead if taken else float(differences[nearest])
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
        needed_g=needed_g,
    )
