"""From a wanted colour and a shelf of dyed fleece to grams that can be carded."""

from __future__ import annotations

import math
from itertools import product

import numpy as np

from palette.cloth.mixing_law import BLEND_CONSTANT
from palette.dyeing.blend import (
    BLEND_ERROR_CIEDE2000,
    CAMERA_ERROR_CIEDE2000,
    Blend,
    BlendPart,
    BlendPlan,
    guide_sentence,
)
from palette.dyeing.blend_remarks import blend_remarks
from palette.dyeing.blend_search import Candidate, Fleeces, best_of_size, most_useful
from palette.dyeing.mixing_laws import BLEND_CONSTANTS
from palette.errors import InputError, TableError
from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_hex
from palette.swatches.match_difference import ranking_difference
from palette.swatches.shelf import Shelf, ShelfYarn

__all__ = ["blend_constant", "plan_blend", "whole_steps"]

Lab = tuple[float, float, float]

MOST_PARTS = 4
MOST_FLEECES = 300  # each takes some 20 ms, for its spectrum is recovered from its colour
ENOUGH_CIEDE2000 = 1.0
"""One part more has to come nearer by this much: less is below what a prediction can tell."""

_VISCOSE = ("viscose", "bamboo", "rayon", "modal", "lyocell")
_DUST = 1e-9


def whole_steps(shares: tuple[float, ...], steps: int) -> tuple[tuple[int, ...], ...]:
    """Every way to round shares to whole steps that keeps the total and loses no part.

    Parameters
    ----------
    shares : tuple of float
        Sum to 1.
    steps : int
        The total: grams of the batch, where a step is a gram.

    Returns
    -------
    tuple of tuple of int
        Each within one step or so of the exact share, at least 1; empty where the batch is too
        small for so many parts.

    Examples
    --------
    >>> whole_steps((0.62, 0.38), 5)
    ((3, 2), (4, 1))
    """
    nearby = [
        list(range(math.floor(share * steps) - 1, math.floor(share * steps) + 3))
        for share in shares
    ]
    ways = product(*[[count for count in counts if count >= 1] for counts in nearby])
    kept = [way for way in ways if sum(way) == steps]
    off = [
        max(abs(n - share * steps) for n, share in zip(way, shares, strict=True)) for way in kept
    ]
    tight = max(1.0, min(off, default=1.0)) + _DUST
    return tuple(way for way, most in zip(kept, off, strict=True) if most <= tight)


def blend_constant(fibres: tuple[str, ...]) -> float:
    """Constant M of Stearns and Noechel's law: of viscose or acrylic alone, else wool's.

    Examples
    --------
    >>> blend_constant(("wool", "")), blend_constant(("bamboo viscose",))
    (0.15, 0.109)
    """
    for kind, words in (("viscose", _VISCOSE), ("acrylic", ("acrylic",))):
        if fibres and all(any(word in fibre.lower() for word in words) for fibre in fibres):
            return BLEND_CONSTANTS[kind]
    return BLEND_CONSTANT


def plan_blend(
    target_lab: Lab,
    shelf: Shelf,
    *,
    most_parts: int = 3,
    batch_g: float | None = None,
    step_g: float = 1.0,
    constant: float | None = None,
    target_from_photo: bool = False,
) -> BlendPlan:
    """Proportions of dyed fleece to card together for a colour.

    Parameters
    ----------
    target_lab : tuple of 3 float
        CIELAB D65 that the blend should have.
    shelf : Shelf
        Rows of kind "fleece"; where there are none, all rows count as fibre of that colour.
    most_parts : int
        Fleeces to card together at most, 1 to 4.
    batch_g : float, optional
        Mass of the batch; without it the shares are exact and no grams are given.
    step_g : float
        What the scales can weigh: parts are whole multiples, and sum to the batch.
    constant : float, optional
        M of Stearns and Noechel's law; by the fibre unless given.
    target_from_photo : bool
        Whether the wanted colour was taken from a photograph.

    Returns
    -------
    BlendPlan

    Raises
    ------
    InputError
        A number of parts out of range, a batch that is not a multiple of the step, nothing on
        the shelf, or too little of everything for the batch.

    Notes
    -----
    Stearns and Noechel's law on spectra recovered from the colours. On blends of the 99 measured
    spectra of CIE 224:2017 that predicts the colour to a mean CIEDE2000 of 1.2, three broad
    channels to 1.7; the comparison is a test.

    Examples
    --------
    >>> white = ShelfYarn(name="white", lab=(90.0, 0.0, 8.0), hex="#e8e2d2", kind="fleece")
    >>> black = ShelfYarn(name="black", lab=(16.0, 0.0, 0.0), hex="#282828", kind="fleece")
    >>> plan = plan_blend((55.0, 0.0, 4.0), Shelf(file="s.csv", yarns=(white, black)), batch_g=100)
    >>> [(part.name, part.mass_g) for part in plan.best.parts]
    [('white', 81.0), ('black', 19.0)]
    """
    fleeces, warnings = _usable(shelf)
    _check(target_lab, most_parts, batch_g, step_g)
    m = blend_constant(tuple(each.fibre for each in fleeces)) if constant is None else constant
    model = Fleeces([each.lab for each in fleeces], constant=m)
    limits = np.array([_most_share(each, batch_g) for each in fleeces])
    pool = most_useful(model, target_lab)
    by_parts: list[Blend] = []
    for parts in range(1, min(most_parts, len(fleeces)) + 1):
        found = best_of_size(model, target_lab, parts, among=pool, most_shares=limits)
        blends = [
            blend
            for candidate in found
            for blend in _weighed(candidate, fleeces, model, target_lab, batch_g, step_g)
        ]
        if blends:
            by_parts.append(min(blends, key=lambda each: _rank(each, target_lab)))
    if not by_parts:
        thing, rule = "shelf", f"must hold {batch_g:g} g of fleece that comes to one blend"
        got = f"{math.fsum(each.mass_g or 0 for each in fleeces):g} g"
        raise InputError(thing, rule, got=got, remedy="Ask for a smaller batch or more parts.")
    best = _fewest(by_parts, target_lab)
    error = _typical_error(best, fleeces, target_from_photo=target_from_photo)
    return BlendPlan(
        target_lab=target_lab,
        target_hex=lab_to_hex(target_lab)[0],
        best=best,
        by_parts=tuple(by_parts),
        typical_error=error,
        guide=guide_sentence(error, "card a few grams, wash and dry them, and look"),
        warnings=(*warnings, *blend_remarks(best, fleeces, target_lab)),
    )


def _usable(shelf: Shelf) -> tuple[tuple[ShelfYarn, ...], tuple[str, ...]]:
    """Fleece in hand, and what has to be said about the choice."""
    in_hand = [each for each in shelf.yarns if each.in_hand]
    if not in_hand:
        raise InputError("shelf", "must have something with more than 0 g left", got="none")
    fleece = tuple(each for each in in_hand if each.kind == "fleece")
    if len(fleece or in_hand) > MOST_FLEECES:
        rule = f"must hold at most {MOST_FLEECES} fleeces to blend from"
        remedy = "Leave out what is far from the colour."
        raise TableError(shelf.file, rule, got=f"{len(fleece or in_hand)}", remedy=remedy)
    warnings = list(shelf.warnings)
    if not fleece:
        warnings.append("No row of kind fleece on the shelf: every row was taken as dyed fibre.")
    return fleece or tuple(in_hand), tuple(warnings)


def _check(target_lab: Lab, most_parts: int, batch_g: float | None, step_g: float) -> None:
    if not (len(target_lab) == 3 and all(map(math.isfinite, target_lab))):
        raise InputError("target", "must be three finite CIELAB numbers", got=f"{target_lab}")
    if not 1 <= most_parts <= MOST_PARTS:
        raise InputError("parts", f"must be from 1 to {MOST_PARTS}", got=f"{most_parts}")
    if not 0 < step_g < math.inf:
        raise InputError("step", "must be more than 0 g, and finite", got=f"{step_g} g")
    if batch_g is None:
        return
    if not 0 < batch_g < math.inf:
        raise InputError("batch", "must be more than 0 g, and finite", got=f"{batch_g} g")
    if abs(batch_g / step_g - round(batch_g / step_g)) > 1e-6:
        rule = f"must be a multiple of {step_g:g} g, which the scales can weigh"
        raise InputError("batch", rule, got=f"{batch_g:g} g")


def _most_share(fleece: ShelfYarn, batch_g: float | None) -> float:
    if batch_g is None or fleece.mass_g is None:
        return 1.0
    return min(1.0, fleece.mass_g / batch_g)


def _weighed(
    candidate: Candidate,
    fleeces: tuple[ShelfYarn, ...],
    model: Fleeces,
    target_lab: Lab,
    batch_g: float | None,
    step_g: float,
) -> list[Blend]:
    """Blends of a candidate: its exact shares, or the nearest weighing of each rounding."""
    if batch_g is None:
        if len(candidate.shares) > 1 and min(candidate.shares) < 1e-3:
            return []  # a part of nothing: the blend of one part fewer says the same
        rows = [candidate.shares]
        masses: list[tuple[float, ...] | None] = [None]
    else:
        steps = round(batch_g / step_g)
        ways = whole_steps(candidate.shares, steps)
        ways = tuple(way for way in ways if _in_hand(way, candidate, fleeces, step_g))
        rows = [tuple(count / steps for count in way) for way in ways]
        masses = [tuple(count * step_g for count in way) for way in ways]
    if not rows:
        return []
    labs = model.colours(np.tile(candidate.indices, (len(rows), 1)), np.array(rows))
    differences = ciede2000(labs, np.asarray(target_lab))
    i = int(ranking_difference(labs, target_lab).argmin())
    chosen = [fleeces[j] for j in candidate.indices]
    return [_blend(chosen, rows[i], masses[i], labs[i].tolist(), float(differences[i]))]


def _in_hand(
    way: tuple[int, ...], candidate: Candidate, fleeces: tuple[ShelfYarn, ...], step_g: float
) -> bool:
    pairs = zip(way, candidate.indices, strict=True)
    masses = [(count * step_g, fleeces[j].mass_g) for count, j in pairs]
    return all(left is None or need <= left + _DUST for need, left in masses)


def _blend(
    chosen: list[ShelfYarn],
    shares: tuple[float, ...],
    masses: tuple[float, ...] | None,
    lab: list[float],
    difference: float,
) -> Blend:
    parts = [
        BlendPart(
            name=fleece.name,
            hex=fleece.hex,
            share=share,
            mass_g=None if masses is None else masses[i],
        )
        for i, (fleece, share) in enumerate(zip(chosen, shares, strict=True))
    ]
    parts.sort(key=lambda part: (-part.share, part.name))
    colour = (lab[0], lab[1], lab[2])
    return Blend(parts=tuple(parts), lab=colour, hex=lab_to_hex(lab)[0], difference=difference)


def _rank(blend: Blend, target_lab: Lab) -> float:
    return float(ranking_difference(blend.lab, target_lab))


def _fewest(by_parts: list[Blend], target_lab: Lab) -> Blend:
    """Fewest parts that come as near as a prediction can tell."""
    ranks = [_rank(blend, target_lab) for blend in by_parts]
    near = min(ranks) + ENOUGH_CIEDE2000
    return next(each for each, rank in zip(by_parts, ranks, strict=True) if rank <= near)


def _typical_error(
    best: Blend, fleeces: tuple[ShelfYarn, ...], *, target_from_photo: bool
) -> float:
    names = {part.name for part in best.parts}
    photos = any(each.from_photo for each in fleeces if each.name in names)
    camera = CAMERA_ERROR_CIEDE2000 if photos or target_from_photo else 0.0
    return math.hypot(BLEND_ERROR_CIEDE2000, camera)
