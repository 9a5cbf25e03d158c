"""From a wanted colour and a dyer's own samples to a recipe."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, product

import numpy as np
from numpy.typing import NDArray

from palette.dyeing.asked import Mixture
from palette.dyeing.baths import dye_g, stock_ml
from palette.dyeing.blend import CAMERA_ERROR_CIEDE2000, guide_sentence
from palette.dyeing.blend_remarks import way_to_go
from palette.dyeing.defaults import STOCK_PERCENT
from palette.dyeing.dye_model import DyeModel, fit_dyes, left_out_errors
from palette.dyeing.recipe import Recipe, RecipePart, RecipePlan
from palette.dyeing.samples import DyeSamples
from palette.errors import InputError
from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_hex
from palette.swatches.match import NEAR_CIEDE2000
from palette.swatches.match_difference import ranking_difference

__all__ = ["plan_recipe", "recipes_for"]

Lab = tuple[float, float, float]
FloatArray = NDArray[np.float64]
Errors = tuple[tuple[str, float], ...]

MOST_DYES = 4
ENOUGH_CIEDE2000 = 1.0
"""One dye more has to come nearer by this much."""

_SAMPLE = "dye 10 g by it, rinse and dry it, and look"
_PERCENT_DECIMALS = 2  # 0.01 % of 100 g is 1 ml of a 1 % stock
_LEAST_PERCENT = 0.01
_GRID = (0.01, 0.03, 0.1, 0.25, 0.5, 1.0)  # of the strongest sample of each dye
_POLISHED = 6
_ODD_TIMES, _ODD_CIEDE2000 = 4.0, 6.0  # a sample this far off its prediction is looked at again


def plan_recipe(
    target_lab: Lab,
    samples: DyeSamples,
    *,
    most_dyes: int = 3,
    goods_g: float | None = None,
    stock_percent: float = STOCK_PERCENT.value,
    target_from_photo: bool = False,
) -> RecipePlan:
    """Find the recipe in a dyer's own dyes that comes nearest to a colour.

    Parameters
    ----------
    target_lab : tuple of 3 float
        CIELAB D65 that the yarn should have.
    samples : DyeSamples
        Her own samples of these dyes on this yarn.
    most_dyes : int
        Dyes in one bath at most, 1 to 4.
    goods_g : float, optional
        Dry weight to dye; with it the parts carry grams and stock solution.
    stock_percent : float
        Grams of dye in 100 ml of stock solution.
    target_from_photo : bool
        Whether the colour was taken from a photograph: the camera's error is then part of the
        typical error, as the root of the squares.

    Returns
    -------
    RecipePlan
        No dye is used beyond its strongest sample. Every sample is predicted from the others, and
        the mean of those errors stands beside the colour.

    Raises
    ------
    TableError
        Too few samples; the message says what is missing.
    InputError
        A colour, a number of dyes or a weight out of range.

    Examples
    --------
    >>> from palette.dyeing.samples import DyeSample
    >>> colours = ((0.0, (90, 0, 8)), (0.5, (64, 40, 22)), (1.0, (54, 48, 28)), (2.0, (45, 51, 32)))
    >>> reds = tuple(
    ...     DyeSample(name=f"{percent} %", percents=(percent,), lab=lab, hex="#000000")
    ...     for percent, lab in colours
    ... )
    >>> samples = DyeSamples(file="red.csv", dyes=("red",), samples=reds)
    >>> recipe = plan_recipe((54.0, 48.0, 28.0), samples, goods_g=200.0).best
    >>> [(part.dye, round(part.percent, 1), round(part.dye_g)) for part in recipe.parts]
    [('red', 1.0, 2)]
    """
    if goods_g is not None and not 0 < goods_g < math.inf:
        raise InputError("goods", "must be more than 0, and finite", got=f"{goods_g} g")
    learnt = (fit_dyes(samples), left_out_errors(samples))
    plan = _planned(target_lab, samples, learnt, most_dyes, goods_g, stock_percent)
    if not target_from_photo:
        return plan
    error = math.hypot(plan.typical_error, CAMERA_ERROR_CIEDE2000)
    return replace(plan, typical_error=error, guide=guide_sentence(error, _SAMPLE))


def _planned(
    target_lab: Lab,
    samples: DyeSamples,
    learnt: tuple[DyeModel, Errors],
    most_dyes: int,
    goods_g: float | None,
    stock_percent: float,
) -> RecipePlan:
    """Recipe for one colour from dyes that are fitted already."""
    if not (len(target_lab) == 3 and all(map(math.isfinite, target_lab))):
        raise InputError("target", "must be three finite CIELAB numbers", got=f"{target_lab}")
    if not 1 <= most_dyes <= MOST_DYES:
        raise InputError("dyes", f"must be from 1 to {MOST_DYES}", got=f"{most_dyes}")
    model, errors = learnt
    target = np.asarray(target_lab, dtype=float)
    counts = range(1, min(most_dyes, len(model.dyes)) + 1)
    rows = [_nearest_of(model, target, count) for count in counts]
    if any(sample.undyed for sample in samples.samples):
        rows.insert(0, np.zeros(len(model.dyes)))
    by_dyes = tuple(_recipe(row, model, target, goods_g, stock_percent) for row in rows)
    ranks = ranking_difference([recipe.lab for recipe in by_dyes], target)
    best = by_dyes[int(np.flatnonzero(ranks <= ranks.min() + ENOUGH_CIEDE2000)[0])]
    to_samples = ciede2000(np.array([sample.lab for sample in samples.samples]), target)
    closest = int(to_samples.argmin())
    error = math.fsum(value for _, value in errors) / len(errors)
    return RecipePlan(
        target_lab=target_lab,
        target_hex=lab_to_hex(target_lab)[0],
        best=best,
        by_dyes=by_dyes,
        nearest_sample=samples.samples[closest].name,
        nearest_sample_difference=float(to_samples[closest]),
        sample_errors=errors,
        typical_error=error,
        guide=guide_sentence(error, _SAMPLE),
        warnings=(*_of_samples(samples), *_remarks(best, model, errors, target_lab)),
    )


def recipes_for(
    colours: tuple[tuple[str, Lab], ...], samples: DyeSamples, *, most_dyes: int = 3
) -> tuple[tuple[tuple[str, Mixture], ...], tuple[str, ...]]:
    """Recipes for the colours of a plan, for its dye day.

    Parameters
    ----------
    colours : tuple of (str, CIELAB)
        Names and colours, as in the plan's palette.
    samples : DyeSamples
    most_dyes : int

    Returns
    -------
    recipes : tuple of (str, tuple of (str, float))
        For ``DyeAsked.recipes``; a colour that the undyed yarn already has is not among them.
    warnings : tuple of str
        What each recipe leaves open, with its colour, and the guide that goes with them all.
    """
    recipes, said = [], []
    guide = ""
    learnt = (fit_dyes(samples), left_out_errors(samples))
    for name, lab in colours:
        plan = _planned(lab, samples, learnt, most_dyes, None, STOCK_PERCENT.value)
        guide = plan.guide
        said += [f"{name}: {warning}" for warning in plan.warnings]
        if plan.best.parts:
            recipes.append((name, tuple((part.dye, part.percent) for part in plan.best.parts)))
    return tuple(recipes), tuple(dict.fromkeys((*said, guide) if guide else said))


def _of_samples(samples: DyeSamples) -> tuple[str, ...]:
    """Warnings of the table, and a missing undyed yarn."""
    if any(sample.undyed for sample in samples.samples):
        return samples.warnings
    missing = (
        "No undyed yarn among the samples: its colour was estimated. Add a row with 0 of every dye."
    )
    return (*samples.warnings, missing)


def _nearest_of(model: DyeModel, target: FloatArray, count: int) -> FloatArray:
    """Per cents of the nearest recipe with exactly so many dyes."""
    most = np.array(model.most_percents)
    trials = []
    for chosen in combinations(range(len(model.dyes)), count):
        steps = np.array(list(product(_GRID, repeat=count)))
        rows = np.zeros((len(steps), len(model.dyes)))
        rows[:, chosen] = np.maximum(steps * most[list(chosen)], _LEAST_PERCENT)
        trials.append(rows)
    every = np.concatenate(trials)
    differences = ranking_difference(model.colours(every), target)
    starts = every[np.argsort(differences, kind="stable")[: 8 * _POLISHED]]
    kinds: dict[tuple[bool, ...], FloatArray] = {}
    for row in starts:
        kinds.setdefault(tuple(bool(used) for used in row > 0), row)
    refined = [_polished(model, row, target) for row in list(kinds.values())[:_POLISHED]]
    ranks = ranking_difference(model.colours(np.array(refined)), target)
    return refined[int(ranks.argmin())]


def _polished(model: DyeModel, start: FloatArray, target: FloatArray) -> FloatArray:
    """Refine the amounts of the dyes in use, then round them to what can be measured."""
    from scipy.optimize import minimize

    used = np.flatnonzero(start > 0)
    most = np.array(model.most_percents)[used]
    small = 1e-6

    def value_and_slope(logs: FloatArray) -> tuple[float, FloatArray]:
        trials = np.vstack([logs, logs + small * np.eye(len(used))])
        rows = np.zeros((len(trials), len(start)))
        rows[:, used] = np.exp(trials)
        squares = ranking_difference(model.colours(rows), target) ** 2
        return float(squares[0]), (squares[1:] - squares[0]) / small

    limits = [(math.log(_LEAST_PERCENT), math.log(max(high, _LEAST_PERCENT))) for high in most]
    result = minimize(
        value_and_slope, np.log(start[used]), jac=True, method="L-BFGS-B", bounds=limits
    )
    best = start.copy()
    amounts = np.round(np.exp(result.x), _PERCENT_DECIMALS)
    best[used] = np.clip(amounts, _LEAST_PERCENT, np.maximum(most, _LEAST_PERCENT))
    return best


def _recipe(
    row: FloatArray,
    model: DyeModel,
    target: FloatArray,
    goods_g: float | None,
    stock_percent: float,
) -> Recipe:
    lab = model.colours(row[np.newaxis])[0]
    parts = [
        RecipePart(
            dye=dye,
            percent=float(percent),
            dye_g=None if goods_g is None else dye_g(goods_g, float(percent)),
            stock_ml=None
            if goods_g is None
            else stock_ml(goods_g, float(percent), stock_percent=stock_percent),
        )
        for dye, percent in zip(model.dyes, row, strict=True)
        if percent > 0
    ]
    parts.sort(key=lambda part: (-part.percent, part.dye))
    return Recipe(
        parts=tuple(parts),
        lab=(float(lab[0]), float(lab[1]), float(lab[2])),
        hex=lab_to_hex(lab)[0],
        difference=float(ciede2000(lab, target)),
    )


def _remarks(best: Recipe, model: DyeModel, errors: Errors, target_lab: Lab) -> list[str]:
    """Say what is out of reach, at its limit, or a sample that does not agree with the others."""
    said = []
    if not best.difference <= NEAR_CIEDE2000:
        said.append(
            f"No recipe in these dyes comes within CIEDE2000 {NEAR_CIEDE2000:g}; the nearest is "
            f"{best.difference:.1f} away. It should be {way_to_go(best.lab, target_lab)}."
        )
    most = dict(zip(model.dyes, model.most_percents, strict=True))
    said += [
        f"{part.dye} is at {part.percent:g} %, its strongest sample; dye a deeper one to go on."
        for part in best.parts
        if part.percent >= most[part.dye] * (1 - 1e-9)
    ]
    middle = float(np.median([value for _, value in errors]))
    odd = [name for name, value in errors if value > max(_ODD_TIMES * middle, _ODD_CIEDE2000)]
    if odd:
        said.append(
            f"Does not agree with the other samples, look again at its amounts and its colour: "
            f"{', '.join(odd)}."
        )
    return said
