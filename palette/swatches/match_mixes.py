"""Two yarns for one colour: plied into a marl, or alternated pick by pick."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_hex, lab_to_xyz, xyz_to_lab
from palette.swatches.match_difference import ranking_difference
from palette.swatches.shelf import ShelfYarn

__all__ = ["MIX_PARTS", "Mixer", "YarnMix", "mix_in_light", "nearer_mixes"]

Lab = tuple[float, float, float]
FloatArray = NDArray[np.float64]
Mixer = Callable[[FloatArray, FloatArray, FloatArray], FloatArray]
"""Takes two arrays of CIELAB (n, 3) and the shares of the first (n,), gives CIELAB (n, 3)."""

MIX_PARTS: tuple[tuple[int, int], ...] = ((1, 1), (2, 1), (1, 2), (3, 1), (1, 3))
"""Strands, or picks, of the first and of the second yarn."""

_HARDLY_FARTHER = 2.0
_MOST_YARNS = 400  # of a larger shelf, the yarns nearest to the colour: 400,000 mixes at most


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnMix:
    """Two yarns that come nearer to a colour together than any yarn alone.

    Attributes
    ----------
    yarns : tuple of 2 str
        Their names.
    parts : tuple of 2 int
        Strands plied together, or picks thrown in turn, of each.
    shares : tuple of 2 float
        What the eye sees of each; they sum to 1.
    lab : tuple of 3 float
        CIELAB D65 of the mix from a distance at which the threads melt together; a guide.
    hex : str
    difference : float
        CIEDE2000 to the colour that is wanted.
    contrast : float
        CIEDE2000 between the two yarns: what will be seen as a marl, or as fine stripes, close by.
    """

    yarns: tuple[str, str]
    parts: tuple[int, int]
    shares: tuple[float, float]
    lab: Lab
    hex: str
    difference: float
    contrast: float

    @property
    def words(self) -> str:
        """How to do it, as a clause.

        Examples
        --------
        >>> mix = YarnMix(yarns=("moss", "rust"), parts=(2, 1), shares=(2 / 3, 1 / 3),
        ...     lab=(45.0, 0.0, 30.0), hex="#7a6539", difference=2.0, contrast=40.0)
        >>> mix.words
        'ply 2 strands of moss with 1 of rust, or throw 2 picks of moss and 1 of rust in turn'
        """
        first, second = self.parts
        one, other = self.yarns
        strands, picks = ("strand", "pick") if first == 1 else ("strands", "picks")
        return (
            f"ply {first} {strands} of {one} with {second} of {other}, "
            f"or throw {first} {picks} of {one} and {second} of {other} in turn"
        )


def mix_in_light(first_lab: FloatArray, second_lab: FloatArray, share: FloatArray) -> FloatArray:
    """Mix two colours by area, in linear light: threads side by side, seen from afar.

    Parameters
    ----------
    first_lab, second_lab : ndarray of shape (n, 3)
        CIELAB D65.
    share : ndarray of shape (n,)
        Part of the area that the first takes.

    Returns
    -------
    ndarray of shape (n, 3)

    Notes
    -----
    The average is taken in CIE XYZ, never in sRGB codes (common practice of colour science: light
    adds). Light that passes from one yarn into the other is left out, which makes the mix a little
    too light.

    Examples
    --------
    >>> mix_in_light(np.array([[100.0, 0, 0]]), np.zeros((1, 3)), np.array([0.5])).round(2).tolist()
    [[76.07, 0.0, 0.0]]
    """
    share = np.asarray(share, dtype=float)[..., np.newaxis]
    return xyz_to_lab(share * lab_to_xyz(first_lab) + (1 - share) * lab_to_xyz(second_lab))


def nearer_mixes(
    wanted_lab: Lab,
    yarns: tuple[ShelfYarn, ...],
    *,
    best_alone: float,
    least_gain: float = 1.0,
    how_many: int = 2,
    mixer: Mixer = mix_in_light,
) -> tuple[YarnMix, ...]:
    """Pairs of yarns that come nearer to a colour than the nearest yarn alone.

    Parameters
    ----------
    wanted_lab : tuple of 3 float
        CIELAB D65.
    yarns : tuple of ShelfYarn
        Yarns to choose from.
    best_alone : float
        CIEDE2000 of the nearest yarn alone.
    least_gain : float
        A mix must come nearer by this much to be worth the work.
    how_many : int
        How many different pairs to give at most.
    mixer : callable
        How two colours mix.

    Returns
    -------
    tuple of YarnMix
        The nearest first; second the one with least contrast among those that come within 2
        of it; then the next nearest. Each pair of yarns once.

    Notes
    -----
    What shows of each yarn goes by its diameter, the square root of its tex (Peirce 1937, Journal
    of the Textile Institute 28, T45: diameter goes as the root of the count), where both counts
    are known; else by the number of strands.

    Examples
    --------
    >>> black = ShelfYarn(name="black", lab=(20.0, 0.0, 0.0), hex="#303030")
    >>> white = ShelfYarn(name="white", lab=(90.0, 0.0, 0.0), hex="#e2e2e2")
    >>> mix = nearer_mixes((69.2, 0.0, 0.0), (black, white), best_alone=15.0)[0]
    >>> mix.yarns, mix.parts, round(mix.difference, 1)
    (('black', 'white'), (1, 1), 0.0)
    """
    yarns = tuple(yarn for yarn in yarns if yarn.kind == "yarn")
    if len(yarns) < 2:
        return ()
    labs = np.array([yarn.lab for yarn in yarns])
    if len(yarns) > _MOST_YARNS:
        nearest = np.argsort(ciede2000(labs, np.asarray(wanted_lab)), kind="stable")[:_MOST_YARNS]
        yarns, labs = tuple(yarns[i] for i in nearest), labs[nearest]
    parts = np.array(MIX_PARTS)
    one, two = np.triu_indices(len(yarns), k=1)
    one, two = np.repeat(one, len(parts)), np.repeat(two, len(parts))
    part = np.tile(np.arange(len(parts)), len(one) // len(parts))
    widths = _relative_widths(yarns, one, two)
    first = parts[part, 0] * widths[0]
    shares = first / (first + parts[part, 1] * widths[1])
    mixed = mixer(labs[one], labs[two], shares)
    differences = ciede2000(mixed, np.asarray(wanted_lab))
    ranks = ranking_difference(mixed, wanted_lab)
    best: dict[tuple[int, int], int] = {}  # the best parts of each pair, nearest pair first
    for i in np.argsort(ranks, kind="stable"):
        if not ranks[i] <= best_alone - least_gain:
            break
        best.setdefault((int(one[i]), int(two[i])), int(i))
    rows = list(best.values())
    contrasts = ciede2000(labs[one[rows]], labs[two[rows]]) if rows else np.empty(0)
    return tuple(
        _yarn_mix(
            (yarns[one[i]], yarns[two[i]]),
            MIX_PARTS[part[i]],
            float(shares[i]),
            mixed[i],
            float(differences[i]),
        )
        for i in (rows[row] for row in _nearest_and_calmest(ranks[rows], contrasts, how_many))
    )


def _nearest_and_calmest(ranks: FloatArray, contrasts: FloatArray, how_many: int) -> list[int]:
    """Rows of the nearest pair, then of the least marled of those hardly farther, then the rest.

    Two yarns alike make a quiet cloth, two that differ a speckled one: where both come about
    as near, that is for the weaver to choose.
    """
    rows = list(range(len(ranks)))
    if not rows:
        return []
    near = [row for row in rows if ranks[row] <= ranks[0] + _HARDLY_FARTHER]
    calmest = min(near, key=lambda row: (contrasts[row], row))
    ordered = [0, calmest, *rows] if calmest else rows
    return list(dict.fromkeys(ordered))[:how_many]


def _relative_widths(
    yarns: tuple[ShelfYarn, ...], one: NDArray[np.int64], two: NDArray[np.int64]
) -> tuple[FloatArray, FloatArray]:
    """Widths of both yarns of every pair; 1 and 1 where a count is not known."""
    tex = np.array([np.nan if yarn.tex is None else yarn.tex for yarn in yarns])
    known = np.isfinite(tex[one]) & np.isfinite(tex[two])
    first, second = (np.sqrt(np.where(known, tex[index], 1.0)) for index in (one, two))
    return first, second


def _yarn_mix(
    pair: tuple[ShelfYarn, ShelfYarn],
    parts: tuple[int, int],
    share: float,
    lab: FloatArray,
    difference: float,
) -> YarnMix:
    return YarnMix(
        yarns=(pair[0].name, pair[1].name),
        parts=parts,
        shares=(share, 1 - share),
        lab=(float(lab[0]), float(lab[1]), float(lab[2])),
        hex=lab_to_hex(lab)[0],
        difference=difference,
        contrast=float(ciede2000(pair[0].lab, pair[1].lab)),
    )
