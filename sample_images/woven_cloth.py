"""A striped cloth lying askew on boards, thread by thread."""

from __future__ import annotations

import numpy as np
from hedge_bank import Array, linear, noise
from numpy.typing import NDArray
from scipy import ndimage

WIDTH, HEIGHT = 2160, 1440
PX_PER_MM = 8.0
PICKS_PER_CM = 9.0
ENDS_PER_CM = 8.0
CLOTH_WIDTH_MM = 224.0
SKEW_DEGREES = 2.3
FRINGE_MM = 13.0

YARNS = {
    "madder": "#b0432f",
    "weld": "#dfb945",
    "indigo": "#2c4a74",
    "pale indigo": "#86abc4",
    "walnut": "#573d2d",
    "undyed wool": "#ece3cf",
    "moss": "#71803d",
}
BOARD = "boards"
WARP_YARN = "undyed wool"

REPEAT = (
    ("indigo", 9), ("undyed wool", 3), ("madder", 6), ("weld", 2), ("madder", 6),
    ("undyed wool", 3),
    ("moss", 10), ("pale indigo", 4), ("walnut", 7), ("pale indigo", 4), ("moss", 10), ("weld", 5),
)  # fmt: skip
STRIPES = (*REPEAT, *REPEAT[:7])


def _where(scale: float) -> tuple[Array, Array]:
    """Millimetres across and along the cloth, from its middle, seen at a slant."""
    rows, columns = round(HEIGHT * scale), round(WIDTH * scale)
    y, x = np.meshgrid(
        (np.arange(rows, dtype=np.float32) + 0.5) / scale - HEIGHT / 2,
        (np.arange(columns, dtype=np.float32) + 0.5) / scale - WIDTH / 2,
        indexing="ij",
    )
    slant = 1 + 1.3e-5 * x - 2.2e-5 * y
    angle = np.deg2rad(SKEW_DEGREES)
    u, v = x / slant, y / slant
    across = (u * np.cos(angle) + v * np.sin(angle)) / PX_PER_MM
    along = (v * np.cos(angle) - u * np.sin(angle)) / PX_PER_MM
    return across.astype(np.float32), along.astype(np.float32)


def _bent(rng: np.random.Generator, across: Array, along: Array) -> tuple[Array, Array]:
    """Lay the cloth down by hand: threads wander a little."""
    shape = across.shape
    along = along + 0.55 * noise(rng, 3, shape) + 0.05 * noise(rng, 60, shape)
    across = across + 0.5 * noise(rng, 3, shape) + 0.06 * noise(rng, 70, shape)
    return across, along


def _uneven(rng: np.random.Generator, count: int, spread: float) -> Array:
    """Edges of threads of uneven thickness, mean thickness 1."""
    thickness = np.clip(rng.normal(1, spread, count), 0.6, 1.5)
    return np.concatenate([[0], np.cumsum(thickness / thickness.mean())]).astype(np.float32)


def _thread(position: Array, edges: Array) -> tuple[NDArray[np.int64], Array]:
    """Number of the thread at a position, and how far across it from 0 to 1."""
    number = np.clip(np.searchsorted(edges, position, side="right") - 1, 0, len(edges) - 2)
    return number, ((position - edges[number]) / (edges[number + 1] - edges[number])).astype(
        np.float32
    )


def _boards(rng: np.random.Generator, across: Array, along: Array, scale: float) -> Array:
    """Limed boards: long grain, a few joints."""
    shape = across.shape
    row = np.floor((along + 200) / 46)
    rough = ndimage.gaussian_filter(
        rng.standard_normal(shape).astype(np.float32), (1.0 * scale, 60 * scale)
    )
    fine = ndimage.gaussian_filter(
        rng.standard_normal(shape).astype(np.float32), (0.8 * scale, 16 * scale)
    )
    figure = 0.05 * rough / rough.std() + 0.03 * fine / fine.std()
    rings = 0.035 * np.sin((along + 200 + 2.5 * noise(rng, 4, shape)) * 2.4 + row * 2.1)
    joint = np.exp(-((((along + 200) % 46) - 0.4) ** 2) / 0.25)
    tone = 1 + figure + rings + 0.04 * np.sin(row * 2.7) - 0.6 * joint
    return linear("#8f8880") * tone[..., None]


def render(scale: float = 1.0, seed: int = 77) -> tuple[Array, NDArray[np.int16], list[str]]:
    """Linear picture, class of each pixel, and names of the classes."""
    rng = np.random.default_rng(seed)
    names = [*YARNS, BOARD]
    colours = np.stack([linear(value) for value in YARNS.values()])
    weft = np.array([names.index(name) for name, picks in STRIPES for _ in range(picks)])
    flat_across, flat_along = _where(scale)
    across, along = _bent(rng, flat_across, flat_along)
    length = len(weft) / PICKS_PER_CM * 10
    ends = round(CLOTH_WIDTH_MM / 10 * ENDS_PER_CM)
    edges = _uneven(rng, len(weft), 0.06)
    end_edges = _uneven(rng, ends, 0.05)
    pick, f = _thread((along + length / 2) / 10 * PICKS_PER_CM, edges)
    end, g = _thread((across + CLOTH_WIDTH_MM / 2) / 10 * ENDS_PER_CM, end_edges)
    draw = np.repeat(rng.normal(0, 0.28, len(weft)), 1)[pick] + np.where(pick % 2, 0.25, -0.25)
    inside = (np.abs(along) < length / 2) & (np.abs(across) < CLOTH_WIDTH_MM / 2 - 0.3 + draw)
    surface, warp_shows = _surface(rng, pick, f, end, g, across)
    lift = rng.normal(0, 0.035, len(weft)).astype(np.float32)[pick]
    light = colours[weft[pick]] * (1 + lift)[..., None]
    light = light + warp_shows[..., None] * (colours[names.index(WARP_YARN)] - light)
    light = light * surface[..., None]
    ground = _boards(rng, flat_across, flat_along, scale)
    cast = ndimage.gaussian_filter(
        np.roll(inside, (round(14 * scale), round(9 * scale)), (0, 1)).astype(np.float32), 7 * scale
    )
    ground = ground * (1 - 0.62 * cast)[..., None]
    ground, fringe = _fringe(
        rng, ground, across, along, length, colours[names.index(WARP_YARN)], scale
    )
    soft = ndimage.gaussian_filter(inside.astype(np.float32), 0.7 * scale)[..., None]
    picture = (ground + soft * (light - ground)) * _light(rng, scale, across.shape)[..., None]
    label = np.where(
        inside, weft[pick], np.where(fringe, names.index(WARP_YARN), names.index(BOARD))
    )
    blurred = np.stack(
        [ndimage.gaussian_filter(picture[..., c], 0.75 * scale) for c in range(3)], axis=-1
    )
    return blurred, label.astype(np.int16), names


def _surface(
    rng: np.random.Generator,
    pick: NDArray[np.int64],
    f: Array,
    end: NDArray[np.int64],
    g: Array,
    across: Array,
) -> tuple[Array, Array]:
    """Roundness of the weft, its rise over the ends, its twist, and the warp that shows between."""
    over = (pick + end) % 2 == 0
    round_weft = np.sqrt(np.clip(1 - (2 * f - 1) ** 2 * 0.92, 0, 1))
    rise = np.where(over, np.cos((g - 0.5) * np.pi), -0.55 * np.cos((g - 0.5) * np.pi))
    ply = np.cos(2 * np.pi * (across * 1.15 + f * 0.8 + pick * 0.37))
    fibre = ndimage.gaussian_filter(rng.standard_normal(f.shape).astype(np.float32), (0.6, 1.6))
    fibre = fibre / fibre.std()
    surface = (
        0.74 + 0.30 * round_weft + 0.10 * rise + 0.05 * ply + 0.045 * fibre - 0.10 * (f - 0.35)
    )
    warp_shows = (
        np.where(over, 0, np.exp(-(((g - 0.5) / 0.2) ** 2) - ((f - 0.5) / 0.30) ** 2)) * 0.28
    )
    tight = rng.uniform(0.3, 1.25, (pick.max() + 1, 1)) * rng.uniform(0.5, 1.1, (1, end.max() + 1))
    warp_shows = warp_shows * tight[pick, end]
    return surface.astype(np.float32), warp_shows.astype(np.float32)


def _fringe(
    rng: np.random.Generator,
    ground: Array,
    across: Array,
    along: Array,
    length: float,
    colour: Array,
    scale: float,
) -> tuple[Array, NDArray[np.bool_]]:
    """Knotted warp ends beyond the first and last pick."""
    beyond = np.abs(along) - length / 2
    bundle_mm = 10 / ENDS_PER_CM * 4
    slot = np.floor((across + CLOTH_WIDTH_MM / 2) / bundle_mm).astype(int)
    count = round(CLOTH_WIDTH_MM / bundle_mm)
    within = (slot >= 0) & (slot < count) & (beyond > -1)
    slot = np.clip(slot, 0, count - 1)
    sway = rng.normal(0, 0.045, (2, count))[(along > 0).astype(int), slot]
    reach = rng.normal(FRINGE_MM, 0.9, (2, count))[(along > 0).astype(int), slot]
    centre = (slot + 0.5) * bundle_mm - CLOTH_WIDTH_MM / 2 + sway * beyond
    t = np.clip(beyond / reach, 0, 1)
    knot = np.exp(-(((beyond - 3.2) / 1.1) ** 2))
    half = bundle_mm * (0.46 * np.exp(-beyond / 1.6) + 0.13 + 0.12 * t + 0.12 * knot)
    off = (across - centre) / half
    strand = 0.80 + 0.2 * np.cos(off * 6 + beyond * 1.1) * (1 - 0.5 * knot) + 0.1 * knot
    body = np.clip(strand, 0.5, 1.1) * (1 - 0.35 * np.clip(off, -1, 1) ** 2)
    cover = within & (np.abs(off) < 1) & (beyond < reach)
    shadow = ndimage.gaussian_filter(
        np.roll(cover, (round(8 * scale), round(6 * scale)), (0, 1)).astype(np.float32), 4 * scale
    )
    ground = ground * (1 - 0.45 * shadow)[..., None]
    soft = ndimage.gaussian_filter(cover.astype(np.float32), 0.7 * scale)[..., None]
    return ground + soft * (colour * body[..., None] - ground), cover


def _light(rng: np.random.Generator, scale: float, shape: tuple[int, int]) -> Array:
    """Window light from the upper left, and the gentle hills of a cloth not ironed."""
    y, x = np.mgrid[-1 : 1 : shape[0] * 1j, -1 : 1 : shape[1] * 1j].astype(np.float32)
    window = 0.84 - 0.14 * x - 0.08 * y
    return (window * (1 + 0.022 * noise(rng, 4, shape))).astype(np.float32)
