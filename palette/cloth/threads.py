"""Threads crossing: which is on top at each point, how round it is, how the light falls on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Lie", "lie_of", "light_on", "shadow_of", "streaks", "wander"]

Array = NDArray[np.float32]  # half the memory to move: a picture has millions of points
Numbers = NDArray[np.intp]

_LIGHT = (-0.45, -0.55, 0.70)  # from the upper left
_BRIGHTNESS = math.hypot(*_LIGHT)
_CRIMP = 0.55  # how far a thread rises and sinks, in its own radius
_AMBIENT, _DIFFUSE, _GLOSS = 0.42, 0.62, 0.07
_TWIST_DEPTH = 0.10
_TWIST_ANGLE = 1.25  # turns of lay per width: a medium twist


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """One set of threads over a field of points; arrays of the same shape (h, w).

    Attributes
    ----------
    middle : ndarray
        Height of the thread's axis, in radii.
    across : ndarray
        Place across the thread, -1 to 1 from edge to edge; beyond, the thread is not there.
    height : ndarray
        Height of its surface, in radii; very low where it is not there.
    slope : ndarray
        Rise of its axis along itself.
    along : ndarray
        Distance along itself, in its own widths.
    """

    middle: Array
    across: Array
    height: Array
    slope: Array
    along: Array


def lie_of(
    *, across: Array, along: Array, up_here: Array, up_next: Array, part: Array, pitch: float
) -> Lie:
    """Bend threads over and under the ones they cross.

    Parameters
    ----------
    across, along : ndarray of shape (h, w)
        As in `Lie`.
    up_here, up_next : ndarray of shape (h, w)
        1 where the thread is on top at the crossing behind, and ahead, else -1.
    part : ndarray of shape (h, 1) or (1, w)
        How far the point is from the one to the other, 0 to 1.
    pitch : float
        Distance of the two, in radii.
    """
    smooth = (1 - np.cos(np.pi * part)) / 2
    middle = _CRIMP * (up_here + (up_next - up_here) * smooth)
    slope = _CRIMP * (up_next - up_here) * (np.pi / 2) * np.sin(np.pi * part) / pitch
    there = np.abs(across) < 1
    crown = np.sqrt(np.clip(1 - across**2, 0, 1))
    height = np.where(there, middle + crown, -9.0)
    return Lie(middle=middle, across=across, height=height, slope=slope, along=along)


def light_on(lie: Lie, *, vertical: bool, hair: Array) -> tuple[Array, Array]:
    """Light from a thread: a factor of its colour, and a white gloss to add.

    Parameters
    ----------
    lie : Lie
    vertical : bool
        True for ends, which run down the picture.
    hair : ndarray of shape (h, w)
        Fine unevenness, about -1 to 1.
    """
    side = lie.across * 0.92
    crown = np.sqrt(np.clip(1 - side**2, 0.02, 1))
    # Ends are counted from the right and picks from below: a rise faces right, or down.
    nx, ny = (side, lie.slope) if vertical else (lie.slope, side)
    facing = (nx * _LIGHT[0] + ny * _LIGHT[1] + crown * _LIGHT[2]) / (
        np.sqrt(nx**2 + ny**2 + crown**2) * _BRIGHTNESS
    )
    lay = np.sin(2 * np.pi * (lie.along * _TWIST_ANGLE + 0.5 * lie.across))
    deep = np.clip((lie.height + 1.2) / 2.4, 0, 1)  # hollows see less of the sky
    body = (_AMBIENT * (0.45 + 0.75 * deep) + _DIFFUSE * np.clip(facing, 0, 1)) * (
        1 + _TWIST_DEPTH * lay + 0.06 * hair
    )
    gloss = _GLOSS * np.clip(facing, 0, 1) ** 14 * (0.7 + 0.3 * lay)
    return body, np.clip(gloss, 0, 1)


def shadow_of(lie: Lie) -> Array:
    """Shadow that a thread on top casts beside itself, 0 to 1."""
    beside = np.exp(-np.clip(np.abs(lie.across) - 1, 0, None) / 0.25)
    return np.asarray(beside * np.clip(lie.middle / _CRIMP, 0, 1))


def streaks(shape: tuple[int, int], chance: np.random.Generator, *, vertical: bool) -> Array:
    """Fine fibres that run along a thread: noise drawn out one way, about -1 to 1."""
    noise = chance.standard_normal(shape if vertical else shape[::-1], dtype=np.float32)
    drawn = np.cumsum(noise, axis=0)
    reach = min(9, len(drawn) - 1)
    drawn[reach:] = drawn[reach:] - drawn[:-reach]
    terms = np.minimum(np.arange(len(drawn)) + 1, max(reach, 1))
    drawn /= np.sqrt(terms, dtype=np.float32)[:, np.newaxis]
    return drawn if vertical else drawn.T


def wander(
    count: int, places: NDArray[np.float64], size: float, chance: np.random.Generator
) -> Array:
    """Slow irregularity of threads along their length.

    Parameters
    ----------
    count : int
        Threads.
    places : ndarray of shape (n,)
        Points along them, in pitches of the crossing set.
    size : float
        Standard deviation.

    Returns
    -------
    ndarray of shape (count, n)
    """
    total = np.zeros((count, len(places)))
    for waves in (1 / 41, 1 / 17, 1 / 7.3):
        phase = chance.uniform(0, 2 * np.pi, (count, 1))
        swing = chance.standard_normal((count, 1))
        total += swing * np.sin(2 * np.pi * waves * places + phase)
    return (size * total / math.sqrt(1.5)).astype(np.float32)
