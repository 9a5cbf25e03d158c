"""A second way to picture a striped cloth: threads as heights, seen by a camera over a table.

Shares no arithmetic with `rendered_cloth`. Weft and warp are round threads that pass over each
other; whichever lies higher is seen, lit from one side. A pinhole camera (tilt, turn, roll) looks
down on the cloth on boards, a bed, grass or a plain wall. Lens, sensor and file then do their part.
"""

from __future__ import annotations

import io
import itertools
from dataclasses import dataclass

import numpy as np
from PIL import Image
from scipy import ndimage
from skimage.color import deltaE_ciede2000, lab2rgb

from palette.photo.photo import Photo

_SAMPLES = 2  # in each direction, for every pixel
_UNDYED = np.array(
    [
        [91, -1, 7],
        [83, 1, 14],
        [74, 2, 12],
        [66, 3, 16],
        [57, 4, 13],
        [47, 6, 14],
        [36, 6, 10],
        [26, 2, 4],
        [70, 0, 2],
        [52, 0, 1],
    ],
    dtype=float,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What may happen in a picture; the seed chooses within it."""

    stripes: tuple[int, int] = (10, 60)
    picks: tuple[int, int] = (2, 80)
    px_per_pick: tuple[float, float] = (3.0, 12.0)
    yarns: tuple[int, int] = (2, 8)
    apart: float = 8.0  # CIEDE2000 between any two yarns
    undyed: float = 0.4  # part of the yarns
    weave: str = "any"  # plain, twill, faced, any
    warp_shows: tuple[float, float] = (0.05, 0.3)
    fills: bool = False  # the cloth runs out of the picture
    ground: str = "any"  # boards, bed, grass, wall, any
    ends: str = "any"  # fringe, hem, bare, any
    upright: bool = False
    skew_degrees: float = 5.0
    tilt_degrees: float = 6.0
    light_left: float = 0.5
    uneven: float = 0.08
    noise: float = 2.5
    blur_px: tuple[float, float] = (0.5, 1.4)
    jpeg: tuple[int, int] = (60, 95)
    long_side_px: int = 1600


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """A picture and the truth about it."""

    pixels: np.ndarray
    sequence: tuple[int, ...]
    picks: tuple[float, ...]
    skew_degrees: float
    px_per_pick: float
    picks_per_cm: float
    width_mm: float  # of the cloth; of what the middle row shows where the cloth fills the picture
    told: str

    def photo(self, name: str = "laid-out.jpg") -> Photo:
        """Photo of the cloth, as read from a file."""
        return Photo(name=name, pixels=self.pixels, format="JPEG")


def _to_light(lab: np.ndarray) -> np.ndarray:
    rgb = np.clip(lab2rgb(np.atleast_2d(lab)), 0.004, 0.97)
    return np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)


def _yarns(rng: np.random.Generator, scene: Scene) -> np.ndarray:
    """Colours of the yarns, dyed and undyed, no two nearer than asked."""
    count = int(rng.integers(scene.yarns[0], scene.yarns[1] + 1))
    kept: list[np.ndarray] = []
    while len(kept) < count:
        if rng.random() < scene.undyed:
            lab = _UNDYED[rng.integers(len(_UNDYED))] + rng.normal(0, 1.5, 3)
        else:
            turn, chroma = rng.uniform(0, 2 * np.pi), 12 + 40 * rng.random()
            lab = np.array([rng.uniform(20, 85), chroma * np.cos(turn), chroma * np.sin(turn)])
        back = np.clip(lab2rgb(lab[None])[0], 0, 1)
        if back.min() <= 0.02 or back.max() >= 0.97:
            continue
        if all(deltaE_ciede2000(lab, other) >= scene.apart for other in kept):
            kept.append(lab)
    return np.array(kept)


def _design(
    rng: np.random.Generator, scene: Scene, yarns: int, room: float
) -> tuple[list[int], list[int]]:
    """Sequence and picks: a repeat, a mirrored repeat, or none; at most `room` picks in all."""
    while True:
        count = int(rng.integers(scene.stripes[0], scene.stripes[1] + 1))
        most = max(scene.picks[0] + 2, min(scene.picks[1], int(3.2 * room / count)))
        kind = rng.choice(["repeat", "mirror", "free"])
        own = count if kind == "free" else max(3, int(count / rng.uniform(1.5, 4)))
        unit: list[tuple[int, int]] = []
        for _ in range(own):
            pick = round(float(np.exp(rng.uniform(np.log(scene.picks[0]), np.log(most)))))
            others = [yarn for yarn in range(yarns) if not unit or yarn != unit[-1][0]]
            unit.append((int(rng.choice(others)), pick))
        if kind == "mirror":
            unit = unit + unit[-2:0:-1]
        stripes = [unit[k % len(unit)] for k in range(count)]
        beside = all(a[0] != b[0] for a, b in itertools.pairwise(stripes))
        total = sum(pick for _, pick in stripes)
        if beside and 0.6 * room < total <= room and len({yarn for yarn, _ in stripes}) > 1:
            return [yarn for yarn, _ in stripes], [pick for _, pick in stripes]


def _slow(rng: np.random.Generator, shape: tuple[int, int], cells: int) -> np.ndarray:
    """Smooth noise, standard deviation about 1, by a few waves in random directions."""
    y = np.linspace(0, 1, shape[0], dtype=np.float32)[:, None]
    x = np.linspace(0, 1, shape[1], dtype=np.float32)[None, :]
    total = np.zeros(shape, dtype=np.float32)
    for _ in range(6):
        a, b, phase = rng.uniform(-cells, cells), rng.uniform(-cells, cells), rng.uniform(0, 7)
        total += np.sin(2 * np.pi * (a * x + b * y) + phase).astype(np.float32)
    return total / np.float32(np.sqrt(3))


def _camera(
    rng: np.random.Generator, scene: Scene, shape: tuple[int, int], px: float
) -> tuple[np.ndarray, np.ndarray, float]:
    """Place on the table, in picks across and along from the middle, of every sample."""
    height, width = shape
    roll = np.deg2rad(rng.uniform(-1, 1) * scene.skew_degrees)
    tilt, turn = np.deg2rad(rng.uniform(-1, 1, 2) * scene.tilt_degrees)
    far = rng.uniform(1.3, 2.2) * max(shape)  # focal length in samples
    about_x = np.array(
        [[1, 0, 0], [0, np.cos(tilt), -np.sin(tilt)], [0, np.sin(tilt), np.cos(tilt)]]
    )
    about_y = np.array(
        [[np.cos(turn), 0, np.sin(turn)], [0, 1, 0], [-np.sin(turn), 0, np.cos(turn)]]
    )
    about_z = np.array(
        [[np.cos(roll), -np.sin(roll), 0], [np.sin(roll), np.cos(roll), 0], [0, 0, 1]]
    )
    eye = about_x @ about_y @ about_z  # the table's axes as the camera sees them
    middle = np.array([0, 0, far / px])  # the table's origin stays in the middle of the picture
    plane = np.stack([eye[:, 0], eye[:, 1], middle], axis=1)  # homography table -> picture
    back = np.linalg.inv(plane)
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    x, y = (x - width / 2 + 0.5) / far, (y - height / 2 + 0.5) / far
    w = back[2, 0] * x + back[2, 1] * y + back[2, 2]
    across = (back[0, 0] * x + back[0, 1] * y + back[0, 2]) / w
    along = (back[1, 0] * x + back[1, 1] * y + back[1, 2]) / w
    return across.astype(np.float32), along.astype(np.float32), float(np.rad2deg(roll))


def _threads(
    rng: np.random.Generator, place: np.ndarray, count: int, uneven: float
) -> tuple[np.ndarray, np.ndarray]:
    """Number of the thread at a place and how far through it, 0 to 1; threads uneven."""
    size = np.exp(rng.normal(0, uneven, count)) * (1 + 0.2 * uneven * _drift(rng, count))
    edges = np.concatenate([[0], np.cumsum(size)]) * (count / size.sum())
    fine = np.linspace(0, count, 64 * count + 1)
    number = np.clip(np.searchsorted(edges, fine, side="right") - 1, 0, count - 1)
    part = (fine - edges[number]) / (edges[number + 1] - edges[number])
    at = np.clip((place * np.float32(64) + np.float32(0.5)).astype(np.int32), 0, 64 * count)
    return number.astype(np.int32)[at], part.astype(np.float32)[at]


def _grain(
    rng: np.random.Generator, shape: tuple[int, int], rows: float, columns: float
) -> np.ndarray:
    """Noise of standard deviation 1, as coarse as asked in samples down and across."""
    y, x = max(1, int(rows)), max(1, int(columns))
    small = rng.standard_normal((shape[0] // y + 2, shape[1] // x + 2), dtype=np.float32)
    small = ndimage.gaussian_filter(small, (rows / y, columns / x))
    whole = small.repeat(y, axis=0).repeat(x, axis=1)[: shape[0], : shape[1]]
    return whole / np.float32(small.std())


def _drift(rng: np.random.Generator, count: int) -> np.ndarray:
    drift = ndimage.gaussian_filter1d(rng.standard_normal(count), 5, mode="wrap")
    return drift / (drift.std() + 1e-9)


def _woven(
    rng: np.random.Generator,
    scene: Scene,
    weft: np.ndarray,
    warp: np.ndarray,
    across: np.ndarray,
    along: np.ndarray,
) -> tuple[np.ndarray, np.ndarray]:
    """Light off the cloth, the higher thread at every place; and picks down the middle column."""
    sett = rng.uniform(0.75, 1.3)  # ends to a pick
    wobble = 0.25 * _slow(rng, across.shape, 4) + 0.05 * _slow(rng, across.shape, 60)
    pick, f = _threads(rng, (along + wobble).astype(np.float32), len(weft), scene.uneven)
    ends = int((across.max() - across.min()) * sett) + 4
    end, g = _threads(rng, (across - across.min()) * sett + 1, ends, scene.uneven)
    weave = rng.choice(["plain", "twill", "faced"]) if scene.weave == "any" else scene.weave
    over = {
        "plain": (pick + end) % 2 == 0,
        "twill": (pick + end) % 4 < 2,
        "faced": (pick + end) % 4 < 3,
    }[weave]
    middle = pick.shape[1] // 2
    down = pick[:, middle] + f[:, middle]
    f, g = 2 * f - 1, 2 * g - 1
    bulk = 1 + 0.7 * np.float32(scene.uneven) * _grain(rng, over.shape, 3, 20)
    rise = np.where(over, 0.5, -0.5).astype(np.float32)
    weft_high = np.sqrt(np.clip(1.1 - (f / bulk) ** 2, 0, None)) + rise * np.cos(g * np.pi / 2)
    warp_high = np.sqrt(np.clip(1.1 - (1.25 * g) ** 2, 0, None)) - rise * np.cos(f * np.pi / 2)
    lead = weft_high - warp_high
    share = rng.uniform(*scene.warp_shows)
    seen = np.clip((lead - np.quantile(lead[::7, ::7], share)) / 0.2 + 0.5, 0, 1)[..., None]
    side = rng.uniform(0, 2 * np.pi)
    ahead, beyond = np.float32(0.14 * np.cos(side)), np.float32(0.04 * np.sin(side))
    tilted, aside = np.float32(0.14 * np.sin(side)), np.float32(0.04 * np.cos(side))
    weft_lit = 0.8 + 0.2 * weft_high / 1.5 - f * tilted - g * aside
    warp_lit = 0.72 + 0.2 * warp_high / 1.5 - g * ahead - f * beyond
    shade = rng.normal(1, 0.035, len(weft)).astype(np.float32)
    weft_lit = weft_lit * shade[pick] * (1 + np.float32(0.05) * _grain(rng, over.shape, 1, 4))
    weft_rgb = weft.astype(np.float32)[pick] * weft_lit[..., None]
    warp_rgb = warp.astype(np.float32) * warp_lit[..., None]
    return weft_rgb * seen + warp_rgb * (1 - seen), down


def _ground(rng: np.random.Generator, kind: str, shape: tuple[int, int]) -> np.ndarray:
    """What the cloth lies on."""
    if kind == "boards":
        lab = np.array([rng.uniform(25, 75), rng.uniform(2, 14), rng.uniform(6, 28)])
        way = (2, 70) if rng.random() < 0.5 else (70, 2)
        tone = 1 + np.float32(0.09) * _grain(rng, shape, *way)
        axis = np.arange(shape[0 if way[0] == 2 else 1])
        joint = 1 - 0.5 * (axis % int(rng.uniform(180, 420)) < 6)
        tone *= joint[:, None] if way[0] == 2 else joint[None, :]
    elif kind == "bed":
        lab = np.array([rng.uniform(60, 93), rng.uniform(-4, 6), rng.uniform(-8, 10)])
        tone = 1 + 0.08 * _slow(rng, shape, 5) + np.float32(0.02) * _grain(rng, shape, 1, 1)
    elif kind == "grass":
        lab = np.array([rng.uniform(35, 55), rng.uniform(-25, -12), rng.uniform(20, 35)])
        tone = 1 + np.float32(0.2) * (_grain(rng, shape, 9, 2) + _grain(rng, shape, 3, 3))
    else:
        lab = np.array([rng.uniform(30, 92), rng.uniform(-6, 6), rng.uniform(-6, 10)])
        tone = 1 + np.float32(0.015) * _grain(rng, shape, 2, 2)
    return _to_light(lab)[0].astype(np.float32) * np.clip(tone, 0.2, 1.8)[..., None]


def _lay(
    rng: np.random.Generator,
    scene: Scene,
    cloth: np.ndarray,
    across: np.ndarray,
    beyond: np.ndarray,
    half: float,
    warp: np.ndarray,
) -> tuple[np.ndarray, str]:
    """Put the cloth on its ground: selvedges, a fringe or a hem, and its shadow."""
    kind = (
        str(rng.choice(["boards", "bed", "grass", "wall"]))
        if scene.ground == "any"
        else scene.ground
    )
    ends = str(rng.choice(["fringe", "hem", "bare"])) if scene.ends == "any" else scene.ends
    ground = _ground(rng, kind, across.shape)
    if ends == "hem":
        depth = rng.uniform(4, 8)
        stitch = np.exp(-(((beyond + depth) / 0.6) ** 2))
        cloth = cloth * (1 - 0.22 * stitch)[..., None]
    if ends == "fringe":
        bundle = np.float32(rng.uniform(4, 9))
        slot = np.floor(across / bundle)
        long = rng.uniform(8, 16) * (1 + 0.1 * np.sin(slot * 7.7))
        lean = 0.18 * np.sin(slot * 3.1) * np.clip(beyond, 0, None) / bundle
        off = across / bundle - slot - 0.5 + lean
        covers = (beyond > -0.5) & (beyond < long) & (np.abs(off) < 0.33) & (np.abs(across) < half)
        twist = 0.82 + 0.18 * np.cos(2 * np.pi * (off + beyond / 2.5))
        ground = np.where(covers[..., None], warp.astype(np.float32) * twist[..., None], ground)
    selvedge = half + 0.35 * np.sin(np.floor(beyond) * np.pi) + 0.2 * np.sin(beyond * 1.7)
    inside = (beyond < 0) & (np.abs(across) < selvedge)
    shift = tuple(int(v) for v in rng.integers(-14, 15, 2))
    cast = ndimage.gaussian_filter(np.roll(inside, shift, (0, 1)).astype(np.float32), 10)
    ground = ground * (1 - 0.5 * cast * rng.random())[..., None]
    return np.where(inside[..., None], cloth, ground), f"{kind}, {ends}"


def _lamp(rng: np.random.Generator, scene: Scene, shape: tuple[int, int]) -> np.ndarray:
    """Light that falls off from a lamp to one side, times the lens's own vignette."""
    y = np.linspace(-1, 1, shape[0], dtype=np.float32)[:, None]
    x = np.linspace(-1, 1, shape[1], dtype=np.float32)[None, :]
    turn, away = rng.uniform(0, 2 * np.pi), rng.uniform(1.2, 3)
    lamp = 1 / (1.5 + (x - away * np.cos(turn)) ** 2 + (y - away * np.sin(turn)) ** 2)
    vignette = 1 / (1 + rng.uniform(0, 0.2) * (x**2 + y**2)) ** 2
    both = np.log(lamp * vignette)
    both = (both - both.max()) / (both.max() - both.min())
    return np.exp(both * -np.log(rng.uniform(scene.light_left, 1)))


def _developed(rng: np.random.Generator, scene: Scene, light: np.ndarray) -> np.ndarray:
    """Lens, sensor and file."""
    blur = rng.uniform(*scene.blur_px)
    soft = np.stack([ndimage.gaussian_filter(light[..., c], blur) for c in range(3)], axis=-1)
    soft = soft * rng.uniform(0.75, 1.0) * rng.uniform(0.94, 1.0, 3)  # exposure, white balance
    photons = 255**2 / scene.noise**2 / 6
    soft = np.clip(
        soft + rng.standard_normal(soft.shape) * np.sqrt(np.clip(soft, 0, 1) / photons + 2e-6), 0, 1
    )
    code = np.where(soft <= 0.0031308, 12.92 * soft, 1.055 * soft ** (1 / 2.4) - 0.055)
    store = io.BytesIO()
    pixels = (code * 255 + 0.5).astype(np.uint8)
    quality = int(rng.integers(scene.jpeg[0], scene.jpeg[1] + 1))
    Image.fromarray(pixels).save(store, format="JPEG", quality=quality)
    return np.asarray(Image.open(store).convert("RGB"))


def lay_out(  # noqa: PLR0915 - one long list of steps
    seed: int, scene: Scene
) -> LaidOut:
    """Picture of one cloth; the seed decides what the scene leaves open."""
    rng = np.random.default_rng([seed, 271828])
    width = scene.long_side_px
    height = round(width * rng.choice([0.66, 0.75]))
    labs = _yarns(rng, scene)
    fill = 1.0 if scene.fills else rng.uniform(0.72, 0.86)
    px = float(np.exp(rng.uniform(*np.log(scene.px_per_pick))))
    sequence, picks = _design(rng, scene, len(labs), height * fill / px)
    total = sum(picks)
    px = min(height * fill / total, scene.px_per_pick[1])
    shape = (height * _SAMPLES, width * _SAMPLES)
    across, along, skew = _camera(rng, scene, shape, px * _SAMPLES)
    weft = np.repeat(_to_light(labs)[np.array(sequence)], picks, axis=0)
    warp = _to_light(_UNDYED[rng.integers(len(_UNDYED))] + rng.normal(0, 4, 3))[0]
    spare = total if scene.fills else 0
    weft = np.concatenate([weft[:1].repeat(spare, 0), weft, weft[-1:].repeat(spare, 0)])
    start = np.float32(total / 2 + spare)
    cloth, down = _woven(rng, scene, weft, warp, across, along + start)
    shape_mid = (shape[0] // 2, shape[1] // 2)
    density = rng.uniform(4, 14)
    half = width * rng.uniform(0.34, 0.42) / px
    if scene.fills:
        picture, told = cloth, "fills the picture"
        middle = down - spare
        edges = np.concatenate([[middle[0]], np.cumsum(picks)[:-1], [middle[-1]]])
        shown = np.diff(np.clip(edges, middle[0], middle[-1]))
        half = float(np.ptp(across[shape_mid[0]])) / 2
    else:
        beyond = np.abs(along) - total / 2
        picture, told = _lay(rng, scene, cloth, across, beyond, half, warp)
        shown = np.array(picks, dtype=float)
    picture = picture * _lamp(rng, scene, shape)[..., None]
    small = picture.reshape(height, _SAMPLES, width, _SAMPLES, 3).mean(axis=(1, 3))
    pixels = _developed(rng, scene, small)
    if scene.upright:
        pixels = np.ascontiguousarray(np.rot90(pixels))
    return LaidOut(
        pixels=pixels,
        sequence=tuple(sequence),
        picks=tuple(float(pick) for pick in shown),
        skew_degrees=skew,
        px_per_pick=px,
        picks_per_cm=density,
        width_mm=2 * half / density * 10,
        told=told,
    )
