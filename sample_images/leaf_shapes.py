"""Outlines and surfaces of leaves, blades and flowers, evaluated where a picture needs them.

Every shape takes pixel offsets from its foot, along its axis and across it, and gives two arrays:
how far inside the outline a pixel lies (pixels, negative outside), and a factor for its surface
(veins, bulging between them, a fold along the midrib).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float32]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One leaf: where it grows from, which way, how long, and of which kind."""

    kind: str
    x: float
    y: float
    angle: float
    length: float
    ratio: float = 0.4
    bend: float = 0.0
    fold: float = 0.1
    turn: float = 0.0
    seed: int = 0


def _pinnate(u: Array, across: Array, shape: Shape, half: Array, veins: int) -> Array:
    """Surface with a midrib and side veins that run forward to the edge."""
    v = across / np.maximum(half, 1.0)
    phase = (u - 0.16 * np.abs(v)) * veins
    wave = np.cos(2 * np.pi * phase)
    fade = np.clip(1 - np.abs(v), 0, 1)
    vein = np.clip(wave - 0.86, 0, 1) / 0.14 * np.clip(1.15 - np.abs(v), 0, 1)
    rib = np.exp(-((across / (0.012 * shape.length + 0.6)) ** 2))
    surface = 1 - 0.09 * wave * fade + 0.13 * vein + 0.25 * rib
    return surface * (1 + shape.fold * np.tanh(4 * v)) * curl(shape, u, v)


def curl(shape: Shape, u: Array, v: Array) -> Array:
    """Light that changes along and across a leaf that is not flat."""
    lean = np.cos(shape.turn) * 0.16
    roll = np.sin(shape.turn * 2.3) * 0.10
    hump = np.exp(-(((u - 0.45 - 0.2 * np.sin(shape.turn * 5)) / 0.3) ** 2))
    return (
        1
        + lean * (u - 0.5) * 2
        - 0.07 * np.clip(v, -1, 1) ** 2
        + roll * np.clip(v, -1, 1)
        + 0.10 * hump
    )


def _ovate(
    along: Array, across: Array, shape: Shape, teeth: int, belly: float
) -> tuple[Array, Array]:
    u = along / shape.length
    inside = np.clip(u, 0, 1)
    half = shape.length * shape.ratio * np.maximum(np.sin(np.pi * inside**belly), 0) ** 0.85
    if teeth:
        saw = (inside * teeth) % 1.0
        half = half * (1.02 - 0.10 * saw) + 0.004 * shape.length * saw
    margin = half - np.abs(across)
    margin = np.minimum(margin, np.minimum(along, shape.length - along) + 0.5)
    return margin, _pinnate(u, across, shape, half, 7 if teeth else 9)


def _lobed(
    along: Array,
    across: Array,
    shape: Shape,
    lobes: tuple[tuple[float, float, float], ...],
    floor: float,
) -> tuple[Array, Array]:
    """Palmate leaf: lobes (direction, reach, width) that radiate from the foot."""
    squash = 0.55 + shape.ratio
    rho = np.hypot(along, across / squash) + 1e-3
    theta = np.arctan2(across / squash, along)
    reach = np.full_like(rho, floor)
    vein = np.zeros_like(rho)
    bulge = np.zeros_like(rho)
    for direction, size, width in lobes:
        off = np.angle(np.exp(1j * (theta - direction))).astype(np.float32)
        reach = np.maximum(reach, size * np.exp(-(np.abs(off / width) ** 1.5)))
        ray = rho * np.abs(np.sin(off))
        ahead = (np.cos(off) > 0) & (rho < size * shape.length * 0.95)
        vein = np.maximum(vein, ahead * np.exp(-((ray / (0.010 * shape.length + 0.7)) ** 2)))
        bulge = np.maximum(bulge, ahead * np.exp(-np.abs(off) / 0.25))
    cut = np.clip((np.abs(theta) - 2.55) / 0.5, 0, 1)
    reach = reach * (1 - 0.85 * cut)
    margin = (reach * shape.length - rho) * 0.8
    surface = 0.97 + 0.28 * vein - 0.09 * bulge + 0.03 * np.cos(rho / shape.length * 30)
    fold = 1 + shape.fold * np.tanh(5 * across / shape.length)
    return margin, surface * fold * curl(shape, along / shape.length, across / shape.length)


def _strap(along: Array, across: Array, shape: Shape) -> tuple[Array, Array]:
    """Grass: a long blade with lines along it."""
    u = np.clip(along / shape.length, 0, 1)
    half = shape.length * shape.ratio * np.clip(1 - u**2.2, 0, 1) * np.clip(0.55 + 2 * u, 0, 1)
    margin = np.minimum(half - np.abs(across), np.minimum(along, shape.length - along))
    v = across / np.maximum(half, 0.5)
    lines = 0.05 * np.cos(v * 14) + 0.18 * np.exp(-((v / 0.12) ** 2))
    return margin, (0.86 + lines + 0.22 * u) * (1 + 1.6 * shape.fold * np.tanh(4 * v))


def _flower(
    along: Array, across: Array, shape: Shape, petals: int, notch: float
) -> tuple[Array, Array]:
    """Petals around the foot, seen at a slant given by ratio."""
    rho = np.hypot(along * 1.0, across / (0.3 + shape.ratio)) + 1e-3
    theta = np.arctan2(across / (0.3 + shape.ratio), along) + shape.turn
    lobe = np.abs(np.cos(theta * petals / 2))
    reach = (
        0.22 + 0.78 * lobe**0.55 - notch * np.exp(-(((1 - lobe) / 0.02) ** 2)) - notch * lobe**90
    )
    surface = (
        0.9 + 0.14 * rho / shape.length + 0.05 * np.cos(theta * petals * 5) - 0.12 * (1 - lobe)
    )
    return (reach * shape.length - rho) * 0.8, surface


def _round(along: Array, across: Array, shape: Shape) -> tuple[Array, Array]:
    """Berry or flower eye, lit from above left."""
    rho = np.hypot(along, across / (0.5 + shape.ratio))
    r = np.clip(rho / shape.length, 0, 1)
    return shape.length - rho, 1.08 - 0.35 * r**2.5


def _stone(along: Array, across: Array, shape: Shape) -> tuple[Array, Array]:
    """Crumb of earth with a ragged outline."""
    theta = np.arctan2(across, along)
    rho = np.hypot(along, across / (0.45 + shape.ratio))
    wobble = (
        0.62 + 0.16 * np.sin(3 * theta + shape.turn) + 0.12 * np.sin(5 * theta + shape.turn * 3)
    )
    wobble = wobble + 0.08 * np.sin(9 * theta + shape.turn * 7)
    r = np.clip(rho / shape.length, 0, 1)
    return wobble * shape.length - rho, 1.06 - 0.32 * r + 0.1 * np.sin(
        along * 0.3 + shape.turn
    ) * np.sin(across * 0.37)


_IVY = (
    (0.0, 1.0, 0.72),
    (0.95, 0.74, 0.62),
    (-0.95, 0.74, 0.62),
    (1.95, 0.56, 0.75),
    (-1.95, 0.56, 0.75),
)
_MAPLE = (
    (0.0, 1.0, 0.50), (0.34, 0.80, 0.26), (-0.34, 0.80, 0.26), (0.95, 0.88, 0.50),
    (-0.95, 0.88, 0.50),
    (1.32, 0.66, 0.28), (-1.32, 0.66, 0.28), (1.95, 0.55, 0.55), (-1.95, 0.55, 0.55),
)  # fmt: skip


def evaluate(  # noqa: C901 - one case for every kind of leaf
    shape: Shape, along: Array, across: Array
) -> tuple[Array, Array]:
    """Margin inside the outline (pixels) and surface factor at offsets from the foot."""
    across = across - shape.bend * along * np.abs(along) / shape.length
    match shape.kind:
        case "hazel":
            return _ovate(along, across, shape, teeth=17, belly=0.92)
        case "nettle":
            return _ovate(along, across, shape, teeth=13, belly=0.72)
        case "smooth":
            return _ovate(along, across, shape, teeth=0, belly=0.85)
        case "ivy":
            return _lobed(along, across, shape, _IVY, 0.36)
        case "maple":
            return _lobed(along, across, shape, _MAPLE, 0.42)
        case "strap":
            return _strap(along, across, shape)
        case "campion":
            return _flower(along, across, shape, petals=5, notch=0.16)
        case "stitchwort":
            return _flower(along, across, shape, petals=5, notch=0.42)
        case "celandine":
            return _flower(along, across, shape, petals=8, notch=0.0)
        case "stone":
            return _stone(along, across, shape)
        case _:
            return _round(along, across, shape)
