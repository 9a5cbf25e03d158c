"""Search for the shares of a blend: every choice of parts, then the best shares of each."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.mixing_law import mixing_function, reflectance
from palette.perception.spectra import recovered_spectra, spectra_to_lab
from palette.swatches.match_difference import ranking_difference

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["Candidate", "Fleeces", "best_of_size", "most_useful"]

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]

_STEPS = {1: 1, 2: 20, 3: 8, 4: 6}  # parts of the coarse grid of shares, by number of fleeces
_STRENGTHS = (0.0, 0.5, 1.0)  # grids by mass, by effect, and between: black tints far beyond white
_POLISHED = 12  # choices of parts whose shares are refined
_CHUNK = 100_000
_MOST_FLEECES = 24


@dataclass(frozen=True, slots=True)
class Candidate:
    """A choice of fleeces and their shares.

    Attributes
    ----------
    indices : tuple of int
    shares : tuple of float
        Sum to 1.
    difference : float
        To the target, as `ranking_difference` has it.
    """

    indices: tuple[int, ...]
    shares: tuple[float, ...]
    difference: float


class Fleeces:
    """Colours of fleeces as quantities that add up by mass.

    Parameters
    ----------
    labs : array_like of shape (n, 3)
        CIELAB D65.
    constant : float
        M of Stearns and Noechel's law.

    Notes
    -----
    Spectra are recovered from the colours; what the recovery misses of a colour is added back by
    mass, so that a fleece alone has exactly its own colour.
    """

    def __init__(self, labs: ArrayLike, *, constant: float) -> None:
        self.labs = np.asarray(labs, dtype=float)
        self.constant = constant
        spectra = recovered_spectra(self.labs)
        self.functions = mixing_function(spectra, constant=constant)
        self.missed = self.labs - spectra_to_lab(spectra)
        self.strengths = self.functions.mean(axis=1)

    def colours(self, indices: IntArray, shares: FloatArray) -> FloatArray:
        """CIELAB of many blends.

        Parameters
        ----------
        indices : ndarray of int, shape (m, k)
            Fleeces of each blend.
        shares : ndarray of shape (m, k)
            Their shares, each row sums to 1.

        Returns
        -------
        ndarray of shape (m, 3)
        """
        mixed = np.einsum("mk,mkw->mw", shares, self.functions[indices])
        missed = np.einsum("mk,mkc->mc", shares, self.missed[indices])
        seen = spectra_to_lab(reflectance(mixed, constant=self.constant))
        return np.asarray(seen + missed, dtype=float)


def _grid(parts: int) -> FloatArray:
    """Shares of so many parts on a grid, none of them 0."""
    steps = _STEPS[parts]
    inner = combinations(range(1, steps), parts - 1)
    cuts = np.array([(0, *cut, steps) for cut in inner], dtype=float)
    return np.asarray(np.diff(cuts, axis=1) / steps, dtype=float)


def _trials(
    fleeces: Fleeces, choices: IntArray, most_shares: FloatArray
) -> Iterator[tuple[IntArray, FloatArray]]:
    """Every choice of parts at every point of the grids, in chunks; limits kept."""
    grid = _grid(choices.shape[1])
    for start in range(0, len(choices), max(1, _CHUNK // len(grid))):
        some = choices[start : start + max(1, _CHUNK // len(grid))]
        for strength in _STRENGTHS if choices.shape[1] > 1 else (0.0,):
            effect = grid[np.newaxis] / fleeces.strengths[some][:, np.newaxis] ** strength
            shares = effect / effect.sum(axis=2, keepdims=True)
            indices = np.repeat(some, len(grid), axis=0)
            flat = shares.reshape(-1, choices.shape[1])
            allowed = np.all(flat <= most_shares[indices] + 1e-9, axis=1)
            if allowed.any():
                yield indices[allowed], flat[allowed]


def _screened(
    fleeces: Fleeces, choices: IntArray, target: FloatArray, most_shares: FloatArray, keep: int
) -> list[Candidate]:
    """Best grid point of each of the nearest choices."""
    found: dict[tuple[int, ...], Candidate] = {}
    for indices, shares in _trials(fleeces, choices, most_shares):
        differences = ranking_difference(fleeces.colours(indices, shares), target)
        for i in np.argsort(differences, kind="stable")[: 20 * keep]:
            key = tuple(int(j) for j in indices[i])
            if key not in found or differences[i] < found[key].difference:
                points = tuple(float(share) for share in shares[i])
                found[key] = Candidate(key, points, float(differences[i]))
    return sorted(found.values(), key=lambda each: (each.difference, each.indices))[:keep]


def _polished(
    fleeces: Fleeces, start: Candidate, target: FloatArray, most_shares: FloatArray
) -> Candidate:
    """Refine the shares of one choice: constrained minimum of the squared difference."""
    from scipy.optimize import minimize

    parts = len(start.indices)
    if parts == 1:
        return start
    indices = np.tile(start.indices, (parts + 1, 1))
    small = 1e-5

    def value_and_slope(shares: FloatArray) -> tuple[float, FloatArray]:
        trials = np.vstack([shares, shares + small * np.eye(parts)])
        squares = ranking_difference(fleeces.colours(indices, trials), target) ** 2
        return float(squares[0]), (squares[1:] - squares[0]) / small

    limits = [(0.0, float(min(1.0, most_shares[i]))) for i in start.indices]
    result = minimize(
        value_and_slope,
        np.array(start.shares),
        jac=True,
        method="SLSQP",
        bounds=limits,
        constraints={"type": "eq", "fun": lambda x: x.sum() - 1, "jac": np.ones_like},
        options={"maxiter": 60, "ftol": 1e-9},
    )
    shares = np.clip(result.x, 0.0, [high for _, high in limits])
    if not (np.all(np.isfinite(shares)) and abs(shares.sum() - 1) < 1e-6):
        return start
    shares = shares / shares.sum()
    difference = float(
        ranking_difference(fleeces.colours(indices[:1], shares[np.newaxis]), target)[0]
    )
    if difference >= start.difference:
        return start
    return Candidate(start.indices, tuple(float(share) for share in shares), difference)


def best_of_size(
    fleeces: Fleeces,
    target_lab: ArrayLike,
    parts: int,
    *,
    among: tuple[int, ...] | None = None,
    most_shares: ArrayLike | None = None,
    how_many: int = 3,
) -> tuple[Candidate, ...]:
    """Nearest blends of exactly so many fleeces.

    Parameters
    ----------
    fleeces : Fleeces
    target_lab : array_like of shape (3,)
    parts : int
        1 to 4.
    among : tuple of int, optional
        Fleeces to choose from; all unless given.
    most_shares : array_like of shape (n,), optional
        Largest share that each fleece may have.
    how_many : int
        Choices to give at most.

    Returns
    -------
    tuple of Candidate
        Nearest first; empty where no choice is possible.

    Notes
    -----
    Every choice of fleeces is tried on three grids of shares; the nearest dozen are refined under
    the constraints (shares 0 or more, summing to 1) with sequential quadratic programming.

    Examples
    --------
    >>> fleeces = Fleeces([[90, 0, 8], [16, 0, 0], [45, 38, 42]], constant=0.15)
    >>> best = best_of_size(fleeces, [55, 0, 4], 2)[0]
    >>> best.indices, round(best.shares[1], 2)
    ((0, 1), 0.19)
    """
    target = np.asarray(target_lab, dtype=float)
    pool = range(len(fleeces.labs)) if among is None else among
    limits = np.ones(len(fleeces.labs)) if most_shares is None else np.asarray(most_shares)
    choices = np.array(list(combinations(sorted(pool), parts)), dtype=np.int64)
    if len(choices) == 0:
        return ()
    screened = _screened(fleeces, choices, target, limits, max(_POLISHED, how_many))
    refined = [_polished(fleeces, each, target, limits) for each in screened]
    return tuple(sorted(refined, key=lambda each: (each.difference, each.indices))[:how_many])


def most_useful(fleeces: Fleeces, target_lab: ArrayLike) -> tuple[int, ...]:
    """Fleeces worth trying together: all of a small shelf, else those of the nearest pairs.

    Parameters
    ----------
    fleeces : Fleeces
    target_lab : array_like of shape (3,)

    Returns
    -------
    tuple of int
        At most 24.
    """
    count = len(fleeces.labs)
    if count <= _MOST_FLEECES:
        return tuple(range(count))
    target = np.asarray(target_lab, dtype=float)
    pairs = np.array(list(combinations(range(count), 2)), dtype=np.int64)
    ranked = _screened(fleeces, pairs, target, np.ones(count), 4 * _MOST_FLEECES)
    chosen = dict.fromkeys(i for each in ranked for i in each.indices)
    return tuple(sorted(list(chosen)[:_MOST_FLEECES]))
