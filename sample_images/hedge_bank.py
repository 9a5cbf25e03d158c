"""Hedge banks painted leaf by leaf, back to front, with sun, shade and a lens.

A layer holds, for every pixel, the reflectance of what is nearest, how much of the sun reaches it,
how much of the pixel is covered, and of which material it is. Light is worked out at the end, so a
shadow that falls on a shadow does not grow darker, and what lies in the light and what lies in the
shade stay two clear classes, each with a true colour.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from leaf_shapes import Shape, evaluate
from numpy.typing import NDArray
from scipy import ndimage, signal

Array = NDArray[np.float32]

AMBIENT = np.array([0.235, 0.26, 0.275], np.float32)  # blue sky, by linear channel
SUN = np.array([0.80, 0.765, 0.69], np.float32)  # warm, low


def linear(hex_colour: str) -> Array:
    """Linear sRGB of ``#rrggbb``."""
    value = np.array([int(hex_colour[i : i + 2], 16) for i in (1, 3, 5)], np.float32) / 255
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4).astype(
        np.float32
    )


def noise(rng: np.random.Generator, cells: int, shape: tuple[int, int]) -> Array:
    """Smooth random field, about `cells` humps across, mean 0, deviation near 1."""
    rows = max(4, round(cells * 2 / 3)) + 3
    grid = rng.standard_normal((rows, cells + 3)).astype(np.float32)
    y = np.linspace(1, rows - 2, shape[0], dtype=np.float32)
    x = np.linspace(1, cells + 1, shape[1], dtype=np.float32)
    rowwise = ndimage.map_coordinates(
        grid, np.meshgrid(y, np.arange(cells + 3), indexing="ij"), order=3
    )
    return ndimage.map_coordinates(
        rowwise, np.meshgrid(np.arange(shape[0]), x, indexing="ij"), order=3
    ).astype(np.float32) * 1.4  # fmt: skip


@dataclass(slots=True)
class Layer:
    """Everything at one distance from the lens."""

    shape: tuple[int, int]
    scale: float
    reflectance: Array = field(init=False)
    sun: Array = field(init=False)
    cover: Array = field(init=False)
    material: NDArray[np.int16] = field(init=False)
    gloss: Array = field(init=False)

    def __post_init__(self) -> None:
        self.reflectance = np.zeros((*self.shape, 3), np.float32)
        self.sun = np.zeros(self.shape, np.float32)
        self.cover = np.zeros(self.shape, np.float32)
        self.gloss = np.zeros(self.shape, np.float32)
        self.material = np.full(self.shape, -1, np.int16)

    def _window(self, shape: Shape, grow: float) -> tuple[slice, slice] | None:
        s = self.scale
        reach = shape.length * (
            1.05 if shape.kind in {"hazel", "nettle", "smooth", "strap"} else 1.0
        )
        along = np.array([0, reach, reach, 0, reach / 2])
        side = shape.length * (shape.ratio * 1.1)
        across = np.array([side, side, -side, -side, 0]) + shape.bend * along**2 / shape.length
        if shape.kind not in {"hazel", "nettle", "smooth", "strap"}:
            along = np.array([-1, 1, 1, -1, 0]) * shape.length
            across = np.array([1, 1, -1, -1, 0]) * shape.length
        c, n = np.cos(shape.angle), np.sin(shape.angle)
        xs = (shape.x + along * c - across * n) * s
        ys = (shape.y + along * n + across * c) * s
        pad = 2 + grow * s
        y0, y1 = int(max(0, ys.min() - pad)), int(min(self.shape[0], ys.max() + pad))
        x0, x1 = int(max(0, xs.min() - pad)), int(min(self.shape[1], xs.max() + pad))
        return (slice(y0, y1), slice(x0, x1)) if y1 > y0 and x1 > x0 else None

    def _evaluate(self, shape: Shape, window: tuple[slice, slice]) -> tuple[Array, Array]:
        ys = (
            np.arange(window[0].start, window[0].stop, dtype=np.float32) + 0.5
        ) / self.scale - shape.y
        xs = (
            np.arange(window[1].start, window[1].stop, dtype=np.float32) + 0.5
        ) / self.scale - shape.x
        c, n = np.float32(np.cos(shape.angle)), np.float32(np.sin(shape.angle))
        along = xs[None, :] * c + ys[:, None] * n
        across = ys[:, None] * c - xs[None, :] * n
        return evaluate(shape, along, across)

    def shade(
        self, shape: Shape, fall: tuple[float, float], soft: float, depth: float = 1.0
    ) -> None:
        """Keep the sun from what lies below and beside a leaf about to be painted."""
        below = Shape(**{**_fields(shape), "x": shape.x + fall[0], "y": shape.y + fall[1]})
        window = self._window(below, soft)
        if window is not None:
            margin, _ = self._evaluate(below, window)
            self.sun[window] *= 1 - depth * np.clip(margin / soft + 0.5, 0, 1)

    def paint(
        self,
        shape: Shape,
        colour: Array,
        material: int,
        *,
        lit: float,
        gloss: float,
        mottle: Array,
        hush: float = 20.0,
    ) -> None:
        """Lay one leaf over everything painted before; near it, less of the sky is seen."""
        window = self._window(shape, hush)
        if window is None:
            return
        margin, surface = self._evaluate(shape, window)
        alpha = np.clip(margin * self.scale + 0.5, 0, 1)
        inside = alpha > 0.5
        rows, columns = alpha.shape
        step = 1 / self.scale
        offset = shape.seed % 256
        iy = (offset + np.arange(rows) * step).astype(int) % mottle.shape[0]
        ix = (offset * 3 + np.arange(columns) * step).astype(int) % mottle.shape[1]
        skin = surface * (1 + 0.045 * mottle[np.ix_(iy, ix)])
        self.reflectance[window] *= 1 - 0.2 * np.clip(margin / hush + 0.5, 0, 1)[..., None]
        a = alpha[..., None]
        self.reflectance[window] += a * (skin[..., None] * colour - self.reflectance[window])
        self.sun[window] += alpha * (lit - self.sun[window])
        self.gloss[window] += alpha * (
            gloss * np.clip(surface - 0.92, 0, 1) ** 1.3 - self.gloss[window]
        )
        self.cover[window] += alpha * (1 - self.cover[window])
        self.material[window][inside] = material

    def develop(self, dapple: Array, depth: float) -> tuple[Array, Array]:
        """Light leaving the layer (linear), and the sun on it after the trees above."""
        sun = np.clip((self.sun * dapple - 0.5) * 2.8 + 0.5, 0, 1)
        light = AMBIENT * (1 - depth) + SUN * sun[..., None]
        sheen = (self.gloss * (0.25 + sun))[..., None] * np.array([0.9, 1.0, 1.1], np.float32)
        return self.reflectance * light + sheen * self.cover[..., None], sun


def _fields(shape: Shape) -> dict[str, float | str | int]:
    return {name: getattr(shape, name) for name in Shape.__slots__}


def disc(radius: float) -> Array:
    """Image of a far point of light through a round opening."""
    size = int(np.ceil(radius)) + 1
    y, x = np.mgrid[-size : size + 1, -size : size + 1]
    kernel = np.clip(radius - np.hypot(x, y) + 0.5, 0, 1)
    return (kernel / kernel.sum()).astype(np.float32)


def defocus(channel: Array, radius: float) -> Array:
    """Blur by a disc, edges continued by reflection."""
    if radius < 0.6:
        return channel
    kernel = disc(radius)
    pad = kernel.shape[0] // 2
    padded = np.pad(channel, pad, mode="symmetric")
    return signal.fftconvolve(padded, kernel, mode="valid").astype(np.float32)


def classes_after_blur(classes: NDArray[np.int16], radius: float, count: int) -> NDArray[np.int16]:
    """Class that gives most of the light of each blurred pixel; -1 for none."""
    if radius < 0.6:
        return classes
    best = np.zeros(classes.shape, np.float32)
    chosen = np.full(classes.shape, -1, np.int16)
    for number in range(-1, count):
        weight = ndimage.uniform_filter((classes == number).astype(np.float32), 2 * int(radius) + 1)
        chosen = np.where(weight > best, np.int16(number), chosen)
        best = np.maximum(best, weight)
    return chosen
