"""A field of interlacing threads, drawn point by point."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.cloth.threads import Lie, lie_of, light_on, shadow_of, streaks, wander
from palette.cloth.weft_shades import WeftShades
from palette.perception.spaces import lab_to_linear_srgb

__all__ = ["Scene", "draw"]

Array = NDArray[np.float64]
Field = NDArray[np.float32]
Numbers = NDArray[np.intp]

_BAND_POINTS = 120_000  # worked on at a time, so that they stay in the processor's cache
_SIDEWAYS, _THICKNESS, _TONE = 0.035, 0.07, 0.045  # irregularity of a thread, standard deviations
_HOLLOW = 0.10  # light that comes from between the threads, of the yarns' own
_SHADE = 0.45  # depth of the shadow beside a thread on top
_PLY_TURNS = 0.42  # turns of two plies per width of the yarn


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What is drawn; arrays, not to be kept.

    Attributes
    ----------
    grid : ndarray of bool of shape (picks, ends)
        One repeat, True where the warp is on top.
    x : ndarray of shape (w,)
        Place of each point across, in ends from the right edge of the cloth.
    y : ndarray of shape (h,)
        Place of each point along, in picks from its lower edge.
    end_mm, pick_mm : float
        Spacing of the threads.
    warp_mm, weft_mm : float
        Thickness of the threads as drawn.
    warp_light : ndarray of shape (ends, 3)
        Light from every end, linear sRGB.
    weft : WeftShades
        Its picks begin at the pick of the lowest point; its columns are the points across.
    seed : int
    """

    grid: NDArray[np.bool_]
    x: Array
    y: Array
    end_mm: float
    pick_mm: float
    warp_mm: float
    weft_mm: float
    warp_light: Array
    weft: WeftShades
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Uneven:
    """Irregularity of one set of threads: place and thickness along it (n, p), and tone (n,)."""

    sideways: Field
    thickness: Field
    tone: Field


def draw(scene: Scene) -> Iterator[Field]:
    """Draw the points in bands from the top, each (rows, w, 3), linear sRGB."""
    chance = np.random.default_rng(scene.seed)
    ends = _uneven(scene.x, scene.y, chance)
    picks = _uneven(scene.y, scene.x, chance)
    band = max(2, _BAND_POINTS // len(scene.x) // 2 * 2)
    for top in range(0, len(scene.y), band):
        yield _band(scene, slice(top, top + band), ends, picks, chance)


def _uneven(threads: Array, places: Array, chance: np.random.Generator) -> _Uneven:
    count = int(threads.max()) - int(threads.min()) + 1
    return _Uneven(
        sideways=wander(count, places, _SIDEWAYS, chance),
        thickness=1 + wander(count, places, _THICKNESS, chance),
        tone=1 + _TONE * chance.standard_normal(count, dtype=np.float32),
    )


def _band(
    scene: Scene, rows: slice, ends: _Uneven, picks: _Uneven, chance: np.random.Generator
) -> Field:
    y, end, pick = scene.y[rows], _numbers(scene.x), _numbers(scene.y[rows])
    at_end, at_pick = end - end.min(), pick - int(scene.y.min())
    warp = _warp_lie(
        scene, y, end, ends.sideways[:, rows].T[:, at_end], ends.thickness[:, rows].T[:, at_end]
    )
    weft = _weft_lie(scene, y, pick, picks.sideways[at_pick], picks.thickness[at_pick])
    shape = warp.across.shape
    warp_body, warp_gloss = light_on(
        warp, vertical=True, hair=streaks(shape, chance, vertical=True)
    )
    weft_body, weft_gloss = light_on(
        weft, vertical=False, hair=streaks(shape, chance, vertical=False)
    )
    warp_body *= ends.tone[at_end] * (1 - _SHADE * shadow_of(weft))
    weft_body *= picks.tone[at_pick][:, np.newaxis] * (1 - _SHADE * shadow_of(warp))
    of_ends = scene.warp_light.astype(np.float32)
    warp_light = of_ends[np.minimum(end, len(of_ends) - 1)][np.newaxis]
    weft_light = _weft_light(scene.weft, at_pick, weft)
    on_top = warp.height * scene.warp_mm >= weft.height * scene.weft_mm
    nothing = (np.abs(warp.across) >= 1) & (np.abs(weft.across) >= 1)
    body, gloss = np.where(on_top, warp_body, weft_body), np.where(on_top, warp_gloss, weft_gloss)
    colour = np.where(on_top[..., np.newaxis], warp_light, weft_light)
    light = colour * body[..., np.newaxis] + gloss[..., np.newaxis] * np.sqrt(
        np.clip(colour, 0.01, 1)
    )
    hollow = _HOLLOW * (warp_light + weft_light)
    return np.asarray(np.where(nothing[..., np.newaxis], hollow, light), dtype=np.float32)


def _numbers(places: Array) -> Numbers:
    return np.floor(places).astype(np.intp)


def _warp_lie(scene: Scene, y: Array, end: Numbers, sideways: Field, thickness: Field) -> Lie:
    offset = (scene.x - end - 0.5).astype(np.float32)
    across = -(offset - sideways) * scene.end_mm / (scene.warp_mm / 2 * thickness)
    behind = _numbers(y - 0.5)
    up = np.where(scene.grid, 1, -1).astype(np.float32)
    columns = end % scene.grid.shape[1]
    here, following = (
        up[np.ix_((behind + ahead) % scene.grid.shape[0], columns)] for ahead in (0, 1)
    )
    part = (y - 0.5 - behind)[:, np.newaxis].astype(np.float32)
    along = ((y * scene.pick_mm / scene.warp_mm)[:, np.newaxis] + 0.37 * end).astype(np.float32)
    pitch = scene.pick_mm / (scene.warp_mm / 2)
    return lie_of(
        across=across, along=along, up_here=here, up_next=following, part=part, pitch=pitch
    )


def _weft_lie(scene: Scene, y: Array, pick: Numbers, sideways: Field, thickness: Field) -> Lie:
    offset = (y - pick - 0.5)[:, np.newaxis].astype(np.float32)
    across = -(offset - sideways) * scene.pick_mm / (scene.weft_mm / 2 * thickness)
    behind = _numbers(scene.x - 0.5)
    up = np.where(scene.grid, -1, 1).astype(np.float32)
    rows = pick % scene.grid.shape[0]
    here, following = (up[np.ix_(rows, (behind + ahead) % scene.grid.shape[1])] for ahead in (0, 1))
    part = (scene.x - 0.5 - behind)[np.newaxis].astype(np.float32)
    along = scene.x * (scene.end_mm / scene.weft_mm) + 0.61 * pick[:, np.newaxis]
    pitch = scene.end_mm / (scene.weft_mm / 2)
    return lie_of(
        across=across,
        along=along.astype(np.float32),
        up_here=here,
        up_next=following,
        part=part,
        pitch=pitch,
    )


def _weft_light(weft: WeftShades, at_pick: Numbers, lie: Lie) -> Field:
    """Light from the wefts, (h, w, 3); the plies of a marled yarn take turns along it."""
    numbers = weft.numbers[at_pick]
    light: Field = lab_to_linear_srgb(weft.labs).astype(np.float32)[numbers]
    for shade, plies in weft.plies.items():
        turn = np.sin(2 * np.pi * (lie.along * _PLY_TURNS + 0.3 * lie.across))
        first = np.clip(0.5 + 2.5 * turn, 0, 1)[..., np.newaxis]
        both = lab_to_linear_srgb(plies).astype(np.float32)
        light = np.where(
            (numbers == shade)[..., np.newaxis], first * both[0] + (1 - first) * both[1], light
        )
    return light
